/**
 * Where a person's eye is when they stand upright or sit, whatever they do in the study.
 *
 * The figure's own proportions (scene/people.ts): standing eye = stature − 0.11 m.
 */

import type { Vec3 } from "../../geometry/vector.ts";
import { figure, seatOf } from "../../scene/people.ts";
import type { Island, Person } from "../../scene/scene.ts";

/** Height of the eye above the floor, standing upright (m). */
export function standingEyeHeight({ stature }: Pick<Person, "stature">): number {
  return figure([0, 0], 0, stature, "standing").eye[2];
}

/** Eye point of a person in another posture at the same place (m). */
export function eyeIn(
  person: Pick<Person, "at" | "facing" | "stature" | "seat">,
  posture: Person["posture"],
  island: Island | undefined,
): Vec3 {
  const { at, facing, stature } = person;
  return figure(at, facing, stature, posture, seatOf(person, island)).eye;
}
