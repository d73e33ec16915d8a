/**
 * The light that spacing rules give, on an island worked out before from first principles: 96 × 42 in, three white domes
 * of 600 lm (800 lm lamps, light output ratio 0.75) sending I ∝ cos^1.5 γ from 35 in above the top, direct light only,
 * 7 × 3 cell centres, maintenance 1. Our own arithmetic, recomputed here by the plain loop:
 *
 *   equal bays (32 in): average 328 lx, U₀ 0.71;  outer ones 18 in from the ends (30 in): U₀ 0.67;
 *   24 in centre to centre: average 350 lx, U₀ 0.54;  two in equal bays: average 226 lx, U₀ 0.67.
 */
import { describe, expect, it } from "vitest";
import { guidelineCards } from "../../src/advice/guidelines/cards.ts";
import { SuperposedLight } from "../../src/advice/superposed-light.ts";
import { statistics } from "../../src/assessment/statistics.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { luminaire, placed, rotational } from "../support/luminaires.ts";
import { rectanglePlane, tinyScene } from "../support/tiny-scene.ts";

const IN = 0.0254;
const [L, W, TOP] = [96 * IN, 42 * IN, 36 * IN];
const N = 1.5;
const FLUX = 600;

const dome = {
  ...luminaire(
    rotational(
      (γ) => (γ < Math.PI / 2 ? ((FLUX * (N + 1)) / (2 * Math.PI)) * Math.cos(γ) ** N : 0),
      0.25,
      0,
      90,
    ),
  ),
  // Its rim 2 in below the photometric centre.
  body: {
    profile: "dome",
    diameter: 12 * IN,
    height: 8 * IN,
    offset: -2 * IN,
    reflectance: 0.5,
    transmittance: 0,
  } as const,
};

const plane = rectanglePlane("island top", [1, 1, TOP], [L, W], 7, 3);
const row = (pitch: number, count = 3) =>
  Array.from(
    { length: count },
    (_, i) => [1 + L / 2 + (i - (count - 1) / 2) * pitch * IN, 1 + W / 2, TOP + 35 * IN] as const,
  );
const scene = tinyScene({
  room: { length: 5, width: 4, ceilingHeight: 2.7, slope: 0, towards: 0 },
  island: {
    centre: [1 + L / 2, 1 + W / 2],
    turn: 0,
    length: L,
    width: W,
    height: TOP,
    outline: [
      [0, 0],
      [L, 0],
      [L, W],
      [0, W],
    ],
    topThickness: 0.04,
    finish: "matt",
    topReflectance: 0.4,
    sideReflectance: 0.5,
    levels: [],
  },
  zones: [],
  layers: [{ name: "pendants", role: "pendant", dim: 1, luminaires: row(32).map((at) => placed(dome, at)) }],
  planes: [plane],
  maintenance: 1,
});

/** The textbook's E = I cos ξ / d², I = I₀ cosⁿ γ. */
function plainly(places: readonly (readonly [number, number, number])[]): {
  average: number;
  uniformity: number;
} {
  const I0 = (FLUX * (N + 1)) / (2 * Math.PI);
  const values: number[] = [];
  for (let p = 0; p < plane.points.length; p += 3) {
    let E = 0;
    for (const [x, y, z] of places) {
      const h = z - plane.points[p + 2];
      const d = Math.hypot(x - plane.points[p], y - plane.points[p + 1], h);
      E += (I0 * (h / d) ** N * (h / d)) / d ** 2;
    }
    values.push(E);
  }
  const average = values.reduce((sum, E) => sum + E, 0) / values.length;
  return { average, uniformity: Math.min(...values) / average };
}

describe("the light of spacing rules", () => {
  const { planes } = new LightEngine().calculate(scene, { interreflection: false });
  const light = new SuperposedLight(scene, plane, planes[0]);
  const cards = guidelineCards(scene, { light: (changed) => statistics(light.of(changed), plane.weights) });
  const of = (id: string) => {
    const found = cards.find((card) => card.id === id)?.light;
    if (found === undefined) throw new Error(id);
    return found;
  };

  it("is that of the plain loop, and the figures known before", () => {
    const known = [
      ["equal-bays", row(32), 328, 0.71],
      ["end-18", row(30), undefined, 0.67],
      ["gap-one-diameter", row(24), 350, 0.54],
      ["equal-gaps", row(24), 350, 0.54],
      ["count-8-ft-two", row(48, 2), 226, 0.67],
    ] as const;
    let worst = 0;
    for (const [id, places, average, uniformity] of known) {
      const [found, plain] = [of(id), plainly(places)];
      worst = Math.max(
        worst,
        Math.abs(found.average / plain.average - 1),
        Math.abs(found.uniformity - plain.uniformity),
      );
      if (average !== undefined) expect(Math.round(found.average), id).toBe(average);
      expect(Number(found.uniformity.toFixed(2)), id).toBe(uniformity);
    }
    console.log(`worst error of a rule's light against the plain loop ${worst.toExponential(1)}`);
    // The production lookup answers for 5e-4.
    expect(worst).toBeLessThan(5e-4);
  });
});
