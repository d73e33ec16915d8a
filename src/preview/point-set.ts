/**
 * Points to be lit, as two float textures, and the draws that light them: one for every luminaire and list of solids
 * that may stand between, of all the tiles of points for which both are the same. What a luminaire cannot reach is not
 * drawn at all.
 */

import { BufferAttribute, BufferGeometry, type DataTexture } from "three";
import { floatTexture } from "./float-texture.ts";
import type { SceneTexture } from "./scene-texture.ts";
import type { Between } from "./solids-between.ts";

/** A rectangle of texels whose points are of one row. */
export interface Region {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Row of pairs (`scene-texture.ts`). */
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
  /** Index among the scene texture's luminaires. */
  readonly luminaire: number;
  readonly between: Between;
  /** Range of the geometry's index. */
  readonly start: number;
  readonly count: number;
  readonly texels: number;
}

/** Most texels of one draw, so that long work can be laid down between any two. */
const TEXELS = 6000;
/** Side of a tile of points that are lit alike (texels). */
const TILE = 16;

export class PointSet {
  readonly width: number;
  readonly height: number;
  readonly places: DataTexture;
  readonly facings: DataTexture;
  readonly geometry = new BufferGeometry();
  readonly draws: readonly LightDraw[];

  constructor({ width, height, places, facings, regions }: PointValues, records: SceneTexture) {
    this.width = width;
    this.height = height;
    this.places = floatTexture(places, width, height);
    this.facings = floatTexture(facings, width, height);
    const tiles = tilesOf(regions, width, places);
    const corners = new Float32Array(12 * tiles.length);
    tiles.forEach(({ x, y, width: w, height: h }, i) => {
      const at = (a: number, b: number): number[] => [(2 * a) / width - 1, (2 * b) / height - 1, 0];
      corners.set([...at(x, y), ...at(x + w, y), ...at(x + w, y + h), ...at(x, y + h)], 12 * i);
    });
    const index: number[] = [];
    this.draws = drawsOf(tiles, records, index);
    this.geometry.setAttribute("position", new BufferAttribute(corners, 3));
    this.geometry.setIndex(new BufferAttribute(Uint32Array.from(index), 1));
  }

  dispose(): void {
    this.places.dispose();
    this.facings.dispose();
    this.geometry.dispose();
  }
}

interface Tile extends Region {
  /** Bounds of its points: least, then greatest corner (m). */
  readonly box: Float64Array;
}

/** Regions cut into tiles; those without a point are left out. */
function tilesOf(regions: readonly Region[], width: number, places: Float32Array): Tile[] {
  const tiles: Tile[] = [];
  for (const region of regions)
    for (let y = region.y; y < region.y + region.height; y += TILE)
      for (let x = region.x; x < region.x + region.width; x += TILE) {
        const [w, h] = [
          Math.min(TILE, region.x + region.width - x),
          Math.min(TILE, region.y + region.height - y),
        ];
        const box = new Float64Array(6)
          .fill(Number.POSITIVE_INFINITY, 0, 3)
          .fill(Number.NEGATIVE_INFINITY, 3);
        for (let j = y; j < y + h; j++)
          for (let i = x; i < x + w; i++) {
            const at = 4 * (j * width + i);
            if (places[at + 3] < 0) continue;
            for (let k = 0; k < 3; k++) {
              box[k] = Math.min(box[k], places[at + k]);
              box[k + 3] = Math.max(box[k + 3], places[at + k]);
            }
          }
        if (box[0] <= box[3]) tiles.push({ x, y, width: w, height: h, row: region.row, box });
      }
  return tiles;
}

function drawsOf(tiles: readonly Tile[], records: SceneTexture, index: number[]): LightDraw[] {
  const draws: LightDraw[] = [];
  records.luminaires.forEach((_, luminaire) => {
    const alike = new Map<string, { readonly between: Between; readonly tiles: number[] }>();
    tiles.forEach(({ row, box }, t) => {
      const between = records.solidsBetween.between(row, luminaire, box);
      if (between === undefined) return;
      const key = `${between.convex} ${between.meshes}`;
      const group = alike.get(key);
      if (group === undefined) alike.set(key, { between, tiles: [t] });
      else group.tiles.push(t);
    });
    for (const { between, tiles: members } of alike.values()) {
      let start = index.length;
      let texels = 0;
      const close = (): void => {
        if (texels > 0) draws.push({ luminaire, between, start, count: index.length - start, texels });
        start = index.length;
        texels = 0;
      };
      for (const t of members) {
        const size = tiles[t].width * tiles[t].height;
        if (texels + size > TEXELS) close();
        index.push(...[0, 1, 2, 0, 2, 3].map((k) => 4 * t + k));
        texels += size;
      }
      close();
    }
  });
  return draws;
}
