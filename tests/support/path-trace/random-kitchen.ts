/**
 * Kitchens drawn at random, written as study documents and read by the study's own reader, so that nothing about the
 * engine's inputs is assumed. Ranges are those of homes (common practice, no source).
 */
import type { Outcome } from "../../../src/diagnostics/issue.ts";
import type { BodyProfile } from "../../../src/luminaire/body-profiles.ts";
import type { OpeningShape } from "../../../src/photometry/luminous-opening.ts";
import type { Photometry } from "../../../src/photometry/photometry.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import type { CalculationOptions } from "../../../src/scene/calculation-options.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { checkStudy } from "../../../src/study/study.ts";
import { resolveStudy } from "../resolve-study.ts";
import { RandomNumbers } from "./random-numbers.ts";

/** `bare`: luminaires without bodies; `bodies`: pendants with bodies; `people`: bodies and people. All have cabinets,
 * and some a hood. */
export type Family = "bare" | "bodies" | "people";
export const FAMILIES: readonly Family[] = ["bare", "bodies", "people"];

type Json = Record<string, unknown>;

/** A kitchen that came out wrong is drawn again. */
const UNWANTED = new Set([
  "bodies-overlap",
  "luminaire-in-body",
  "luminaire-through-wall",
  "row-collides",
  "row-too-long",
  "person-in-island",
  "person-outside",
  "cells-in-body",
]);
/** No reflectance of people is in a study; clothes and skin together (common practice, no source). */
export const PERSON_REFLECTANCE = 0.3;

export interface RandomKitchen {
  readonly name: string;
  readonly family: Family;
  readonly document: Json;
  readonly scene: Scene;
  readonly options: CalculationOptions;
  /** In a few words: what hangs, what stands. */
  readonly description: string;
}

export function randomKitchen(family: Family, seed: number, index: number): RandomKitchen {
  for (let attempt = 0; attempt < 200; attempt++) {
    const random = new RandomNumbers(((seed * 7919 + index) * 211 + attempt) * 3 + FAMILIES.indexOf(family));
    const { document, photometry, description } = documentOf(family, random);
    const checked = checkStudy(document);
    if (!checked.ok) throw new Error(JSON.stringify(checked.issues));
    const outcome = resolveStudy(checked.value, { photometry, publishedTargets: new Map() });
    if (!outcome.ok) {
      if (outcome.issues.every(({ code }) => UNWANTED.has(code))) continue;
      throw new Error(JSON.stringify(outcome.issues));
    }
    const { warnings, scenes, options } = outcome.value;
    if (warnings.some(({ code }) => UNWANTED.has(code))) continue;
    return {
      name: `${family} ${index}`,
      family,
      document,
      scene: withReflectance(scenes[0]),
      options: { ...options, people: family === "people" },
      description,
    };
  }
  throw new Error(`No kitchen ${index} of family ${family}.`);
}

/** Says of every body what it reflects, for who reads it from the blocker. */
function withReflectance(scene: Scene): Scene {
  const blockers = scene.blockers.map((blocker) => {
    if (blocker.reflectance !== undefined) return blocker;
    if (blocker.kind === "person") return { ...blocker, reflectance: PERSON_REFLECTANCE };
    if (blocker.owner === undefined) return blocker;
    const body = scene.layers[blocker.owner[0]].luminaires[blocker.owner[1]].luminaire.body;
    return body === undefined ? blocker : { ...blocker, reflectance: body.reflectance };
  });
  return { ...scene, blockers };
}

interface Drawn {
  readonly document: Json;
  readonly photometry: ReadonlyMap<string, Outcome<Photometry>>;
  readonly description: string;
}

