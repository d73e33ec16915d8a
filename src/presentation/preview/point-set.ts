/**
 * Points to be lit, as two float textures, and the draws that light them: one for every luminaire, list of solids that
 * may stand between and handful of regions. What a luminaire cannot reach is not drawn at all.
 */

import { BufferAttribute, BufferGeometry, type DataTexture } from "three";
import { floatTexture } from "./float-texture.ts";
import type { LightBook } from "./light-book.ts";
import type { Pair } from "./pair-lists.ts";

/** A rectangle of texels whose points are of one row of pairs. */
export interface Region {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Row of pairs (`light-book.ts`). */
  readonly row: number;
}

/** Points and normals, four floats a texel; the fourth of a place is negative for no point. */
export interface PointValues {
  readonly width: number;
  readonly height: number;
  readonly places: Float32Array;
  readonly facings: Float32Array;
  readonly regions: readonly Region[];
}

export interface LightDraw {
  /** Index among the book's luminaires. */
  readonly luminaire: number;
  readonly pair: Pair;
  /** Range of the geometry's index. */
  readonly start: number;
  readonly count: number;
  readonly texels: number;
}

/** Most texels of one draw, so that long work can be laid down between any two. */
const TEXELS = 6000;

export class PointSet {
  readonly width: number;
  readonly height: number;
  readonly places: DataTexture;
  readonly facings: DataTexture;
  readonly geometry = new BufferGeometry();
  readonly draws: readonly LightDraw[];

  constructor({ width, height, places, facings, regions }: PointValues, book: LightBook) {
    this.width = width;
    this.height = height;
    this.places = floatTexture(places, width, height);
    this.facings = floatTexture(facings, width, height);
    const corners = new Float32Array(12 * regions.length);
    regions.forEach(({ x, y, width: w, height: h }, i) => {
      const at = (a: number, b: number): number[] => [(2 * a) / width - 1, (2 * b) / height - 1, 0];
      corners.set([...at(x, y), ...at(x + w, y), ...at(x + w, y + h), ...at(x, y + h)], 12 * i);
    });
    const index: number[] = [];
    this.draws = drawsOf(regions, book, index);
    this.geometry.setAttribute("position", new BufferAttribute(corners, 3));
    this.geometry.setIndex(new BufferAttribute(Uint32Array.from(index), 1));
  }

  dispose(): void {
    this.places.dispose();
    this.facings.dispose();
    this.geometry.dispose();
  }
}

function drawsOf(regions: readonly Region[], { luminaires, pairs }: LightBook, index: number[]): LightDraw[] {
  const draws: LightDraw[] = [];
  luminaires.forEach((_, luminaire) => {
    const alike = new Map<number, { readonly pair: Pair; readonly regions: number[] }>();
    regions.forEach(({ row }, r) => {
      const pair = pairs[row * luminaires.length + luminaire];
      if (!pair.lit) return;
      const group = alike.get(pair.convex + pair.meshes === 0 ? -1 : pair.first);
      if (group !== undefined) group.regions.push(r);
      else alike.set(pair.convex + pair.meshes === 0 ? -1 : pair.first, { pair, regions: [r] });
    });
    for (const { pair, regions: members } of alike.values()) {
      let start = index.length;
      let texels = 0;
      const close = (): void => {
        if (texels > 0) draws.push({ luminaire, pair, start, count: index.length - start, texels });
        start = index.length;
        texels = 0;
      };
      for (const r of members) {
        const size = regions[r].width * regions[r].height;
        if (texels + size > TEXELS) close();
        index.push(...[0, 1, 2, 0, 2, 3].map((k) => 4 * r + k));
        texels += size;
      }
      close();
    }
  });
  return draws;
}
