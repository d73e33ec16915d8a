/**
 * A solid of the scene as convex parts that block light: the body of a luminaire as it was turned, everything else by
 * its mesh.
 */

import type { ConvexPart } from "../../geometry/convex-part.ts";
import { polyhedraOf } from "../../geometry/polyhedron.ts";
import { roundSolids } from "../../geometry/round-solid.ts";
import { bodyOutline } from "../../luminaire/body-profiles.ts";
import { halfProfile } from "../../luminaire/half-profile.ts";
import type { Blocker, Scene } from "../../scene/scene.ts";

export function convexPartsOf({ layers }: Scene, { owner, mesh }: Blocker): ConvexPart[] {
  const hung = owner === undefined ? undefined : layers[owner[0]]?.luminaires[owner[1]];
  const body = hung?.luminaire.body;
  if (hung === undefined || body === undefined || body.profile === "box") return polyhedraOf(mesh);
  const steps = bodyOutline(body.profile)?.solidSteps;
  return roundSolids(halfProfile(body, hung.luminaire.emission.opening, steps), hung.frame);
}
