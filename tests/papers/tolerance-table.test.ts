/** Tolerances on the set-out sheet: a ring about each box at the plan's scale, its figures in a table. */
import { expect, it } from "vitest";
import type { DrawnTolerance } from "../../src/drawing/tolerance-marks.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

it("stand on the plan and in a table, only where they were worked out", () => {
  const plain = handoverOf(kitchen());
  const [option] = plain.options;
  const [pendants] = option.scene.layers;
  const radii = [0.12, 0.3, 0.07];
  const tolerances = pendants.luminaires.map(
    ({ frame }, i): DrawnTolerance => ({
      position: frame.origin,
      radius: radii[i],
      ...(i === 1 ? {} : { beyond: { verdict: "falls short", direction: 0 } }),
      lower: { distance: 0.04, beyond: "too close to call" },
      higher: { distance: 0.2 },
    }),
  );
  const handover = { ...plain, options: [{ ...option, tolerances }] };
  const { sheets, view } = setOutSheets(handover);
  const marks = sheets.flatMap((sheet) => sheet.marks);
  const rings = marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "tolerance ring" ? [mark.points] : [],
  );
  let worst = 0;
  rings.forEach((points, i) => {
    const xs = points.map(([x]) => x);
    const radius = (Math.max(...xs) - Math.min(...xs)) / 2 / view.perMetre;
    worst = Math.max(worst, Math.abs(radius - radii[i]));
  });
  console.log(`worst radius on the sheet: ${(1000 * worst).toExponential(1)} mm`);
  expect(rings).toHaveLength(3);
  expect(worst).toBeLessThan(1e-9);
  const words = marks.flatMap((mark) =>
    "text" in mark && mark.depicts === "tolerance row" ? [mark.text] : [],
  );
  expect(words.join(" ")).toMatch(/P1 120 40 ≥ 200 falls short, too close to call/);
  expect(words).toContain("≥ 300");
  const without = setOutSheets(plain).sheets.flatMap((sheet) => sheet.marks);
  expect(without.some(({ depicts }) => depicts === "tolerance row" || depicts === "tolerance ring")).toBe(
    false,
  );
});

it("names what a pendant meets only where it meets it before the verdict changes", () => {
  const plain = handoverOf(kitchen());
  const [option] = plain.options;
  const met = [0.05, 0.15, undefined];
  const tolerances = option.scene.layers[0].luminaires.map(
    ({ frame }, i): DrawnTolerance => ({
      position: frame.origin,
      radius: 0.1,
      beyond: { verdict: "falls short", direction: 0 },
      ...(met[i] === undefined
        ? {}
        : {
            obstacle: {
              distance: met[i],
              clash: {
                between: [`P${i + 1}`],
                kind: "joist" as const,
                clear: 0,
                remedy: { kind: "move away" as const, by: 0.1 },
              },
            },
          }),
      lower: { distance: 0.2 },
      higher: { distance: 0.2 },
    }),
  );
  const { sheets } = setOutSheets({ ...plain, options: [{ ...option, tolerances }] });
  const words = sheets
    .flatMap(({ marks }) => marks)
    .flatMap((mark) => ("text" in mark && mark.depicts === "tolerance row" ? [mark.text] : []))
    .join(" ");
  expect(words).toMatch(/P1 50 ≥ 200 ≥ 200 P1: on a joist P2 100 ≥ 200 ≥ 200 falls short P3 100/);
});