function documentOf(family: Family, random: RandomNumbers): Drawn {
  const length = random.between(3.6, 7);
  const width = random.between(3.2, 5.5);
  const ceilingHeight = random.between(2.3, 3.1);
  const sloped = random.chance(0.15);
  const [islandLength, islandWidth] = [
    random.between(1.5, Math.min(3, length - 1.9)),
    random.between(0.8, 1.25),
  ];
  const height = random.between(0.85, 0.95);
  const ell = random.chance(0.2);
  const centre = [
    length / 2 + random.between(-0.2, 0.2) * Math.max(0, length - islandLength - 1.8),
    width / 2 + random.between(-0.2, 0.2) * Math.max(0, width - islandWidth - 1.8),
  ];
  const overhang = random.chance(0.5) ? { side: "y-", depth: random.between(0.2, 0.35) } : undefined;
  const pendant = pendantOf(family !== "bare", random);
  const split = random.between(0.35, 0.65) * islandLength;
  const zones = [
    { name: "prep", from: [0, 0], size: [split, islandWidth] },
    { name: "eating", from: [split, 0], size: [islandLength - split, islandWidth] },
  ];
  const wanted = random.whole(1, 6);
  // A third of the pendants' extent at least stays free between neighbours.
  const count = Math.max(1, Math.min(wanted, Math.floor(islandLength / (1.33 * pendant.extent))));
  const bodies = furniture(random, { length, width, ceilingHeight, centre, islandLength, islandWidth });
  const people = family === "people" ? peopleNear(random, { centre, islandLength, islandWidth }) : undefined;
  const document: Json = {
    format: "candlespan-study",
    version: 1,
    title: "a random kitchen",
    room: {
      length,
      width,
      ceilingHeight,
      ...(sloped ? { ceiling: { slope: random.between(5, 20), towards: 90 * random.whole(0, 3) } } : {}),
      reflectance: {
        ceiling: random.between(0.5, 0.88),
        walls: Array.from({ length: 4 }, () => random.between(0.15, 0.8)),
        floor: random.between(0.08, 0.5),
      },
      openings: random.chance(0.6)
        ? [{ wall: 2, from: 0.8, length: 1.4, sill: 0.95, height: 1.1, reflectance: 0.1 }]
        : [],
    },
    island: {
      centre,
      height,
      turn: random.chance(0.3) ? random.between(-12, 12) : 0,
      ...(ell
        ? {
            outline: [
              [0, 0],
              [islandLength, 0],
              [islandLength, 0.55 * islandWidth],
              [0.55 * islandLength, 0.55 * islandWidth],
              [0.55 * islandLength, islandWidth],
              [0, islandWidth],
            ],
          }
        : { length: islandLength, width: islandWidth }),
      ...(overhang === undefined ? {} : { overhang }),
      reflectance: { top: random.between(0.08, 0.75), sides: random.between(0.1, 0.75) },
      zones,
    },
    bodies,
    ...(people === undefined ? {} : { people }),
    luminaires: {
      pendant: pendant.luminaire,
      spot: {
        beam: { flux: random.between(300, 800), angle: random.between(24, 100) },
        opening: { diameter: random.between(0.05, 0.15) },
      },
    },
    // None beside those of the zones.
    planes: [],
    arrangements: [
      {
        name: "a",
        layers: [
          {
            name: "pendants",
            luminaire: "pendant",
            row: { count, clearance: random.between(0.6, 1), offset: [0, ell ? -0.2 * islandWidth : 0] },
          },
          ...(random.chance(0.6)
            ? [
                {
                  name: "ambient",
                  luminaire: "spot",
                  grid: { columns: random.whole(2, 3), rows: 2, margin: random.between(0.5, 0.8) },
                },
              ]
            : []),
        ],
      },
    ],
  };
  const file = readPhotometry(new TextEncoder().encode(pendant.file), { file: "pendant.ies" });
  if (!file.ok) throw new Error(JSON.stringify(file.issues));
  const standing = [
    `${count} × ${pendant.description}`,
    ...(bodies as { name: string }[]).map(({ name }) => name),
    ...(people ?? []).map((person) => person.posture as string),
  ].join(", ");
  return { document, photometry: new Map([["pendant", file]]), description: standing };
}

