/** What a dimmer is set to for a share of light: against the published table of IEC 62386-102, and there and back. */
import { expect, it } from "vitest";
import { controlValue, LOGARITHMIC_LEVELS } from "../../src/scene/control-value.ts";
import { kitchen, refusal } from "../support/studies.ts";

it("gives the levels of the logarithmic curve's published table", () => {
  // IEC 62386-102, table of the standard dimming curve: level and light output in per cent; from memory.
  const table = [
    [1, 0.1],
    [60, 0.501],
    [85, 0.991],
    [126, 3.035],
    [170, 10.091],
    [203, 24.846],
    [229, 50.53],
    [243, 74.051],
    [254, 100],
  ] as const;
  let worst = 0;
  for (const [level, output] of table) {
    const found = (controlValue(output / 100, "logarithmic") ?? Number.NaN) * LOGARITHMIC_LEVELS;
    worst = Math.max(worst, Math.abs(found - level));
  }
  console.log(`worst distance from a level of the table: ${worst.toFixed(3)} levels`);
  // The table is rounded to a thousandth of a per cent: 0.02 of a level at its second row.
  expect(worst).toBeLessThan(0.1);
  expect(controlValue(0.0009, "logarithmic")).toBeNull();
});

it("is undone by the curve itself", () => {
  const pairs: [number, number][] = [
    [0.1, 0.01],
    [0.5, 0.2],
    [1, 0.95],
  ];
  const flux = (control: number): number => {
    const i = pairs.findIndex(([c]) => c >= control);
    const [[c0, f0], [c1, f1]] = [pairs[Math.max(0, i - 1)], pairs[Math.max(1, i)]];
    return f0 + ((control - c0) / (c1 - c0)) * (f1 - f0);
  };
  let worst = 0;
  for (let level = 0.01; level <= 0.95; level += 0.01) {
    worst = Math.max(worst, Math.abs(flux(controlValue(level, pairs) ?? Number.NaN) - level));
    worst = Math.max(worst, Math.abs((controlValue(level, "square") ?? Number.NaN) ** 2 - level));
    worst = Math.max(worst, Math.abs((controlValue(level, "linear") ?? Number.NaN) - level));
  }
  console.log(`worst error there and back: ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-12);
  expect(controlValue(0.25, "square")).toBe(0.5);
  expect([controlValue(0.005, pairs), controlValue(1, pairs), controlValue(0, pairs)]).toEqual([
    null,
    null,
    0,
  ]);
});

it("refuses points that do not rise, at their place", () => {
  const document = kitchen();
  const [{ layers }] = document.arrangements as { layers: { dimmer?: object }[] }[];
  layers[0].dimmer = {
    control: [
      [0.1, 0.2],
      [0.5, 0.1],
    ],
  };
  expect(refusal(document)).toMatchObject([
    { code: "dimmer-control", where: { path: "/arrangements/0/layers/0/dimmer/control/1" } },
  ]);
});
