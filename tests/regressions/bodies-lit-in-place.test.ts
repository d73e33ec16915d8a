/**
 * 2026-11: a pendant or a person had one exitance for the whole body. Under five light drums of 0.5 m the island's
 * interreflected light was 29 % too low, and with a person at the counter 40 %: their undersides and fronts, which face the
 * bright top, were as dark as the rest of them. Judged by paths traced without the engine.
 */
import { describe, expect, it } from "vitest";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { checkStudy } from "../../src/study/study.ts";
import { compareScene, SMALL_EFFORT, table } from "../support/path-trace/compare-kitchen.ts";
import { PERSON_REFLECTANCE } from "../support/path-trace/random-kitchen.ts";
import { resolveStudy } from "../support/resolve-study.ts";

/** A lobe down, nothing up, from a disc of 0.45 m. */
const LOBE = [
  "IESNA:LM-63-2002",
  "[TEST] made for this",
  "[TESTLAB] none",
  "[ISSUEDATE] 1-JAN-2020",
  "[MANUFAC] none",
  "TILT=NONE",
  "1 -1 1 19 1 1 2 -0.4500 -0.4500 0.0000",
  "1 1 10",
  Array.from({ length: 19 }, (_, i) => 5 * i).join(" "),
  "0",
  Array.from({ length: 19 }, (_, i) => (500 * Math.cos((i * Math.PI) / 36) ** 2).toFixed(2)).join(" "),
  "",
].join("\r\n");

function kitchen(name: string, count: number, people: readonly object[]) {
  const checked = checkStudy({
    format: "candlespan-study",
    version: 1,
    title: name,
    room: {
      length: 5.6,
      width: 4,
      ceilingHeight: 2.6,
      reflectance: { ceiling: 0.8, walls: 0.5, floor: 0.2 },
    },
    island: {
      centre: [2.8, 2],
      length: 3,
      width: 1.1,
      height: 0.9,
      reflectance: { top: 0.7, sides: 0.5 },
      zones: [
        { name: "prep", from: [0, 0], size: [1.5, 1.1] },
        { name: "eating", from: [1.5, 0], size: [1.5, 1.1] },
      ],
    },
    ...(people.length > 0 ? { people } : {}),
    luminaires: {
      drum: {
        photometry: "drum.ies",
        body: { profile: "drum", diameter: 0.5, height: 0.3, reflectance: 0.75 },
      },
    },
    planes: [],
    arrangements: [
      { name: "a", layers: [{ name: "pendants", luminaire: "drum", row: { count, clearance: 0.7 } }] },
    ],
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues));
  const file = readPhotometry(new TextEncoder().encode(LOBE), { file: "drum.ies" });
  const resolved = resolveStudy(checked.value, {
    photometry: new Map([["drum", file]]),
    publishedTargets: new Map(),
  });
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
  const { scenes, options } = resolved.value;
  const blockers = scenes[0].blockers.map((blocker) => ({
    ...blocker,
    reflectance: blocker.kind === "person" ? PERSON_REFLECTANCE : 0.75,
  }));
  return {
    scene: { ...scenes[0], blockers },
    options: { ...options, people: people.length > 0 },
    name,
    description: name,
  };
}

describe("interreflected light", () => {
  it.each([
    ["under five drums", 5, []],
    [
      "with a person at the counter",
      2,
      [{ name: "cook", stature: 1.75, at: [2.2, 1.2], facing: 90, posture: "leaning" }],
    ],
  ] as const)(
    "is that of bodies lit where they are: %s",
    (name, count, people) => {
      const found = compareScene(kitchen(name, count, people), 11, {
        ...SMALL_EFFORT,
        zonePaths: 120_000,
        points: 0,
      });
      console.log(table(found).join("\n"));
      for (const { interreflected } of found.zones) expect(interreflected.within).toBe(true);
    },
    300_000,
  );
});
