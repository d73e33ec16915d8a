/** A seat as the study states it is the seat of every answer: eye, head beside pendants, own shadow, the client's elevation. */
import { expect, it, vi } from "vitest";
import { bodyShadows } from "../../../src/advice/body-shadow.ts";
import { eyeIn } from "../../../src/advice/people/eye-height.ts";
import { headRoom } from "../../../src/advice/people/head-room.ts";
import { plainElevation } from "../../../src/drawing/plain-elevation.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import { boxOfMesh } from "../../../src/geometry/box.ts";
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

it.each([0.45, 0.8])("a body in its own light sits on a seat at %s m", (seat) => {
  const engine = new LightEngine();
  const asked = vi.spyOn(engine, "calculate");
  const scene = sitting({ seat, stature: 1.7 });
  bodyShadows(scene, {
    usualAlone: true,
    withoutStandIns: true,
    engine,
    options: { interreflection: false },
  });
  const tops = asked.mock.calls.flatMap(([{ blockers }]) =>
    blockers.filter(({ kind }) => kind === "person").map(({ mesh }) => boxOfMesh(mesh)[5]),
  );
  expect(tops.length).toBeGreaterThan(0);
  for (const top of tops) expect(top).toBeCloseTo(seat + 0.52 * 1.7, 2);
});

it.each([0.45, 0.8])("the client's elevation draws a seat at %s m before the top", (seat) => {
  const scene = sitting({ seat, at: [2.7, 1.3], facing: 90 });
  const seats = plainElevation(scene, [], 60).marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "person" && mark.points.length === 2 ? [mark.points] : [],
  );
  const level = seats.filter(([a, b]) => a[1] === b[1]).map(([a]) => a[1]);
  expect(level).toContainEqual(expect.closeTo(-60 * seat, 9));
});
