/** What goes into the ceiling is over its line on paper as on screen (2026-11-29: the paper drew pendants alone). */
import { expect, it } from "vitest";
import { elevationSpan, setOutElevation } from "../../src/drawing/set-out-elevation.ts";
import { handoverWords } from "../../src/papers/handover.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { type Json, kitchen } from "../support/studies.ts";

const { dome, spot } = kitchen().luminaires as Record<string, Json>;

function drawn(more: Json, direction: "along" | "across") {
  const layers = [
    { name: "pendants", luminaire: "dome", row: { count: 3 } },
    { name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 1, margin: 0.7 } },
  ];
  const luminaires = { dome, spot: { ...spot, ...more } };
  const handover = handoverOf(kitchen({ luminaires, arrangements: [{ name: "a", layers }] }));
  const { setOut } = setOutSheets(handover);
  const [{ scene }] = handover.options;
  const { marks } = setOutElevation(scene, setOut, direction, 100, handoverWords(handover));
  const bodies = marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "recessed body" ? [mark.points.map(([, y]) => y)] : [],
  );
  const said = marks.flatMap((mark) =>
    mark.kind === "text" && mark.depicts === "recessed body" ? [mark.text] : [],
  );
  const openings = marks.filter(({ depicts }) => depicts === "recessed opening").length;
  return { bodies, said, openings, height: elevationSpan(scene, direction)[1] };
}

it.each(["along", "across"] as const)("draws bodies in the ceiling as deep as they are, %s", (direction) => {
  const body = { profile: "cylinder", diameter: 0.085, height: 0.385 };
  const { bodies, said, openings, height } = drawn({ body }, direction);
  expect(openings).toBeGreaterThan(0);
  expect(bodies.length).toBeGreaterThan(0);
  for (const ys of bodies) {
    expect(Math.max(...ys)).toBeCloseTo(-270, 6);
    expect(Math.min(...ys)).toBeCloseTo(-308.5, 6);
  }
  expect(said).toEqual(["recessed 385"]);
  expect(height).toBeCloseTo(2.7 + 0.385, 6);
  const flat = drawn({}, direction);
  expect([flat.bodies, flat.said, flat.height]).toEqual([[], [], 2.7]);
  expect(flat.openings).toBe(openings);
});
