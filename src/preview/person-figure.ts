/** A person as a simple figure: the boxes that stand in the light, each rounded off. */

import { type BufferGeometry, Matrix4, SphereGeometry, Vector3 } from "three";
import { RoundedBoxGeometry } from "three/addons/geometries/RoundedBoxGeometry.js";
import type { Vec3 } from "../geometry/vector.ts";
import type { Blocker } from "../scene/scene.ts";
import { tinted, unitTint } from "./colour.ts";
import { mergedShape, type Triangles } from "./triangles.ts";

const SKIN_AND_CLOTH: Vec3 = [1.12, 0.98, 0.83];

/** Parts in their order: trunk, neck, head, then legs. */
const NECK = 1;
const HEAD = 2;
/** Parts reach this much into each other, so that a figure hangs together. */
const JOINED = 1.16;

/** Upright edges count for more than long ones. */
function rank(edge: Vector3): number {
  return edge.length() + (Math.abs(edge.z) > 0.7 * edge.length() ? 10 : 0);
}

/** Each box of the figure rounded off, heads to an egg. */
export function figureTriangles({ mesh, reflectance = 0.3 }: Blocker, out: Triangles): void {
  const albedo = tinted(unitTint(SKIN_AND_CLOTH), reflectance);
  const { positions } = mesh;
  for (let part = 0; 24 * part < positions.length; part++) {
    const corner = (i: number): Vector3 => new Vector3().fromArray(positions, 24 * part + 3 * i);
    const corners = Array.from({ length: 8 }, (_, i) => corner(i));
    const centre = corners.reduce((sum, c) => sum.add(c), new Vector3()).multiplyScalar(1 / 8);
    const first = corners[0];
    const byDistance = corners.slice(1).sort((a, b) => a.distanceTo(first) - b.distanceTo(first));
    const edges: Vector3[] = [];
    for (const other of byDistance) {
      const edge = other.clone().sub(first);
      if (edges.length < 3 && edges.every((e) => Math.abs(e.dot(edge)) < 1e-6 * e.length() * edge.length()))
        edges.push(edge);
    }
    if (edges.length < 3) continue;
    // Its height last, or its length where it lies.
    const [a, b, c] = edges.sort((p, q) => rank(p) - rank(q));
    const size = [a.length(), b.length(), c.length()];
    const axes = [a, b, c].map((edge) => edge.clone().normalize());
    if (axes[0].clone().cross(axes[1]).dot(axes[2]) < 0) axes[0].negate();
    const matrix = new Matrix4().makeBasis(axes[0], axes[1], axes[2]).setPosition(centre);
    out.add(partShape(part, size), matrix, albedo);
  }
}

function partShape(part: number, [a, b, c]: readonly number[]): BufferGeometry {
  if (part === HEAD)
    return mergedShape("head", [a, b, c], () =>
      new SphereGeometry(0.5, 20, 14).scale(a * 1.08, b * 1.08, c * 1.02),
    );
  const height = c * (part === NECK ? 2 : JOINED);
  return mergedShape(
    "part",
    [a, b, height],
    () => new RoundedBoxGeometry(a, b, height, 3, 0.42 * Math.min(a, b)),
  );
}
