/** The part of a flat outline that a camera sees: cut by the sides of its field of view, one after the other. */

import { Matrix4, type PerspectiveCamera, type Vector3, Vector4 } from "three";

/** Sides of the field in clip coordinates: what is inside has a product of zero and more. */
const SIDES = [
  new Vector4(1, 0, 0, 1),
  new Vector4(-1, 0, 0, 1),
  new Vector4(0, 1, 0, 1),
  new Vector4(0, -1, 0, 1),
  new Vector4(0, 0, 1, 1),
];

/** Corners in the room; none where nothing is in sight (Sutherland and Hodgman, CACM 17, 1974). */
export function visiblePart(outline: readonly Vector3[], camera: PerspectiveCamera): Vector3[] {
  const toClip = new Matrix4().multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse);
  let corners = outline.map((place) => ({ place, clip: new Vector4(...place, 1).applyMatrix4(toClip) }));
  for (const side of SIDES) {
    const kept: typeof corners = [];
    corners.forEach((a, i) => {
      const b = corners[(i + 1) % corners.length];
      const [da, db] = [a.clip.dot(side), b.clip.dot(side)];
      if (da >= 0) kept.push(a);
      if (da >= 0 !== db >= 0) {
        const t = da / (da - db);
        kept.push({ place: a.place.clone().lerp(b.place, t), clip: a.clip.clone().lerp(b.clip, t) });
      }
    });
    corners = kept;
  }
  return corners.map(({ place }) => place.clone());
}
