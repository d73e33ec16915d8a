/** Parts of a body of flat faces: each face, rectangles cut into cells. */

import { facesOf } from "../../geometry/polyhedron-faces.ts";
import { cross, dot, subtract, type Vec3 } from "../../geometry/vector.ts";
import type { BodyParts } from "./body-parts.ts";

/** Cells are no longer than this, and looked from one point where they are no longer than that (m). */
const CELL = 0.35;
const SMALL = 0.12;
/** Points of direct light each way of a cell. */
const LIT = 4;
const GAUSS = [0.5 - 0.5 / Math.sqrt(3), 0.5 + 0.5 / Math.sqrt(3)];
const MIDDLE = [0.5];
const LIT_POINTS = Array.from({ length: LIT }, (_, k) => (k + 0.5) / LIT);

/** Adds the faces of all pieces. */
export function addFaceParts(parts: BodyParts, reflectance: number): void {
  parts.pieces.forEach((solid, piece) => {
    for (const { corners, normal } of facesOf(solid)) {
      if (isRectangle(corners)) addCells(parts, piece, corners, normal, reflectance);
      else addOutline(parts, piece, corners, normal, reflectance);
    }
  });
}

function isRectangle(corners: readonly Vec3[]): boolean {
  if (corners.length !== 4) return false;
  const [a, b, c, d] = corners;
  const u = subtract(b, a);
  const v = subtract(d, a);
  const diagonal = subtract(c, a);
  const off = Math.hypot(diagonal[0] - u[0] - v[0], diagonal[1] - u[1] - v[1], diagonal[2] - u[2] - v[2]);
  return off < 1e-7 && Math.abs(dot(u, v)) < 1e-7;
}

function addCells(
  parts: BodyParts,
  piece: number,
  [a, b, , d]: readonly Vec3[],
  normal: Vec3,
  reflectance: number,
): void {
  const u = subtract(b, a);
  const v = subtract(d, a);
  const [length, width] = [Math.hypot(...u), Math.hypot(...v)];
  const columns = Math.ceil(length / CELL - 1e-9);
  const rows = Math.ceil(width / CELL - 1e-9);
  const area = (length * width) / columns / rows;
  const rule = (side: number) => (side > SMALL ? GAUSS : MIDDLE);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const part = parts.part(reflectance);
      const at = (s: number, t: number): Vec3 => {
        const [x, y] = [(column + s) / columns, (row + t) / rows];
        return [a[0] + x * u[0] + y * v[0], a[1] + x * u[1] + y * v[1], a[2] + x * u[2] + y * v[2]];
      };
      parts.facet(part, piece, [at(0, 0), at(1, 0), at(1, 1), at(0, 1)], normal);
      const across = rule(length / columns);
      const along = rule(width / rows);
      for (const s of across)
        for (const t of along) parts.nodes.add(part, at(s, t), normal, area / across.length / along.length);
      for (const s of LIT_POINTS)
        for (const t of LIT_POINTS) parts.litNodes.add(part, at(s, t), normal, area / LIT ** 2);
    }
}

/** Any other outline: its triangles about the middle. */
function addOutline(
  parts: BodyParts,
  piece: number,
  corners: readonly Vec3[],
  normal: Vec3,
  reflectance: number,
): void {
  const part = parts.part(reflectance);
  parts.facet(part, piece, corners, normal);
  const middle = [0, 1, 2].map((c) =>
    corners.reduce((sum, p) => sum + p[c] / corners.length, 0),
  ) as unknown as Vec3;
  corners.forEach((a, k) => {
    const b = corners[(k + 1) % corners.length];
    const area = Math.hypot(...cross(subtract(a, middle), subtract(b, middle))) / 2;
    const at = [0, 1, 2].map((c) => (a[c] + b[c] + middle[c]) / 3) as unknown as Vec3;
    parts.nodes.add(part, at, normal, area);
    parts.litNodes.add(part, at, normal, area);
  });
}
