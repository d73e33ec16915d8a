/**
 * Where a person's eye is when they stand upright or sit, whatever they do in the study.
 *
 * The figure's own proportions (scene/people.ts): standing eye = stature − 0.11 m.
 */

import type { Vec3 } from "../../geometry/vector.ts";
import { figure } from "../../scene/people.ts";
import type { Island, Person } from "../../scene/scene.ts";

/** Height of the eye above the floor, standing upright (m). */
export function standingEyeHeight({ stature }: Pick<Person, "stature">): number {
  return figure([0, 0], 0, stature, "standing").eye[2];
}

/** Seat of a counter stool: 0.28 m below the top; common practice, no source. A chair's without an island (m). */
export function seatHeight(island: Island | undefined): number {
  return island === undefined ? 0.45 : Math.max(0.3, island.height - 0.28);
}

/** Eye point of a person in another posture at the same place (m). */
export function eyeIn(
  { at, facing, stature }: Pick<Person, "at" | "facing" | "stature">,
  posture: Person["posture"],
  island: Island | undefined,
): Vec3 {
  return figure(at, facing, stature, posture, posture === "seated" ? seatHeight(island) : 0).eye;
}
