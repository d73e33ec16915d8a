/**
 * A solid of the scene as convex parts that block light: the body of a luminaire as it was turned, everything else by
 * its mesh.
 */

import type { ConvexPart } from "../../geometry/convex-part.ts";
import { polyhedraOf } from "../../geometry/polyhedron.ts";
import { roundSolids } from "../../geometry/round-solid.ts";
import type { BodyProfile } from "../../luminaire/body.ts";
import { halfProfile } from "../../luminaire/half-profile.ts";
import type { Blocker, Scene } from "../../scene/scene.ts";

/** Steps of a curved profile, so that its chords lie within 0.03 % of the radius of the curve; each step of one that
 * bends inward is a solid of its own, and 0.06 % must do. */
const STEPS: Partial<Record<BodyProfile, number>> = { globe: 96, dome: 48, bowl: 48, bell: 16, cone: 1 };

export function convexPartsOf({ layers }: Scene, { owner, mesh }: Blocker): ConvexPart[] {
  const hung = owner === undefined ? undefined : layers[owner[0]]?.luminaires[owner[1]];
  const body = hung?.luminaire.body;
  if (hung === undefined || body === undefined || body.profile === "box") return polyhedraOf(mesh);
  return roundSolids(halfProfile(body, hung.luminaire.emission.opening, STEPS[body.profile]), hung.frame);
}
