/**
 * 2026-11-28. Eight places asked for themselves whether a luminaire is round in plan. By those that compared length with width a square
 * one was round: the set-out sheet drew a circle, left out how it is turned, and the schedule gave one width, as of a diameter.
 */
import { expect, it } from "vitest";
import { setOut } from "../../src/app/set-out/set-out.ts";
import { setOutPlan } from "../../src/drawing/set-out-plan.ts";
import { planForm } from "../../src/luminaire/plan-extent.ts";
import { turnedBoxes } from "../../src/papers/set-out/orientation-table.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const beam = { flux: 800, angle: 90 };
const opening = (shape: string, length: number, width: number, height = 0) => ({
  shape,
  length,
  width,
  height,
});
const hung = (luminaire: Json) =>
  resolved(
    kitchen({
      luminaires: { lamp: luminaire },
      arrangements: [
        {
          name: "a",
          layers: [
            {
              name: "pendants",
              role: "pendant",
              luminaire: "lamp",
              at: [{ position: [2.7, 2.1, 1.8], turn: 30 }],
            },
          ],
        },
      ],
    }),
  ).scenes[0];

it.each<[string, Json, "circle" | "ellipse" | "rectangle"]>([
  ["a point", { beam }, "circle"],
  ["a disc", { beam, opening: opening("disc", 0.2, 0.2) }, "circle"],
  ["an oval disc", { beam, opening: opening("disc", 0.3, 0.2) }, "ellipse"],
  ["a square opening", { beam, opening: opening("rectangle", 0.2, 0.2) }, "rectangle"],
  ["a cube", { beam, opening: opening("box", 0.2, 0.2, 0.2) }, "rectangle"],
  ["a square body", { beam, body: { profile: "box", length: 0.2, width: 0.2, height: 0.1 } }, "rectangle"],
  ["a dome", { beam, body: { profile: "dome", diameter: 0.3 } }, "circle"],
  [
    "a dome over a square opening within its rim",
    { beam, opening: opening("rectangle", 0.29, 0.29), body: { profile: "dome", diameter: 0.3 } },
    "circle",
  ],
  [
    "a narrow dome on a long opening",
    { beam, opening: opening("rectangle", 1.2, 0.05), body: { profile: "dome", diameter: 0.1 } },
    "rectangle",
  ],
])("gives %s its form on plan and on the set-out sheet, and says how it is turned", (_, luminaire, form) => {
  const scene = hung(luminaire);
  expect(planForm(scene.layers[0].luminaires[0].luminaire)).toBe(form);
  const found = setOut(scene, "mm", (m) => m.toFixed(3));
  expect(turnedBoxes(found, scene.room).length).toBe(form === "circle" ? 0 : 1);
  const words = { dimension: (m: number): string => m.toFixed(3) };
  const body = setOutPlan(scene, found, 90, words).marks.find((mark) => mark.depicts === "pendant body");
  if (form !== "ellipse") expect(body?.kind).toBe(form === "circle" ? "circle" : "line");
});
