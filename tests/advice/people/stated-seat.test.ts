/** A seat as the study states it is the seat of every answer: eye, head beside pendants, own shadow. */
import { expect, it } from "vitest";
import { eyeIn } from "../../../src/advice/people/eye-height.ts";
import { headRoom } from "../../../src/advice/people/head-room.ts";
import { kitchen, resolved } from "../../support/studies.ts";

const sitting = (more: object) => {
  const people = [{ name: "guest", at: [2.7, 2.85], facing: 270, posture: "seated", ...more }];
  return resolved(kitchen({ people })).scenes[0];
};

// 2026-11-29: the figure sat on the stated seat, its eye among sightlines and its head beside pendants on the usual stool.
it.each([
  ["the usual stool", {}, 0.92 - 0.28],
  ["a stated low seat", { seat: 0.45 }, 0.45],
  ["a stated high seat", { seat: 0.8 }, 0.8],
])("%s is one height", (_, more, seat) => {
  const scene = sitting(more);
  const [person] = scene.people;
  // Sitting height 0.52 of stature over the seat, the eye 0.11 m under the crown (Drillis and Contini 1966, from memory).
  expect(person.eye[2]).toBeCloseTo(seat + 0.52 * 1.7 - 0.11, 9);
  expect(eyeIn(person, "seated", scene.island)).toEqual(person.eye);
});

it("a head is nearer to a pendant from a higher seat", () => {
  const [low, high] = [0.45, 0.8].map((seat) => headRoom(sitting({ seat }))[0].gap);
  console.log(
    `from a head to the nearest pendant: seat at 0.45 m ${low.toFixed(3)} m, at 0.8 m ${high.toFixed(3)} m`,
  );
  expect(high).toBeLessThan(low - 0.05);
});
