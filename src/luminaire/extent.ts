/**
 * How far a luminaire reaches down and up from its photometric centre, however it is turned.
 * Body and luminous opening count together; with neither, the photometric centre alone.
 */

import { bodyMesh } from "./body-mesh.ts";
import type { Luminaire } from "./luminaire.ts";
import { openingSupport } from "./opening/support.ts";

/** Height (m) of the lowest point of body and opening relative to the photometric centre, at or below zero when
 * there is an opening; `rotation` is column-major, local to room. */
export function lowestPoint(luminaire: Luminaire, rotation: Float64Array): number {
  return reach(luminaire, rotation, -1);
}

/** Height (m) of the highest point of body and opening relative to the photometric centre. */
export function highestPoint(luminaire: Luminaire, rotation: Float64Array): number {
  return reach(luminaire, rotation, 1);
}

function reach({ emission, body }: Luminaire, rotation: Float64Array, sign: 1 | -1): number {
  // Height of a local point = its product with the third row of the rotation.
  const [x, y, z] = [rotation[2], rotation[5], rotation[8]];
  let most = openingSupport(emission.opening, x, y, z);
  if (body === undefined) return sign * most;
  if (emission.opening.shape === "point") most = -Infinity;
  const { positions } = bodyMesh(body, emission.opening);
  for (let i = 0; i < positions.length; i += 3)
    most = Math.max(most, sign * (x * positions[i] + y * positions[i + 1] + z * positions[i + 2]));
  return sign * most;
}
