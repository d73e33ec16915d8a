/** Words of an arrangement with only those planes refined of which words tell something, against all planes refined. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import { openStudy } from "../../src/app/open-study.ts";
import { refinedForWords, refinedPlanes } from "../../src/app/refined-planes.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { checkText } from "../../src/words/check-text.ts";
import { plainBoathouse } from "../fuzz/plain-boathouse.ts";

it("tell the same with fewer points", async () => {
  const one = { ...example, arrangements: example.arrangements.slice(1, 2) };
  const opened = orThrow(await openStudy(plainBoathouse(one)));
  const { study } = opened;
  const [scene] = study.scenes;
  const [few, all] = [refinedForWords(scene), refinedPlanes(scene.planes)];
  const points = ({ planes }: typeof few) => planes.reduce((sum, plane) => sum + plane.points.length / 3, 0);
  console.log(`fine points: ${points(few)} instead of ${points(all)}`);
  expect(points(few)).toBeLessThan(0.7 * points(all));
  const texts = [];
  for (const refined of [few, all]) {
    const light = await arrangementLight(opened, scene, { draft: true, findings: "full", refined });
    for (const full of [false, true]) texts.push(checkText(study, [light], { full }));
  }
  expect(texts.slice(0, 2)).toEqual(texts.slice(2));
  // 2026-11-29: "minimum (of both grids)" stood there with two figures and no word of which is whose.
  expect(texts[0].replace(/\s+/g, " ").split("in brackets those of it and the fine grid")).toHaveLength(2);
});
