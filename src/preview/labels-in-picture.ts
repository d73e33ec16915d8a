/** Where the isolux lines on the surfaces bear their figures: two fifths along each line, the longest lines first, apart from others. */

import { contours } from "d3-contour";
import type { ScaleStep } from "../drawing/light-scale.ts";
import { type FlatSurface, nodePlace } from "../engine/surfaces/surface-lattice.ts";
import { pointOfPlane } from "../geometry/plane-frame.ts";
import { depthInside } from "../geometry/polygon.ts";
import { add, scale, type Vec2, type Vec3 } from "../geometry/vector.ts";
import type { SurfaceAtlas } from "./surface-atlas.ts";

/** Shorter lines go without (m), and labels keep apart by this much. */
const SHORTEST = 0.45;
const APART = 0.34;
const MOST = 90;
const CLEAR = 0.05;

export interface IsoluxLabel {
  readonly text: string;
  readonly level: number;
  readonly at: Vec3;
  /** Normal of its surface. */
  readonly normal: Vec3;
}

/** Within the surface, away from its edges and holes. */
function isWell({ outline, holes }: FlatSurface, place: Vec2): boolean {
  return depthInside(place, outline) > CLEAR && holes.every((hole) => depthInside(place, hole) < -CLEAR);
}

export function isoluxLabels(
  atlas: SurfaceAtlas,
  lux: Float32Array,
  steps: readonly ScaleStep[],
): IsoluxLabel[] {
  const candidates: (IsoluxLabel & { readonly length: number })[] = [];
  for (const { flat, lattice, x, y } of atlas.cells) {
    const { columns, rows } = lattice;
    if (flat.length < 0.3 || flat.width < 0.15) continue;
    // Every other node is enough to place a word.
    const skip = columns * rows > 3000 ? 2 : 1;
    const [c, r] = [Math.ceil(columns / skip), Math.ceil(rows / skip)];
    const values = new Array<number>(c * r);
    let low = Number.POSITIVE_INFINITY;
    let high = 0;
    for (let j = 0; j < r; j++)
      for (let i = 0; i < c; i++) {
        const E = lux[(y + j * skip) * atlas.width + x + i * skip];
        values[j * c + i] = E;
        low = Math.min(low, E);
        high = Math.max(high, E);
      }
    const trace = contours().size([c, r]).smooth(true);
    for (const { level, label } of steps) {
      if (level <= low || level >= high) continue;
      for (const ring of trace.contour(values, level).coordinates.flat()) {
        const line = ring
          .map(([i, j]): [number, number] => [
            nodePlace(Math.min(columns - 1, Math.max(0, (i - 0.5) * skip)), columns, flat.length),
            nodePlace(Math.min(rows - 1, Math.max(0, (j - 0.5) * skip)), rows, flat.width),
          ])
          .filter((place) => isWell(flat, place));
        let length = 0;
        for (let k = 1; k < line.length; k++)
          length += Math.hypot(line[k][0] - line[k - 1][0], line[k][1] - line[k - 1][1]);
        if (length < SHORTEST) continue;
        const at = add(pointOfPlane(line[Math.floor(line.length * 0.4)], flat), scale(flat.normal, 0.006));
        candidates.push({ text: label, level, at, normal: flat.normal, length });
      }
    }
  }
  candidates.sort((a, b) => b.length - a.length);
  const labels: IsoluxLabel[] = [];
  for (const label of candidates) {
    if (labels.length >= MOST) break;
    const near = labels.some(
      ({ at }) => Math.hypot(at[0] - label.at[0], at[1] - label.at[1], at[2] - label.at[2]) < APART,
    );
    if (!near) labels.push(label);
  }
  return labels;
}
