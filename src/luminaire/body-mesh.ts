/**
 * The solid of a luminaire's body as a closed mesh in its own frame, origin at the photometric centre.
 *
 * A shade that opens downward is filled: from outside, what its inside would let pass between rim and rim is
 * blocked too, and its own light does not ask.
 */

import type { Mesh } from "../geometry/mesh.ts";
import { box, revolved } from "../geometry/solids.ts";
import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Body } from "./body.ts";
import { halfProfile } from "./half-profile.ts";
import { planSides } from "./plan-extent.ts";

const AROUND = 24;

/** Meshes already made, by body and height of the opening; to be read, not changed. */
const meshes = new WeakMap<Body, Map<number, Mesh>>();

/** Closed mesh of a body (m), shared by all who ask. `opening` sets the level of the lower rim of profiles that open
 * downward. */
export function bodyMesh(body: Body, opening: LuminousOpening): Mesh {
  let byHeight = meshes.get(body);
  if (byHeight === undefined) {
    byHeight = new Map();
    meshes.set(body, byHeight);
  }
  let mesh = byHeight.get(opening.height);
  if (mesh === undefined) {
    mesh = meshOf(body, opening);
    byHeight.set(opening.height, mesh);
  }
  return mesh;
}

function meshOf(body: Body, opening: LuminousOpening): Mesh {
  if (body.profile !== "box") return revolved(halfProfile(body, opening), AROUND);
  const mesh = box(...planSides(body), body.height);
  for (let i = 2; i < mesh.positions.length; i += 3) mesh.positions[i] += body.offset;
  return mesh;
}
