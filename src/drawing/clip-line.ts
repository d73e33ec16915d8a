import { isInside } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";

/** The parts of a line inside a simple polygon (may be concave), in order. A closed line that is wholly inside
 * stays closed. */
export function clipLine(points: readonly Vec2[], polygon: readonly Vec2[]): Vec2[][] {
  const parts: Vec2[][] = [];
  let part: Vec2[] = [];
  const close = (): void => {
    if (part.length > 1) parts.push(part);
    part = [];
  };
  for (let k = 0; k + 1 < points.length; k++) {
    const a = points[k];
    const b = points[k + 1];
    const cuts = [0, ...crossings(a, b, polygon), 1];
    for (let c = 0; c + 1 < cuts.length; c++) {
      if (cuts[c + 1] - cuts[c] < 1e-12) continue;
      if (!isInside(between(a, b, (cuts[c] + cuts[c + 1]) / 2), polygon)) {
        close();
        continue;
      }
      if (part.length === 0) part.push(between(a, b, cuts[c]));
      part.push(between(a, b, cuts[c + 1]));
    }
  }
  close();
  return joined(parts);
}

/** A closed line cut elsewhere is not to be broken where it happened to start. */
function joined(parts: Vec2[][]): Vec2[][] {
  if (parts.length < 2) return parts;
  const first = parts[0];
  const last = parts[parts.length - 1];
  const [x, y] = last[last.length - 1];
  if (first[0][0] !== x || first[0][1] !== y) return parts;
  return [[...last, ...first.slice(1)], ...parts.slice(1, -1)];
}

function crossings(a: Vec2, b: Vec2, polygon: readonly Vec2[]): number[] {
  const pieces: number[] = [];
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const ex = polygon[i][0] - polygon[j][0];
    const ey = polygon[i][1] - polygon[j][1];
    const cross = dx * ey - dy * ex;
    if (cross === 0) continue;
    const rx = polygon[j][0] - a[0];
    const ry = polygon[j][1] - a[1];
    const t = (rx * ey - ry * ex) / cross;
    const s = (rx * dy - ry * dx) / cross;
    if (t > 0 && t < 1 && s >= 0 && s <= 1) pieces.push(t);
  }
  return pieces.sort((p, q) => p - q);
}

function between(a: Vec2, b: Vec2, t: number): Vec2 {
  if (t === 0) return a;
  if (t === 1) return b;
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}
