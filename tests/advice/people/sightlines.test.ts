/** Faces and heads past pendants, by plain geometry. */
import { describe, expect, it } from "vitest";
import { eyeIn, standingEyeHeight } from "../../../src/advice/people/eye-height.ts";
import { headRoom } from "../../../src/advice/people/head-room.ts";
import { sightlines } from "../../../src/advice/people/sightlines.ts";
import { frame } from "../../../src/geometry/frame.ts";
import { box, placed as moved } from "../../../src/geometry/solids.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import { headSphere } from "../../../src/scene/people.ts";
import type { Blocker, Scene } from "../../../src/scene/scene.ts";
import { kitchen, resolved } from "../../support/studies.ts";

const PEOPLE = [
  { name: "cook", stature: 1.7, at: [2.7, 1.3], facing: 90, posture: "standing" },
  { name: "guest", stature: 1.7, at: [2.7, 2.9], facing: 270, posture: "seated" },
];

function scene(pendants: object, people: readonly object[] = PEOPLE): Scene {
  return resolved(
    kitchen({
      people,
      arrangements: [{ name: "a", layers: [{ name: "pendants", luminaire: "dome", ...pendants }] }],
    }),
  ).scenes[0];
}

const withSolid = (s: Scene, centre: Vec3, size: Vec3, transmittance = 0): Scene => {
  const blocker: Blocker = {
    name: "board",
    kind: "body",
    mesh: moved(box(size[0], size[1], size[2]), frame(centre)),
    transmittance,
  };
  return { ...s, blockers: [...s.blockers, blocker] };
};

describe("sightlines", () => {
  const clear = scene({ at: [{ position: [0.5, 0.5, 2.4] }] });
  const across = (s: Scene) =>
    sightlines(s).find(
      (l) => l.person === "cook" && l.posture === "standing" && l.towards === "someone standing across",
    );

  it("are open over an empty island, standing and seated, across, along and to each other", () => {
    const lines = sightlines(clear);
    // Two people, two postures, two faces across, one along, one other person.
    expect(lines).toHaveLength(2 * 2 * 4);
    expect(lines.filter(({ direction }) => direction === "across")[0].face[1]).toBeCloseTo(2.9 - 0.107, 1);
    const open = lines.filter(({ by }) => by.every(({ name }) => name !== "P1"));
    expect(open.length).toBe(lines.length);
    for (const line of lines.filter(
      ({ posture, towards }) => posture === "standing" && towards === "someone standing across",
    ))
      expect(line.hidden).toBe(0);
  });

  it("go to the place mirrored over the top, and to the far end of the same side", () => {
    const off = { ...PEOPLE[0], at: [1.9, 1.3] };
    const lines = sightlines(scene({ at: [{ position: [0.5, 0.5, 2.4] }] }, [off]));
    const faceOf = (towards: string): Vec3 | undefined =>
      lines.find((line) => line.posture === "standing" && line.towards === towards)?.face;
    // The eye is a hand before the feet, towards the middle of the top at (2.7, 2.1).
    const eyeBefore = (at: readonly [number, number]): Vec3 =>
      eyeIn({ at, facing: Math.atan2(2.1 - at[1], 2.7 - at[0]), stature: 1.7 }, "standing", clear.island);
    expect(faceOf("someone standing across")).toEqual(eyeBefore([1.9, 2.9]).map((c) => expect.closeTo(c, 9)));
    expect(faceOf("someone standing at the far end")).toEqual(
      eyeBefore([3.9, 1.3]).map((c) => expect.closeTo(c, 9)),
    );
  });

  it("are hidden wholly, by half, and by a share that passes light", () => {
    const eye = standingEyeHeight({ stature: 1.7 });
    const between = (z: number, t = 0) =>
      across(withSolid(clear, [2.7, 2.1, z], [1, 0.02, 0.4], t))?.hidden ?? -1;
    expect(between(eye)).toBe(1);
    // A board whose lower edge lies on the line of the eyes hides the upper half: 37 points, one of them on the edge.
    expect(Math.abs(between(eye + 0.2) - 0.5)).toBeLessThan(1.5 / 37);
    expect(between(eye, 0.4)).toBeCloseTo(0.6, 12);
    const named = across(withSolid(clear, [2.7, 2.1, eye], [1, 0.02, 0.4]));
    expect(named?.by[0]).toEqual({ name: "board", hidden: 1 });
  });

  it("meet a dome hung at the eyes, not one hung above", () => {
    const eye = standingEyeHeight({ stature: 1.7 });
    const at = (z: number) =>
      across(scene({ role: "pendant", at: [{ position: [2.7, 2.1, z] }] }))?.hidden ?? -1;
    expect(at(eye - 0.1)).toBeGreaterThan(0.9);
    expect(at(eye + 0.15)).toBe(0);
  });
});

