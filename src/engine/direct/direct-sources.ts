/** Every kind of source of direct light: those of `opening-sources.ts`, and near fields of lamp and shade, kept the same way. */

import type { SurfaceEmission } from "../../luminaire/near-field.ts";
import { NearFieldLattice } from "../../luminaire/shade/near-field-lattice.ts";
import { RecentCache } from "../recent-cache.ts";
import { KEEP, LEAST, lightKey, OpeningSources } from "./opening-sources.ts";

export type { PlacedSource } from "./opening-sources.ts";

export class DirectSources extends OpeningSources {
  readonly #lattices = new RecentCache<NearFieldLattice>(KEEP, LEAST);

  override lattice({ light }: SurfaceEmission): NearFieldLattice {
    return this.#lattices.get(lightKey(light), () => new NearFieldLattice(light));
  }

  override turn(): void {
    super.turn();
    this.#lattices.turn();
  }

  override get size(): number {
    return super.size + this.#lattices.size;
  }
}