interface Place {
  readonly length: number;
  readonly width: number;
  readonly ceilingHeight: number;
  readonly centre: readonly number[];
  readonly islandLength: number;
  readonly islandWidth: number;
}

/** Tall cabinets along the wall x = 0, a run of wall cabinets on wall 0, a hood over one end of the island. */
function furniture(random: RandomNumbers, { length, width, ceilingHeight }: Place): Json[] {
  const bodies: Json[] = [];
  const reflectance = () => random.between(0.1, 0.8);
  if (random.chance(0.7)) {
    const from = random.between(0.3, width - 2);
    bodies.push({
      name: "tall cabinet",
      box: [
        [0, from, 0],
        [0.6, from + random.between(0.6, 1.6), Math.min(ceilingHeight - 0.15, random.between(1.9, 2.4))],
      ],
      reflectance: reflectance(),
    });
  }
  if (random.chance(0.5)) {
    const from = random.between(0.8, length - 2.2);
    bodies.push({
      name: "wall cabinet",
      box: [
        [from, 0, 1.4],
        [from + 1.2, 0.35, 2.1],
      ],
      reflectance: reflectance(),
    });
  }
  if (random.chance(0.4)) {
    const from = random.between(0.6, length - 1.6);
    bodies.push({
      name: "hood",
      box: [
        [from, width - 0.5, 1.55],
        [from + 0.8, width, 1.75],
      ],
      reflectance: reflectance(),
    });
  }
  return bodies;
}

function peopleNear(
  random: RandomNumbers,
  { centre, islandLength, islandWidth }: Pick<Place, "centre" | "islandLength" | "islandWidth">,
): Json[] {
  return Array.from({ length: random.whole(1, 3) }, (_, i) => {
    const side = i % 2 === 0 ? 1 : -1;
    const posture = random.one(["standing", "leaning", "seated"]);
    const away = islandWidth / 2 + random.between(posture === "seated" ? 0.32 : 0.22, 0.45);
    // Two on one side stand in different halves.
    const along = (i === 2 ? 0.3 : i === 0 ? -0.3 : random.between(-0.3, 0.3)) * islandLength;
    return {
      name: `person ${i + 1}`,
      stature: random.between(1.5, 1.95),
      at: [centre[0] + along, centre[1] + side * away],
      facing: side > 0 ? -90 : 90,
      posture,
      ...(posture === "seated" ? { seat: 0.62 } : {}),
    };
  });
}

interface PendantDrawn {
  readonly luminaire: Json;
  readonly file: string;
  readonly description: string;
  /** Along the row (m). */
  readonly extent: number;
}

/** Openings that a body of each outline may hold. */
const BY_BODY: Readonly<Record<BodyProfile, readonly OpeningShape[]>> = {
  dome: ["disc", "point"],
  cone: ["disc"],
  bell: ["disc"],
  drum: ["disc", "cylinder"],
  cylinder: ["disc", "cylinder"],
  globe: ["ellipsoid", "upright disc"],
  bowl: ["disc"],
  disc: ["disc"],
  box: ["rectangle", "box", "cylinder along length", "cylinder along width"],
  profile: ["disc", "ellipsoid"],
};

