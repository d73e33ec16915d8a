/**
 * Light and brightness of single pendants at nodes of the lattice, each worked out once for as long as it is wanted.
 *
 * Cache: the field of one kind at one node and clearance, until told to forget; kernels by kind and drop for the life of
 * the object.
 */

import { seenLuminaire } from "../../advice/glare/seen-luminaire.ts";
import { DirectSources } from "../../engine/direct/direct-sources.ts";
import { hungAt } from "../../scene/arrangement.ts";
import { topHeightAt } from "../../scene/island-frame.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Person, Scene } from "../../scene/scene.ts";
import type { Kind } from "./candidate.ts";
import { LatticeKernel } from "./lattice-kernel.ts";
import { placeOf, type SearchGrid } from "./search-grid.ts";

/** One pendant at one node: its direct light, maintained and dimmed (lx), and the luminance it shows people. */
export interface Station {
  readonly field: Float64Array;
  readonly luminance: number;
}

export interface StationsRequest {
  readonly scene: Scene;
  readonly layer: number;
  readonly kinds: readonly Kind[];
  readonly grid: SearchGrid;
  readonly nearFieldError: number;
}

/** Fields of single pendants at nodes of the lattice, kept until told to forget. */
export class Stations {
  readonly #request: StationsRequest;
  readonly #sources = new DirectSources();
  readonly #kernels = new Map<string, LatticeKernel>();
  readonly #known = new Map<number, Station>();
  readonly #spare: Float64Array[] = [];
  readonly #reach: readonly [number, number];

  constructor(request: StationsRequest) {
    this.#request = request;
    const { nodes, island, step } = request.grid;
    let [i, j] = [0, 0];
    for (let k = 0; k < nodes.length; k += 2) {
      i = Math.max(i, Math.abs(nodes[k]));
      j = Math.max(j, Math.abs(nodes[k + 1]));
    }
    // A pendant hangs over the top, or beside it by no more than the top's own size.
    this.#reach = [i + Math.ceil(island.length / step), j + Math.ceil(island.width / step)];
  }

  forget(): void {
    for (const { field } of this.#known.values()) this.#spare.push(field);
    this.#known.clear();
  }

  /** Of kind `k` at node (a, b), its lowest point `clearance` (m) above the top. All asked for between two calls of
   * {@link forget} must be of one clearance. */
  at(k: number, clearance: number, a: number, b: number): Station {
    const key = (k * 4096 + a + 2048) * 4096 + b + 2048;
    let station = this.#known.get(key);
    if (station === undefined) {
      station = this.#make(k, clearance, a, b);
      this.#known.set(key, station);
    }
    return station;
  }

  #make(k: number, clearance: number, a: number, b: number): Station {
    const { grid, kinds, scene, layer } = this.#request;
    const { island, step, nodes, levels } = grid;
    const kind = kinds[k];
    const field = this.#spare.pop() ?? new Float64Array(grid.points.length / 3);
    const p = placeOf(island, step, a, b);
    const origin = hungAt(island, p, clearance, kind.lowest);
    const above = topHeightAt(island, p);
    for (const { height, which } of levels) {
      const drop = above - height + clearance - kind.lowest;
      this.#kernel(k, drop).write(a, b, nodes, which, field);
    }
    const placed = { luminaire: kind.luminaire, frame: { origin, rotation: kind.rotation } };
    const output = maintainedShare(scene, scene.layers[layer]);
    for (let i = 0; i < field.length; i++) field[i] *= output;
    let luminance = 0;
    for (const person of scene.people) {
      if (!faces(person, origin) || origin[2] <= person.eye[2]) continue;
      luminance = Math.max(luminance, seenLuminaire(placed, person.eye, output).luminance);
    }
    return { field, luminance };
  }

  #kernel(k: number, drop: number): LatticeKernel {
    const key = `${k} ${drop.toFixed(7)}`;
    let kernel = this.#kernels.get(key);
    if (kernel === undefined) {
      const { grid, kinds, nearFieldError } = this.#request;
      kernel = new LatticeKernel(
        kinds[k].luminaire,
        {
          rotation: kinds[k].rotation,
          drop,
          turn: grid.island.turn,
          step: grid.step,
          reach: this.#reach,
        },
        this.#sources.of(kinds[k].luminaire, nearFieldError),
      );
      this.#kernels.set(key, kernel);
    }
    return kernel;
  }
}

function faces({ eye, facing }: Person, at: readonly [number, number, number]): boolean {
  return (at[0] - eye[0]) * Math.cos(facing) + (at[1] - eye[1]) * Math.sin(facing) > 0;
}