describe("head room", () => {
  const hung = (layer: object, more: object = {}) =>
    resolved(
      kitchen({
        people: [PEOPLE[0]],
        luminaires: {
          globe: {
            beam: { flux: 800, angle: 120 },
            body: { profile: "globe", diameter: 0.3, height: 0.3 },
            ...more,
          },
        },
        arrangements: [{ name: "a", layers: [{ luminaire: "globe", ...layer }] }],
      }),
    ).scenes[0];
  const globe = (z: number, across = 1.95) =>
    hung({ name: "pendants", role: "pendant", at: [{ position: [3.3, across, z] }] });

  it("is in reach where they meet, close under 0.10 m, clear beyond", () => {
    const found = Array.from({ length: 40 }, (_, k) => headRoom(globe(1.6, 1.7 + 0.015 * k))[0]);
    for (const { gap, outcome } of found)
      expect(outcome, `${gap} m`).toBe(gap <= 0 ? "in reach" : gap < 0.1 ? "close" : "clear");
    // Places on both sides of both limits.
    for (const [from, to] of [
      [-0.05, 0],
      [0, 0.05],
      [0.05, 0.1],
      [0.1, 0.15],
    ])
      expect(
        found.some(({ gap }) => gap > from && gap < to),
        `${from} to ${to} m`,
      ).toBe(true);
  });

  it("is the gap between head and pendant over the lean, by spheres", () => {
    let worst = 0;
    for (const z of [1.4, 1.6, 1.8]) {
      const [found] = headRoom(globe(z));
      let least = Infinity;
      for (let k = 0; k <= 300; k++) {
        // The cook walks along to stand before the globe, 0.65 m in front of the feet.
        const { centre, radius } = headSphere([3.3, 1.3], Math.PI / 2, 1.7, (k * Math.PI) / 1800);
        least = Math.min(least, Math.hypot(centre[0] - 3.3, centre[1] - 1.95, centre[2] - z) - radius - 0.15);
      }
      worst = Math.max(worst, Math.abs(found.gap - least));
    }
    console.log(`worst error of head room against spheres ${(1000 * worst).toFixed(1)} mm`);
    // Facets of the globe lie up to 4 mm inside the sphere; the lean goes in steps of 1°.
    expect(worst).toBeLessThan(0.005);
  });

  it("tells clear from in reach, and both heights against the eye", () => {
    const [high] = headRoom(scene({ row: { count: 3, clearance: 1.2 } }));
    expect(high.outcome).toBe("clear");
    expect(high.rimAboveStandingEye).toBeCloseTo(0.92 + 1.2 - standingEyeHeight({ stature: 1.7 }), 9);
    const near = scene({ row: { count: 3, clearance: 0.6, offset: [0, -0.5] } });
    expect(headRoom(near)[0].outcome).toBe("in reach");
    expect(headRoom(near)[0].rimAboveEye).toBeCloseTo(
      1.52 - eyeIn(near.people[0], "standing", near.island)[2],
      9,
    );
    expect(headRoom(resolved(kitchen()).scenes[0])).toEqual([]);
  });

  // 2026-11-29: what states a suspension hung in another layer was a pendant for who walks past, not for the people of the study.
  it("counts what states a suspension in any layer, and nothing else there", () => {
    const accent = { name: "accent", role: "accent", at: [{ position: [3.3, 1.7, 1.6] }] };
    expect(headRoom(hung(accent, { suspension: "cord" }))).toMatchObject([
      { pendant: "P1", outcome: "in reach" },
    ]);
    expect(headRoom(hung(accent))).toEqual([]);
  });
});
