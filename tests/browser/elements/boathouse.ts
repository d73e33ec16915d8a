/** The worked example in any element: `?element=candlespan-sheet&arrangement=1&mode=evening`. */
import "../../../src/elements.ts";
import { bodyShadows } from "../../../src/advice/body-shadow.ts";
import { boathouseLight } from "../../support/boathouse-light.ts";

const query = new URLSearchParams(location.search);
document.documentElement.dataset.mode = query.get("mode") ?? "day";
const tag = query.get("element") ?? "candlespan-sheet";
const arrangement = Number(query.get("arrangement") ?? 0);
const { study, assessments } = await boathouseLight(
  "/fixtures-data/boathouse/",
  JSON.parse(query.get("edits") ?? "{}"),
);
const element = document.createElement(tag);
Object.assign(element, {
  study,
  arrangement,
  assessment: assessments[arrangement],
  ...(query.has("shadow")
    ? {
        shadows: bodyShadows(study.scenes[arrangement]),
        images: [{ spot: [2.5, 1.8, 0.92], person: "guest" }],
      }
    : {}),
  assessments,
  ...(query.has("fc") ? { display: { length: "ft-in", illuminance: "fc" } } : {}),
  ...(query.has("height") ? { availableHeight: Number(query.get("height")) } : {}),
});
document.querySelector("#stage")?.append(element);
document.documentElement.dataset.ready = "true";
