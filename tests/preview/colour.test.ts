/** Colour of light and of surfaces: against published chromaticities, and of the luminance that was computed. */
import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../src/geometry/vector.ts";
import {
  albedoOf,
  layerTints,
  linearOf,
  luminanceOf,
  planckian,
  tinted,
  unitTint,
} from "../../src/preview/colour.ts";
import { beam, luminaire, placed } from "../support/luminaires.ts";
import { randomStream } from "../support/random-stream.ts";
import { kitchen, resolved } from "../support/studies.ts";

/** CIE x, y of a linear sRGB colour (IEC 61966-2-1, Annex F matrix). */
function chromaticity([r, g, b]: Vec3): [number, number] {
  const X = 0.4124564 * r + 0.3575761 * g + 0.1804375 * b;
  const Y = 0.2126729 * r + 0.7151522 * g + 0.072175 * b;
  const Z = 0.0193339 * r + 0.119192 * g + 0.9503041 * b;
  return [X / (X + Y + Z), Y / (X + Y + Z)];
}

describe("light of a colour temperature", () => {
  // CIE 15:2004, Table T.3 (illuminant A) and the Planckian locus at 4000 K and 6500 K (from memory).
  it.each([
    [2856, 0.4476, 0.4074],
    [4000, 0.3805, 0.3768],
    [6500, 0.3135, 0.3237],
  ])("at %d K has the chromaticity of a black body", (T, x, y) => {
    const [found, other] = chromaticity(planckian(T));
    console.log(
      `worst error at ${T} K: ${Math.max(Math.abs(found - x), Math.abs(other - y)).toFixed(5)} in x, y`,
    );
    // The cubic's own error, and the table's last digit.
    expect(Math.abs(found - x)).toBeLessThan(0.001);
    expect(Math.abs(other - y)).toBeLessThan(0.001);
  });

  it("has luminance one and turns from red to blue as it rises", () => {
    let before = Number.POSITIVE_INFINITY;
    for (let T = 1800; T <= 12_000; T += 200) {
      const light = planckian(T);
      // Under some 1900 K its blue lies outside of sRGB and is cut off.
      expect(Math.abs(luminanceOf(light) - 1)).toBeLessThan(0.002);
      const ratio = light[0] / Math.max(1e-9, light[2]);
      expect(ratio).toBeLessThan(before);
      before = ratio;
    }
    expect(planckian(200)).toEqual(planckian(1667));
    expect(planckian(1e6)).toEqual(planckian(25_000));
  });

  it("is seen by an eye that has adapted: alone nearly white, beside a cooler one warm", () => {
    const [scene] = resolved(kitchen()).scenes;
    const layer = (cct: number) => ({
      ...scene.layers[0],
      dim: 1,
      luminaires: [placed({ ...luminaire(beam(60)), cct }, [1, 1, 2])],
    });
    const [alone] = layerTints([layer(2700)]);
    const [warm, cool] = layerTints([layer(2700), layer(6500)]);
    for (const tint of [alone, warm, cool]) expect(luminanceOf(tint)).toBeCloseTo(1, 9);
    expect(Math.abs(alone[0] - alone[2])).toBeLessThan(Math.abs(warm[0] - warm[2]));
    expect(warm[0]).toBeGreaterThan(warm[2]);
    expect(cool[2]).toBeGreaterThan(cool[0]);
    expect(layerTints([])).toEqual([]);
  });
});

describe("surfaces", () => {
  it("read sRGB as IEC 61966-2-1 codes it", () => {
    expect(linearOf("#ffffff")).toEqual([1, 1, 1]);
    expect(linearOf("#000000")).toEqual([0, 0, 0]);
    // 0x0a is on the straight part, 0xbc is close to a half.
    expect(linearOf("#0A0a0a")?.[0]).toBeCloseTo(10 / 255 / 12.92, 12);
    expect(linearOf("#bcbcbc")?.[1]).toBeCloseTo(0.503, 3);
    for (const wrong of [undefined, "", "#fff", "#12345g", "#1234567", "url(#ffffff)"])
      expect(linearOf(wrong)).toBeUndefined();
  });

  it("reflect what they were computed with, whatever their hue, and no channel more than all", () => {
    const random = randomStream(8);
    let worst = 0;
    for (let k = 0; k < 2000; k++) {
      const reflectance = random();
      const hue = unitTint([random(), random(), random()]);
      const albedo = tinted(hue, reflectance);
      worst = Math.max(worst, Math.abs(luminanceOf(albedo) - reflectance));
      expect(Math.max(...albedo)).toBeLessThanOrEqual(1 + 1e-12);
      expect(Math.min(...albedo)).toBeGreaterThanOrEqual(-1e-12);
    }
    console.log(`worst error of a tinted reflectance ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-12);
    expect(unitTint([0, 0, 0])).toEqual([1, 1, 1]);
  });

  it("take their given colour's hue, of the island its top", () => {
    const [{ surfaces }] = resolved(kitchen()).scenes;
    const sides = surfaces.find(
      ({ part, vertices }) => part === "island sides" && vertices.some(([, , z]) => z < 0.1),
    );
    const top = surfaces.find(({ part }) => part === "island top");
    if (sides === undefined || top === undefined) throw new Error("no island");
    const blue = new Map([["island", "#2040c0"]]);
    expect(albedoOf(top, blue)[2]).toBeGreaterThan(albedoOf(top, blue)[0]);
    expect(luminanceOf(albedoOf(top, blue))).toBeCloseTo(top.reflectance, 9);
    expect(albedoOf(sides, blue)).toEqual(albedoOf(sides, new Map()));
  });

  it("are known in words too, and a word that is no colour is none", () => {
    expect(linearOf("black")).toEqual(linearOf("#000000"));
    expect(linearOf("Warm grey")).toEqual(linearOf("#808080"));
    expect(linearOf("oak")).toBeUndefined();
    expect(linearOf("constructor")).toBeUndefined();
  });

  it("differ between top, fronts and floor, and a worktop is not a front", () => {
    const [{ surfaces }] = resolved(kitchen()).scenes;
    const hue = (part: string): string => {
      // The sides down to the floor, not the slab's edge.
      const found = [...surfaces].reverse().find((each) => each.part === part);
      return found === undefined
        ? part
        : unitTint(albedoOf(found, new Map()))
            .map((c) => c.toFixed(2))
            .join();
    };
    expect(new Set(["island top", "island sides", "floor", "wall 0"].map(hue)).size).toBe(4);
    const green = new Map([["units", "#46524c"]]);
    const face = { part: "body", name: "units", holes: [], reflectance: 0.5 } as const;
    const front = {
      ...face,
      normal: [0, 1, 0],
      vertices: [
        [0, 0, 0],
        [1, 0, 0],
        [1, 0, 0.9],
        [0, 0, 0.9],
      ],
    } as const;
    const counter = {
      ...face,
      normal: [0, 0, 1],
      vertices: [
        [0, 0, 0.9],
        [1, 0, 0.9],
        [1, 1, 0.9],
        [0, 1, 0.9],
      ],
    } as const;
    expect(albedoOf(counter, green)).not.toEqual(albedoOf(front, green));
    expect(luminanceOf(albedoOf(counter, green))).toBeCloseTo(0.5, 9);
  });
});
