/** The page the element tests open: any element on the synthetic island, moves applied as an app would. */

import type { LuminaireMoveDetail } from "../../../src/elements/shared/contract.ts";
import { movedScene } from "../../../src/elements.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import type { ResolvedStudy } from "../../../src/scene/resolved-study.ts";
import { SAMPLE_CARDS } from "../../support/sample-cards.ts";
import { syntheticAssessment, syntheticScene, syntheticStudy } from "../../support/synthetic-island.ts";

const query = new URLSearchParams(location.search);
document.documentElement.dataset.mode = query.get("mode") ?? "day";
const stage = document.querySelector("#stage") as HTMLElement;
const hostile = query.get("name");

let scene = syntheticScene();
if (hostile !== null)
  scene = {
    ...scene,
    name: hostile,
    zones: scene.zones.map((zone) => ({ ...zone, name: zone.name + hostile })),
    planes: scene.planes.map((plane) =>
      plane.zone === undefined ? plane : { ...plane, zone: plane.zone + hostile },
    ),
    people: scene.people.map((person) => ({ ...person, name: hostile })),
    layers: scene.layers.map((layer) => ({ ...layer, name: hostile })),
  };
const moves: LuminaireMoveDetail[] = [];
const edits: unknown[] = [];
const narrow = { ...scene, name: "narrow", layers: [{ ...scene.layers[0], dim: 0.6 }, scene.layers[1]] };
const study: ResolvedStudy = { ...syntheticStudy(scene), scenes: [scene, narrow] };
const document_ = {
  room: { length: 5.4, width: 4.2, ceilingHeight: "8'-10\"" },
  island: { zones: [{ name: "prep", from: [0, 0], size: [1.5, 1.1], target: "preparation" }] },
  people: [{ name: "cook", at: [2.3, 2.6] }],
  lamp: { flux: 806, watts: 7, finish: "frosted" },
  shade: { profile: "bell", diameter: "14 in", height: 0.24, finish: "white" },
};

// `tag` or `tag:about`, several separated by commas.
const elements = (query.get("element") ?? "candlespan-sheet").split(",").map((name) => {
  const [tag, about = "room"] = name.split(":");
  return Object.assign(document.createElement(tag), { about });
});

function give(quality: "quick" | "full" = "full"): void {
  const assessment = syntheticAssessment(scene, quality);
  for (const element of elements) Object.assign(element, { scene, assessment });
}

const assessments = [syntheticAssessment(scene), syntheticAssessment(narrow)];
for (const element of elements) {
  const tag = element.localName;
  Object.assign(element, {
    study,
    scene,
    assessment: assessments[0],
    assessments,
    luminaire: scene.layers[0].luminaires[0].luminaire,
    cards: SAMPLE_CARDS,
    sections: [
      {
        heading: "cook, leaning",
        sentences: [hostile ?? "Faces across are in plain view."],
        table: {
          left: [0],
          rows: [
            ["wide", "2", "3"],
            ["300 mm", "490", "653"],
          ],
        },
      },
    ],
    document: document_,
    defaults: [{ path: "/people/0/stature", value: 1.7, why: "not given; common practice, no source" }],
    read: readPhotometry,
    ...(tag === "candlespan-study-fields" ? { targets: ["preparation", "eating"] } : {}),
    ...(tag === "candlespan-length-field" ? { label: "Clearance", value: 0.85, least: 0.1, most: 2 } : {}),
  });
  element.addEventListener("luminaire-move", (event) => {
    const { detail } = event as CustomEvent<LuminaireMoveDetail>;
    moves.push(detail);
    scene = movedScene(scene, detail.moves);
    give(detail.phase === "drag" ? "quick" : "full");
  });
  for (const type of ["study-edit", "field-change", "photometry-choose", "luminaire-remove"])
    element.addEventListener(type, (event) => edits.push((event as CustomEvent).detail));
  stage.append(element);
}

Object.assign(globalThis, { sheet: elements[0], moves, edits });
