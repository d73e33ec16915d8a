/**
 * Costs of two layers by hand.
 *
 * Three pendants of 210, 9 W, 2 h a day at 80 %: price 630; 7300 h in ten years of 2500 h lamps of 5 each: replaced after 2500 and 5000
 * h, so 2 · 5 · 3 = 30; 21.6 W · 7300 h = 157.68 kWh at 0.30 = 47.304. Four spots of 40, 10 W, 4 h a day: price 160; 14 600 h of
 * lamps for 14 600 h: none; 40 W · 14 600 h = 584 kWh at 0.30 = 175.2. Together 1042.504.
 */
import { expect, it } from "vitest";
import { costReport } from "../../src/advice/cost.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { Layer } from "../../src/scene/scene.ts";
import { costGapWords, costWords } from "../../src/words/cost-words.ts";
import { placed } from "../support/luminaires.ts";
import { lambertian } from "../support/tiny-scene.ts";

const layer = (name: string, count: number, more: Partial<Luminaire>, rest: Partial<Layer> = {}): Layer => ({
  name,
  role: "pendant",
  dim: 1,
  luminaires: Array.from({ length: count }, (_, i) =>
    placed({ ...lambertian(`${name} type`, 800, "A"), ...more }, [1 + i, 1, 2]),
  ),
  ...rest,
});

const pendant = { price: 210, watts: 9, lampLife: 2500, lampPrice: 5 };
const spot = { price: 40, watts: 10, lampLife: 14_600 };
const tariff = { perKilowattHour: 0.3, currency: "EUR" };
const pendants = layer("pendants", 3, pendant, { dim: 0.8, hours: 2 });
const ambient = layer("ambient", 4, spot, { hours: 4 });

it("adds price, lamps and energy as they are added by hand", () => {
  const report = costReport({ layers: [pendants, ambient], tariff });
  expect(report.price).toBe(790);
  expect(report.lamps).toBe(30);
  expect(report.energy).toBeCloseTo(222.504, 9);
  expect(report.total).toBeCloseTo(1042.504, 9);
  expect(report.missing).toEqual([]);
  expect(report.layers.map(({ price }) => price)).toEqual([630, 160]);
  expect(costWords(report)).toBe(
    "Price 790.00 EUR, lamps over 10 years 30.00 EUR, energy over 10 years 222.50 EUR: together 1042.50 EUR.",
  );
  expect(costGapWords(report)).toBeUndefined();
});

it("is the same, year by year and lamp by lamp", () => {
  let worst = 0;
  for (const [hours, life] of [
    [0, 1000],
    [0.5, 1825],
    [3, 10_950],
    [3, 10_949],
    [5.5, 800],
    [24, 25_000],
  ]) {
    const report = costReport({
      layers: [layer("a", 2, { price: 1, watts: 12, lampLife: life, lampPrice: 7 }, { hours })],
      tariff,
    });
    // The second route switches each lamp on day by day, and changes it when it has burnt its life and another day follows.
    let [burnt, changed, kilowattHours] = [0, 0, 0];
    for (let day = 0; day < 3650; day++) {
      if (burnt >= life - 1e-9 && hours > 0) [burnt, changed] = [burnt - life, changed + 1];
      burnt += hours;
      kilowattHours += (2 * 12 * hours) / 1000;
    }
    // A lamp that ends within the last day is changed then.
    if (burnt > life + 1e-9) changed++;
    worst = Math.max(
      worst,
      Math.abs((report.energy ?? 0) - 0.3 * kilowattHours),
      Math.abs((report.lamps ?? 0) - 14 * changed),
    );
  }
  console.log(`worst difference of six: ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-6);
});

it("leaves blank what is not stated, names it, and guesses nothing", () => {
  const bare = costReport({
    layers: [pendants, layer("ambient", 4, { watts: 10 })],
    tariff: { perKilowattHour: 0.3 },
  });
  expect(bare).not.toHaveProperty("price");
  expect(bare).not.toHaveProperty("lamps");
  expect(bare).not.toHaveProperty("energy");
  expect(bare).not.toHaveProperty("total");
  expect(bare.layers[0].total).toBeCloseTo(707.304, 9);
  expect(costGapWords(bare)).toBe(
    "Not stated: price of ambient type; life of the lamps of ambient type; hours of use a day of ambient.",
  );
  expect(costWords(bare)).toContain("Price –,");
  const lampless = costReport({
    layers: [layer("p", 1, { ...pendant, lampPrice: undefined }, { hours: 2 })],
  });
  expect(lampless.missing).toEqual([{ kind: "lamp price", luminaire: "p type" }, { kind: "tariff" }]);
  expect(lampless.price).toBe(210);
  expect(lampless).not.toHaveProperty("energy");
  // A lamp that outlives the years needs no price.
  expect(costReport({ layers: [ambient], tariff }).lamps).toBe(0);
  expect(
    costReport({ layers: [layer("p", 1, { ...pendant, watts: undefined }, { hours: 2 })], tariff }).missing,
  ).toEqual([{ kind: "power", luminaire: "p type" }]);
});
