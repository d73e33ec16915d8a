/**
 * The points candidates are compared on: nodes of a lattice over the island's top, shared by the places of luminaires.
 *
 * The lattice is centred on the middle of the island, along and across it. Luminaires hang over any node (i, j);
 * points stand at odd i and j, so that each is the centre of a square cell of twice the step, and a row about the
 * middle sees the top symmetrically. A zone takes the cells whose centre it holds, weighted by the area inside.
 *
 * Known error: a zone's figures on this grid are not those of its verification grid (a denser grid finds a darker
 * minimum); a proposal is judged on the verification grid by the full check.
 */

import { area, depthInside, type Polygon, rectangle } from "../../geometry/polygon.ts";
import { clip, convexPieces } from "../../geometry/polygon-pieces.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { islandToRoom, topHeightAt } from "../../scene/island-frame.ts";
import type { Island, Zone } from "../../scene/scene.ts";

export interface SearchGrid {
  readonly island: Island;
  /** m */
  readonly step: number;
  /** i, j per point. */
  readonly nodes: Int32Array;
  /** Heights of the planes the points lie on (m), and the points of each. */
  readonly levels: readonly { readonly height: number; readonly which: Int32Array }[];
  /** x, y, z in the room per point (m). */
  readonly points: Float64Array;
  readonly top: GridPart;
  readonly zones: readonly (GridPart & { readonly zone: Zone })[];
}

/** Some of the points, with the area each stands for (m²). */
export interface GridPart {
  readonly which: Int32Array;
  readonly weights: Float64Array;
}

const HEIGHT_GRAIN = 1e-6;

/** A place of the lattice in the island's frame (m). */
export function placeOf({ length, width }: Island, step: number, i: number, j: number): Vec2 {
  return [length / 2 + i * step, width / 2 + j * step];
}

export function searchGrid(island: Island, zones: readonly Zone[], step: number): SearchGrid {
  const nodes: number[] = [];
  const points: number[] = [];
  const heights: number[] = [];
  const indices = new Map<string, number>();
  const pointOf = (i: number, j: number, height: number): number => {
    const key = `${i} ${j} ${Math.round(height / HEIGHT_GRAIN)}`;
    let index = indices.get(key);
    if (index === undefined) {
      index = heights.length;
      indices.set(key, index);
      nodes.push(i, j);
      heights.push(height);
      points.push(...islandToRoom(island, placeOf(island, step, i, j)), height);
    }
    return index;
  };
  const part = (outline: Polygon, heightAt: (p: Vec2) => number): GridPart => {
    const pieces = convexPieces(outline);
    const which: number[] = [];
    const weights: number[] = [];
    const last = (side: number): number => 2 * Math.ceil(side / (4 * step)) - 1;
    const [ci, cj] = [last(island.length), last(island.width)];
    for (let j = -cj; j <= cj; j += 2)
      for (let i = -ci; i <= ci; i += 2) {
        const p = placeOf(island, step, i, j);
        if (!pieces.some((piece) => depthInside(p, piece) > -1e-9)) continue;
        const cell = rectangle(p[0] - step, p[1] - step, 2 * step, 2 * step);
        which.push(pointOf(i, j, heightAt(p)));
        weights.push(area(pieces.map((piece) => clip(cell, piece)).filter((each) => each.length > 0)));
      }
    return { which: Int32Array.from(which), weights: Float64Array.from(weights) };
  };
  const top = part(island.outline, (p) => topHeightAt(island, p));
  const judged = zones.map((zone) => ({ zone, ...part(zone.outline, () => zone.height) }));
  const byHeight = new Map<number, number[]>();
  heights.forEach((height, index) => {
    const key = Math.round(height / HEIGHT_GRAIN);
    byHeight.set(key, [...(byHeight.get(key) ?? []), index]);
  });
  return {
    island,
    step,
    nodes: Int32Array.from(nodes),
    points: Float64Array.from(points),
    levels: [...byHeight.values()].map((which) => ({
      height: heights[which[0]],
      which: Int32Array.from(which),
    })),
    top,
    zones: judged,
  };
}
