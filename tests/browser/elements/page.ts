/** The page the element tests open: one sheet on the synthetic island, moves applied as an app would. */
import "../../../src/elements.ts";
import type { LuminaireMoveDetail } from "../../../src/presentation/elements/shared/contract.ts";
import {
  syntheticAssessment,
  syntheticScene,
  syntheticStudy,
  withMoves,
} from "../../support/synthetic-island.ts";

const query = new URLSearchParams(location.search);
document.documentElement.dataset.mode = query.get("mode") ?? "day";
const stage = document.querySelector("#stage") as HTMLElement;

let scene = syntheticScene();
const events: LuminaireMoveDetail[] = [];
const sheet = document.createElement("candlespan-sheet");
sheet.study = syntheticStudy(scene);
sheet.scene = scene;
sheet.assessment = syntheticAssessment(scene);
if (query.has("height")) sheet.availableHeight = Number(query.get("height"));
sheet.addEventListener("luminaire-move", (event) => {
  const { detail } = event as CustomEvent<LuminaireMoveDetail>;
  events.push(detail);
  scene = withMoves(scene, detail.moves);
  sheet.scene = scene;
  sheet.assessment = syntheticAssessment(scene, detail.phase === "drag" ? "quick" : "full");
});
stage.append(sheet);

Object.assign(globalThis, { sheet, moves: events });
