/** What shifting boxes off joists does to the light, against the kitchen calculated anew with its row where it is shifted to. */
import { expect, it } from "vitest";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import { openDocument } from "../../src/app/open-document.ts";
import { shiftedLight } from "../../src/app/shifted-light.ts";
import { maintainedLayers, totalOf } from "../../src/assessment/layer-light.ts";
import { statistics } from "../../src/assessment/statistics.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { handoverOption } from "../../src/papers/handover.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { topPlane } from "../../src/scene/top-plane.ts";
import { checkJson } from "../../src/words/check-json.ts";
import { checkText } from "../../src/words/check-text.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const joists = { along: "y", spacing: 0.6, width: 0.045, first: 0.7 };
const withRow = (more: Json, room: Json = {}): Json =>
  kitchen({
    room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ...room },
    arrangements: [
      {
        name: "three domes",
        layers: [{ name: "pendants", luminaire: "dome", row: { count: 3, clearance: 0.85, ...more } }],
      },
    ],
  });

function lit(study: Json) {
  const all = resolved(study);
  const [scene] = all.scenes;
  const result = new LightEngine().calculate(scene, { quality: "quick" });
  const top = topPlane(scene);
  const { points, weights } = scene.planes[top];
  const total = totalOf(maintainedLayers(scene, result.planes[top]), points.length / 3);
  return { all, scene, result, top: statistics(total, weights) };
}

it("is what the shifted row gives, and is told beside the HOLD (2026-11-29: the shift alone was told)", () => {
  const { all, scene, result, top } = lit(withRow({}, { joists }));
  const found = clashes(scene);
  const [{ remedy }] = found;
  if (remedy.kind !== "shift together") throw new Error("No shift.");
  const shifted = shiftedLight(scene, result, found);
  const anew = lit(withRow({ offset: [remedy.by, 0] })).top;
  console.log(
    `shifted by ${(1000 * remedy.by).toFixed(0)} mm: ${shifted?.average.toFixed(1)} lx, ${shifted?.uniformity.toFixed(3)}; ` +
      `calculated anew ${anew.average.toFixed(1)} lx, ${anew.uniformity.toFixed(3)}; as placed ${top.average.toFixed(1)} lx, ${top.uniformity.toFixed(3)}`,
  );
  // The bounds of light by superposition, for rows over an island.
  expect(Math.abs((shifted?.average ?? 0) / anew.average - 1)).toBeLessThan(0.01);
  expect(Math.abs((shifted?.uniformity ?? 0) - anew.uniformity)).toBeLessThan(0.01);
  expect(Math.abs(top.uniformity - anew.uniformity)).toBeGreaterThan(0.01);
  const [one] = judged(all);
  const said = checkText(all, [{ ...one, ...(shifted === undefined ? {} : { shifted }) }]).replace(
    /\s+/g,
    " ",
  );
  expect(said).toContain(
    `Shift all of P1 to P3 by 74 mm, ${remedy.by < 0 ? "towards" : "away from"} wall 3. Shifted so, the whole top has ${shifted?.average.toFixed(0)} lx, evenness ${shifted?.uniformity.toFixed(2)}; as placed `,
  );
});

it("is told in JSON and on the set-out sheet too (2026-11-29: in the text of check alone)", async () => {
  const opened = orThrow(await openDocument(withRow({}, { joists })));
  const [scene] = opened.study.scenes;
  const light = await arrangementLight(opened, scene, { draft: true, layersOff: false });
  const { shifted } = light;
  if (shifted === undefined) throw new Error("Nothing shifted.");
  const [{ shifted: answered }] = (checkJson(opened.study, [light], false) as { arrangements: Json[] })
    .arrangements;
  expect(answered).toEqual(shifted);
  const words = `Shifted so, the whole top has ${shifted.average.toFixed(0)} lx, evenness ${shifted.uniformity.toFixed(2)}; as placed `;
  const handover = { ...handoverOf(withRow({}, { joists })), options: [handoverOption(light)] };
  const said = setOutSheets(handover)
    .sheets.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])))
    .join(" ");
  expect(said.replaceAll(/\s+/g, " ")).toContain(words);
});

it("is nothing where nothing is to be shifted", () => {
  const { scene, result } = lit(withRow({}));
  expect(shiftedLight(scene, result, clashes(scene))).toBeUndefined();
});
