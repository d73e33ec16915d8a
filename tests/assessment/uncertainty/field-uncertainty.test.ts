/** What inputs spread to one side shift: against the mean of the light itself over what may be built. */
import { expect, it } from "vitest";
import { FieldUncertainties } from "../../../src/assessment/uncertainty/field-uncertainty.ts";
import { DEFAULT_BANDS, type InputBands } from "../../../src/assessment/uncertainty/input-bands.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { NOTHING_AGAIN } from "../../support/textbook-verdicts.ts";
import { textbookResult, tinyScene } from "../../support/tiny-scene.ts";

const uncertaintyOf = (scene: Scene, bands: Partial<InputBands> = {}) => {
  const result = textbookResult(scene);
  const all = { ...DEFAULT_BANDS, ...bands };
  const [field] = new FieldUncertainties(scene, result, [0], all, NOTHING_AGAIN).of(scene);
  const light = scene.layers.map(({ dim }, l) => {
    const { direct, interreflected } = result.planes[0].layers[l];
    return direct.map((E, i) => scene.maintenance * dim * (E + interreflected[i]));
  });
  return { field, light };
};

/** Mean of 0 … 1 under a normal density cut there, by a sum over it. */
function meanWithin(middle: number, sigma: number): number {
  let weight = 0;
  let sum = 0;
  for (let x = 0.000005; x < 1; x += 0.00001) {
    const density = Math.exp(-(((x - middle) / sigma) ** 2) / 2);
    weight += density;
    sum += density * x;
  }
  return sum / weight;
}

it("of a maintenance factor that cannot pass 1 is the mean light of all that it may be", () => {
  for (const maintenance of [0.8, 0.97]) {
    const scene = { ...tinyScene(), maintenance };
    const { field, light } = uncertaintyOf(scene, { maintenance: 0.1 });
    const without = uncertaintyOf(scene, { maintenance: 1e-9 }).field;
    const mean = meanWithin(maintenance, 0.05);
    field.shift.forEach((shift, i) => {
      const whole = light[0][i] + light[1][i];
      expect(shift - without.shift[i]).toBeCloseTo(whole * (mean / maintenance) - whole, 5);
    });
  }
});

// The pendants are measured whole; the spots are known by rated flux, of which they give 90 to 100 %.
it("of rated flux is the mean of what rated lamps give, less", () => {
  const { field, light } = uncertaintyOf(tinyScene());
  const without = uncertaintyOf(tinyScene(), { ratedFlux: 0 }).field;
  field.shift.forEach((shift, i) => {
    expect(shift - without.shift[i]).toBeCloseTo(0.95 * light[1][i] - light[1][i], 9);
  });
});

it("of dimming is of the layers that are dimmed, not of those at full output or off", () => {
  const [pendants, ambient] = tinyScene().layers;
  for (const [dim, dimmed] of [
    [1, ["ambient"]],
    [0.7, ["pendants", "ambient"]],
    [0, ["ambient"]],
  ] as const) {
    const scene = tinyScene({ layers: [{ ...pendants, dim }, ambient] });
    const { field, light } = uncertaintyOf(scene);
    const found = field.contributions.filter(({ input }) => input.kind === "dimming");
    expect(found.map(({ input }) => input.of)).toEqual(dimmed);
    // ±10 % of itself are two standard deviations.
    for (const { input, effect } of found)
      effect.forEach((each, i) => {
        expect(each).toBeCloseTo(0.05 * light[input.of === "pendants" ? 0 : 1][i], 9);
      });
  }
});
