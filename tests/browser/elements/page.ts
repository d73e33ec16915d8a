/** The page the element tests open: one sheet on the synthetic island, moves applied as an app would. */
import { movedScene } from "../../../src/elements.ts";
import type { LuminaireMoveDetail } from "../../../src/presentation/elements/shared/contract.ts";
import { syntheticAssessment, syntheticScene, syntheticStudy } from "../../support/synthetic-island.ts";

const query = new URLSearchParams(location.search);
document.documentElement.dataset.mode = query.get("mode") ?? "day";
const stage = document.querySelector("#stage") as HTMLElement;

let scene = syntheticScene();
const events: LuminaireMoveDetail[] = [];
const sheet = document.createElement("candlespan-sheet");
const others = ["candlespan-section", "candlespan-figures"] as const;
const shown = query.get("element") ?? "candlespan-sheet";
const elements = [sheet, ...others.map((tag) => document.createElement(tag))];

function give(quality: "quick" | "full" = "full"): void {
  const assessment = syntheticAssessment(scene, quality);
  for (const element of elements) {
    element.scene = scene;
    element.assessment = assessment;
  }
}

for (const element of elements) {
  element.study = syntheticStudy(scene);
  element.addEventListener("luminaire-move", (event) => {
    const { detail } = event as CustomEvent<LuminaireMoveDetail>;
    events.push(detail);
    scene = movedScene(scene, detail.moves);
    give(detail.phase === "drag" ? "quick" : "full");
  });
  if (element.localName === shown) stage.append(element);
}
give();
if (query.has("height")) sheet.availableHeight = Number(query.get("height"));

Object.assign(globalThis, { sheet, moves: events });
