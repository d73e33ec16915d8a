/** A luminaire's outside: its body turned from the half profile, cord and canopy, or the trim around a recessed opening. */

import { type BufferGeometry, CylinderGeometry, LatheGeometry, Matrix4, Vector2 } from "three";
import { RoundedBoxGeometry } from "three/addons/geometries/RoundedBoxGeometry.js";
import { type Frame, pointToRoom } from "../geometry/frame.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { Body } from "../luminaire/body.ts";
import { halfProfile } from "../luminaire/half-profile.ts";
import { openingSurface } from "../luminaire/opening/openings.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { planSides } from "../luminaire/plan-extent.ts";
import { canopySize } from "../luminaire/product-facts.ts";
import { ceilingPoints } from "../luminaire/suspension-points.ts";
import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import type { Scene } from "../scene/scene.ts";
import { linearOf, tinted } from "./colour.ts";
import { mergedShape, type Triangles } from "./triangles.ts";

const TRIM: Vec3 = [0.8, 0.8, 0.78];
const CORD: Vec3 = [0.05, 0.05, 0.05];
/** Faces around what is turned. */
export const AROUND = 36;

/** Whether the luminous surface is the body's own: opal glass, not a shade around it. */
export function glowsWhole({ luminaire }: PlacedLuminaire): boolean {
  const { body, emission, distribution } = luminaire;
  if (body === undefined) return true;
  const { kind, half } = openingSurface(emission.opening, distribution);
  if (kind === "point" || kind.startsWith("flat")) return false;
  return 2 * half[2] > 0.8 * body.height && 2 * Math.max(half[0], half[1]) > 0.8 * body.diameter;
}

/** Local to room. */
export function matrixOf({ origin, rotation: r }: Frame): Matrix4 {
  return new Matrix4().set(
    r[0],
    r[3],
    r[6],
    origin[0],
    r[1],
    r[4],
    r[7],
    origin[1],
    r[2],
    r[5],
    r[8],
    origin[2],
    0,
    0,
    0,
    1,
  );
}

/** A body in the luminaire's frame: a box, or its half profile turned, closed at its ends. */
export function bodyShapes(body: Body, opening: LuminousOpening): BufferGeometry[] {
  if (body.profile === "box") {
    const size = [...planSides(body), body.height] as const;
    return [
      mergedShape("box body", [...size, body.offset], () =>
        new RoundedBoxGeometry(...size, 2, 0.004).translate(0, 0, body.offset),
      ),
    ];
  }
  const profile = halfProfile(body, opening, 16);
  const [[rim, low]] = profile;
  const [end, high] = profile[profile.length - 1];
  const shapes = [lathe(profile)];
  if (rim > 0)
    shapes.push(
      lathe([
        [0, low],
        [rim, low],
      ]),
    );
  if (end > 0)
    shapes.push(
      lathe([
        [end, high],
        [0, high],
      ]),
    );
  return shapes;
}

/** Adds all of a luminaire that does not glow. */
export function luminaireTriangles(
  scene: Scene,
  placed: PlacedLuminaire,
  hangs: boolean,
  out: Triangles,
): void {
  const { luminaire, frame } = placed;
  const { body, emission } = luminaire;
  const matrix = matrixOf(frame);
  let top = emission.opening.height / 2;
  if (body !== undefined) {
    const profile = halfProfile(body, emission.opening, 16);
    top = profile[profile.length - 1][1];
    if (!glowsWhole(placed)) {
      // A colour that is given says more of the outside than a reflectance that is usual.
      const albedo = linearOf(luminaire.colour) ?? tinted([1, 1, 1], body.reflectance);
      for (const shape of bodyShapes(body, emission.opening)) out.add(shape, matrix, albedo);
    }
  }
  const z = pointToRoom(frame, [0, 0, top])[2];
  if (hangs) addHanging(scene, placed, z, out);
  else if (body === undefined) {
    const { kind, half } = openingSurface(emission.opening, luminaire.distribution);
    if (kind !== "flat disc") return;
    // A trim around a recessed opening; common practice, no source.
    const r = half[0];
    out.add(
      lathe([
        [r, -0.004],
        [r + 0.014, -0.004],
        [r + 0.018, 0],
      ]),
      matrix,
      TRIM,
    );
  }
}

/** A profile turned about local z, facing outwards for one that rises. */
function lathe(profile: readonly (readonly [number, number])[]): BufferGeometry {
  return mergedShape("lathe", profile, () =>
    new LatheGeometry(
      profile.map(([r, z]) => new Vector2(Math.max(r, 1e-5), z)),
      AROUND,
    ).rotateX(Math.PI / 2),
  );
}

/** What it hangs by, from its top (m) to the ceiling, and the canopy, where one is stated, over its box. */
function addHanging(scene: Scene, placed: PlacedLuminaire, top: number, out: Triangles): void {
  const { luminaire } = placed;
  ceilingPoints(placed).forEach(([x, y], k) => {
    const ceiling = ceilingAt(scene.room, x, y);
    const length = ceiling - top;
    if (length <= 0.01) return;
    const cord = mergedShape("cord", length, () =>
      new CylinderGeometry(0.004, 0.004, length, 8, 1, true).rotateX(Math.PI / 2),
    );
    out.add(cord, new Matrix4().makeTranslation(x, y, top + length / 2), CORD);
    if (luminaire.canopy === undefined || k > 0) return;
    const { diameter, height } = canopySize(luminaire);
    const radius = diameter / 2;
    const cap = mergedShape("canopy", [radius, height], () =>
      new CylinderGeometry(radius, radius, height, AROUND).rotateX(Math.PI / 2),
    );
    const colour = linearOf(luminaire.colour) ?? tinted([1, 1, 1], luminaire.body?.reflectance ?? 0.5);
    out.add(cap, new Matrix4().makeTranslation(x, y, ceiling - height / 2), colour);
  });
}
