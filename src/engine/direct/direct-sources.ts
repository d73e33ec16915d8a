/**
 * Sources of direct light by what they are: node tables and near fields are dear to make and outlive a move.
 *
 * | kept                             | depends on                                  |
 * | lookup and nodes of an opening   | the luminaire's light                       |
 * | near-field lattice               | the light traced from lamp and shade        |
 * | node table                       | the luminaire's light, near-field bound; cells of larger bounds are those of the default |
 *
 * A luminaire's light is its distribution, opening and flux, and what it was traced from. A place or a dimmer is no part of any key. What is kept is forgotten {@link KEEP} turns after it was last asked for, the
 * latest {@link LEAST} apart; who never turns keeps all, for as long as the sources themselves are kept.
 */

import type { SurfaceEmission } from "../../luminaire/emission.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { NearFieldLattice } from "../../luminaire/shade/near-field-lattice.ts";
import type { ShadeLight } from "../../luminaire/shade/shade-light.ts";
import { contentKey } from "../../numerics/content-key.ts";
import { RecentCache } from "../../numerics/recent-cache.ts";
import { DEFAULT_OPTIONS } from "../../scene/calculation-options.ts";
import { DirectSource, type SourceParts } from "./direct-source.ts";
import { OpeningQuadrature } from "./opening-quadrature.ts";

const KEEP = 4;
/** About a quarter of a megabyte each. A search takes a dozen luminaires in turn. */
const LEAST = 24;

/** Bound that node tables of larger bounds are measured for too: what is hard to find is the rule that all others are measured
 * against, and that is hardly cheaper for a larger one. */
const MEASURED_ERROR = DEFAULT_OPTIONS.nearFieldError;

/** A luminaire in its place as a source of direct light. */
export interface PlacedSource extends PlacedLuminaire {
  readonly source: DirectSource;
}

export class DirectSources {
  readonly #keys = new WeakMap<Luminaire, string>();
  readonly #quadratures = new RecentCache<OpeningQuadrature>(KEEP, LEAST);
  readonly #lattices = new RecentCache<NearFieldLattice>(KEEP, LEAST);
  readonly #sources = new RecentCache<DirectSource>(KEEP, LEAST);

  /** @param nearFieldError largest accepted error, relative to the larger of contribution and floor */
  of(luminaire: Luminaire, nearFieldError: number): DirectSource {
    const key = this.keyOf(luminaire);
    const parts = this.#partsOf(luminaire, key);
    // A draft reads the table that the calculation in full needs.
    const table = nearFieldError > MEASURED_ERROR ? this.of(luminaire, MEASURED_ERROR).table : undefined;
    return this.#sources.get(
      contentKey(key, nearFieldError),
      () => new DirectSource(luminaire, nearFieldError, table === undefined ? parts : { ...parts, table }),
    );
  }

  placed({ luminaire, frame }: PlacedLuminaire, nearFieldError: number): PlacedSource {
    return { luminaire, frame, source: this.of(luminaire, nearFieldError) };
  }

  /** The near field of a luminaire from lamp and shade; one for all its sizes and lamps. */
  lattice({ light }: SurfaceEmission): NearFieldLattice {
    return this.#lattices.get(lightKey(light), () => new NearFieldLattice(light));
  }

  /** The content of a luminaire's light. */
  keyOf(luminaire: Luminaire): string {
    let key = this.#keys.get(luminaire);
    if (key === undefined) {
      key = luminaireKey(luminaire);
      this.#keys.set(luminaire, key);
    }
    return key;
  }

  /** One calculation is over. */
  turn(): void {
    this.#quadratures.turn();
    this.#lattices.turn();
    this.#sources.turn();
  }

  /** How many of each are kept, for tests of memory. */
  get size(): number {
    return this.#quadratures.size + this.#lattices.size + this.#sources.size;
  }

  #partsOf({ emission, distribution }: Luminaire, key: string): SourceParts {
    if (emission.kind === "surfaces") return { lattice: this.lattice(emission) };
    return {
      quadrature: this.#quadratures.get(key, () => new OpeningQuadrature(distribution, emission.opening)),
    };
  }
}

function luminaireKey({ distribution: d, emission, flux }: Luminaire): string {
  const { shape, length, width, height } = emission.opening;
  const near =
    emission.kind === "opening"
      ? [emission.uncertain]
      : [lightKey(emission.light), emission.size, emission.strength];
  return contentKey(
    d.type,
    d.symmetry,
    d.horizontal,
    d.vertical,
    d.intensity,
    shape,
    length,
    width,
    height,
    flux,
    emission.kind,
    ...near,
  );
}

function lightKey({ assembly, inwardExitance, outwardExitance, mirrored }: ShadeLight): string {
  const { surface, straight, reach, centre, flux, lamps } = assembly;
  return contentKey(
    surface.r0,
    surface.z0,
    surface.r1,
    surface.z1,
    surface.bend,
    straight,
    reach,
    centre,
    flux,
    inwardExitance,
    outwardExitance,
    mirrored === undefined ? 0 : new Uint32Array(mirrored.values.buffer),
    ...lamps.flatMap((lamp) => [lamp.flux, lamp.shape, lamp.size, lamp.z, lamp.radius, lamp.count, lamp.law]),
  );
}
