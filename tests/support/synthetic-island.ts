/**
 * An island with everything a drawing must cope with, lit by point sources from the textbook: for tests of what
 * is drawn, not of what is computed.
 */
import type { ArrangementAssessment } from "../../src/assessment/assessment.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../../src/assessment/targets-published.ts";
import { frame } from "../../src/geometry/frame.ts";
import type { Body } from "../../src/luminaire/body.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { Scene, Zone } from "../../src/scene/scene.ts";
import { textbookAssessment } from "./textbook-verdicts.ts";
import { lambertian, rectanglePlane, textbookResult, tinyScene, tinyStudy } from "./tiny-scene.ts";

const DOME: Body = {
  profile: "dome",
  diameter: 0.3,
  height: 0.22,
  offset: 0,
  reflectance: 0.3,
  transmittance: 0,
};

export const DOME_PENDANT: Luminaire = {
  ...lambertian("dome", 1150, "A", 12),
  body: DOME,
  canopy: { diameter: 0.12 },
  suspension: "cord",
};
const DOWNLIGHT = lambertian("downlight", 320, "D", 7);

const rectangle = (x: number, y: number, w: number, h: number): Zone["outline"] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
];

/** Three domes over a 2.4 m top, eight recessed lights, three zones, a cook and a seated guest. */
export function syntheticScene(more: Partial<Scene> = {}, body: Body = DOME): Scene {
  const pendant: Luminaire = { ...DOME_PENDANT, body };
  const zones: Zone[] = [
    { name: "prep", outline: rectangle(0, 0.35, 1.5, 0.75), height: 0.92, target: "preparation" },
    { name: "eating", outline: rectangle(0, 0, 2.4, 0.35), height: 0.92, target: "eating" },
    { name: "washing", outline: rectangle(1.5, 0.35, 0.9, 0.75), height: 0.92, target: "washing" },
  ];
  const corner = [1.5, 1.35] as const;
  return tinyScene({
    name: "three domes",
    room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, slope: 0, towards: 0 },
    island: {
      centre: [2.7, 1.9],
      turn: 0,
      length: 2.4,
      width: 1.1,
      height: 0.92,
      outline: rectangle(0, 0, 2.4, 1.1),
      overhang: { side: "y-", depth: 0.3 },
      topThickness: 0.04,
      finish: "polished",
      topReflectance: 0.45,
      sideReflectance: 0.4,
      levels: [],
    },
    zones,
    people: [
      {
        name: "cook",
        stature: 1.72,
        at: [2.3, 2.63],
        facing: -Math.PI / 2,
        posture: "leaning",
        eye: [2.3, 2.45, 1.58],
      },
      {
        name: "guest",
        stature: 1.64,
        at: [3.2, 1.12],
        facing: Math.PI / 2,
        posture: "seated",
        eye: [3.2, 1.2, 1.2],
      },
    ],
    layers: [
      {
        name: "pendants",
        role: "pendant",
        dim: 1,
        luminaires: [0.4, 1.2, 2].map((x) => ({
          luminaire: pendant,
          frame: frame([corner[0] + x, 1.9, 1.77]),
        })),
      },
      {
        name: "ambient",
        role: "recessed",
        dim: 1,
        luminaires: [0.7, 2.03, 3.37, 4.7].flatMap((x) =>
          [0.7, 3.5].map((y) => ({ luminaire: DOWNLIGHT, frame: frame([x, y, 2.7]) })),
        ),
      },
    ],
    planes: [
      rectanglePlane("island top", [...corner, 0.92], [2.4, 1.1], 48, 22),
      rectanglePlane("prep", [corner[0], corner[1] + 0.35, 0.92], [1.5, 0.75], 6, 4, "prep"),
      rectanglePlane("eating", [corner[0], corner[1], 0.92], [2.4, 0.35], 8, 2, "eating"),
      rectanglePlane("washing", [corner[0] + 1.5, corner[1] + 0.35, 0.92], [0.9, 0.75], 5, 4, "washing"),
    ],
    ...more,
  });
}

export function syntheticStudy(scene: Scene = syntheticScene()): ResolvedStudy {
  return { ...tinyStudy([scene], [...PUBLISHED_TARGETS_BY_ID.values()]), title: "Synthetic island" };
}

export function syntheticAssessment(scene: Scene, quality: "quick" | "full" = "full"): ArrangementAssessment {
  const result = textbookResult(scene, 30);
  return textbookAssessment(syntheticStudy(scene), scene, {
    ...result,
    method: { ...result.method, quality },
  });
}