/** A pendant of any opening shape; its body, where it has one, holds the opening. */
function pendantOf(withBody: boolean, random: RandomNumbers): PendantDrawn {
  const profile = random.one(Object.keys(BY_BODY) as BodyProfile[]);
  const shape = random.one(BY_BODY[profile]);
  const diameter = random.between(0.12, profile === "box" ? 0.2 : 0.45);
  const long = profile === "box" ? random.between(0.3, 0.9) : diameter;
  const height = diameter * random.between(0.5, 1.1);
  const inner = 0.9;
  const opening = openingOf(
    shape,
    inner * diameter,
    profile === "box" ? 0.95 * long : inner * diameter,
    inner * height,
  );
  const body: Json = {
    profile,
    reflectance: random.between(0.05, 0.85),
    ...(profile === "profile"
      ? {
          outline: [
            [0.25 * diameter, -0.5 * height],
            [0.5 * diameter, -0.2 * height],
            [0.3 * diameter, 0.1 * height],
            [0.2 * diameter, 0.5 * height],
          ],
        }
      : profile === "box"
        ? { length: opening.along ? long : diameter, width: opening.along ? diameter : long, height }
        : profile === "disc"
          ? { diameter, height: 0.06 }
          : { diameter, height }),
  };
  return {
    luminaire: { photometry: "pendant.ies", ...(withBody ? { body } : {}) },
    file: lm63(random, shape, opening),
    extent: long,
    description: `${withBody ? `${profile} with ` : ""}${shape}`,
  };
}

interface OpeningFields {
  /** Width, length, height as LM-63-2002 signs them. */
  readonly fields: readonly number[];
  /** Whether the long side lies along C0–C180. */
  readonly along: boolean;
}

function openingOf(shape: OpeningShape, d: number, long: number, h: number): OpeningFields {
  const fields = (width: number, length: number, height: number, along = true) => ({
    fields: [width, length, height],
    along,
  });
  switch (shape) {
    case "point":
      return fields(0, 0, 0);
    case "disc":
      return fields(-d, -d, 0);
    case "upright disc":
      return fields(-d, 0, -d);
    case "ellipsoid":
      return fields(-d, -d, -h);
    case "cylinder":
      return fields(-d, -d, h);
    case "rectangle":
      return fields(d, long, 0);
    case "box":
      return fields(d, long, Math.min(d, h));
    case "cylinder along length":
      return fields(-d * 0.7, long, -d * 0.7);
    default:
      return fields(long, -d * 0.7, -d * 0.7, false);
  }
}

/** A lobe down, a share of light up, more of it across than along, in the classic layout of LM-63-2002. */
function lm63(random: RandomNumbers, shape: OpeningShape, { fields }: OpeningFields): string {
  const flux = random.between(400, 1600);
  const exponent = random.between(0.6, 6);
  const upward = shape === "disc" || shape === "point" ? random.between(0, 0.25) : random.between(0.1, 0.9);
  const sideways = shape === "disc" || shape === "point" ? 0 : random.between(0.2, 0.8);
  const across = random.chance(0.4) ? random.between(-0.5, 0.5) : 0;
  const gammas = Array.from({ length: 73 }, (_, i) => 2.5 * i);
  const planes = across === 0 ? [0] : Array.from({ length: 25 }, (_, i) => 15 * i);
  const lobe = (C: number, gamma: number) => {
    const c = Math.cos((gamma * Math.PI) / 180);
    const s = Math.sin((gamma * Math.PI) / 180);
    const main = c > 0 ? c ** exponent : upward * -c;
    return (main + sideways * s * s) * (1 + across * s * s * Math.cos((2 * C * Math.PI) / 180));
  };
  const scale = flux / (2 * Math.PI * (1 / (exponent + 1) + upward / 2 + (sideways * 4) / 3));
  const rows = planes.map((C) => gammas.map((gamma) => (scale * lobe(C, gamma)).toFixed(4)).join(" "));
  return [
    "IESNA:LM-63-2002",
    "[TEST] made at random",
    "[TESTLAB] none",
    "[ISSUEDATE] 1-JAN-2020",
    "[MANUFAC] none",
    "TILT=NONE",
    `1 -1 1 ${gammas.length} ${planes.length} 1 2 ${fields.map((f) => f.toFixed(4)).join(" ")}`,
    "1 1 10",
    gammas.join(" "),
    planes.join(" "),
    ...rows,
    "",
  ].join("\r\n");
}
