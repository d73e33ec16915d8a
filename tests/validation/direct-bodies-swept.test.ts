/**
 * Luminous bodies that send light unevenly, swept: box, cylinder, ellipsoid and flat openings with beams, lopsided and
 * up-and-down tables, from one and a half radii to sixty, against a plain loop over elements of area.
 *
 * Nothing of the engine's quadrature, node table, projected areas or production lookup is on the other side: midpoints
 * of equal steps, textbook projected areas, the reference lookup.
 * Bound: 0.25 % of the larger of the contribution and 0.1 % of what the peak would give there.
 */
import { describe, expect, it } from "vitest";
import { DirectSource } from "../../src/engine/direct/direct-source.ts";
import { Receiver } from "../../src/engine/direct/receiver.ts";
import { rotationOf, UPRIGHT } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { beam, luminaire, opening, sampled } from "../support/luminaires.ts";
import { randomStream } from "../support/random-stream.ts";

const BOUND = 0.0025;
const INTO_FACE = rotationOf(UPRIGHT);

interface Element {
  readonly at: Vec3;
  /** Outward unit normal; none on a flat opening. */
  readonly normal?: Vec3;
  readonly area: number;
}
type Projected = (d: Vec3) => number;

function box([l, w, h]: Vec3, n: number): { elements: Element[]; projected: Projected } {
  const size = [l, w, h];
  const elements: Element[] = [];
  for (const k of [0, 1, 2])
    for (const side of [-1, 1])
      for (let i = 0; i < n; i++)
        for (let j = 0; j < n; j++) {
          const at: [number, number, number] = [0, 0, 0];
          const normal: [number, number, number] = [0, 0, 0];
          const [u, v] = [(k + 1) % 3, (k + 2) % 3];
          at[k] = (side * size[k]) / 2;
          at[u] = size[u] * ((i + 0.5) / n - 0.5);
          at[v] = size[v] * ((j + 0.5) / n - 0.5);
          normal[k] = side;
          elements.push({ at, normal, area: (size[u] * size[v]) / (n * n) });
        }
  return {
    elements,
    projected: ([x, y, z]) => w * h * Math.abs(x) + l * h * Math.abs(y) + l * w * Math.abs(z),
  };
}

function cylinder([d, , h]: Vec3, n: number): { elements: Element[]; projected: Projected } {
  const r = d / 2;
  const elements: Element[] = [];
  for (let i = 0; i < n; i++)
    for (let j = 0; j < 4 * n; j++) {
      const φ = (2 * Math.PI * (j + 0.5)) / (4 * n);
      const [c, s] = [Math.cos(φ), Math.sin(φ)];
      elements.push({
        at: [r * c, r * s, h * ((i + 0.5) / n - 0.5)],
        normal: [c, s, 0],
        area: (2 * Math.PI * r * h) / (4 * n * n),
      });
      const ρ = r * Math.sqrt((i + 0.5) / n);
      for (const end of [-1, 1])
        elements.push({
          at: [ρ * c, ρ * s, (end * h) / 2],
          normal: [0, 0, end],
          area: (Math.PI * r * r) / (4 * n * n),
        });
    }
  return { elements, projected: ([x, y, z]) => Math.PI * r * r * Math.abs(z) + d * h * Math.hypot(x, y) };
}

function ellipsoid([l, w, h]: Vec3, n: number): { elements: Element[]; projected: Projected } {
  const [a, b, c] = [l / 2, w / 2, h / 2];
  const elements: Element[] = [];
  for (let i = 0; i < 2 * n; i++)
    for (let j = 0; j < 4 * n; j++) {
      const u = (i + 0.5) / n - 1;
      const s = Math.sqrt(1 - u * u);
      const φ = (2 * Math.PI * (j + 0.5)) / (4 * n);
      const at: Vec3 = [a * s * Math.cos(φ), b * s * Math.sin(φ), c * u];
      const steep: Vec3 = [at[0] / (a * a), at[1] / (b * b), at[2] / (c * c)];
      const size = Math.hypot(...steep);
      const normal: Vec3 = [steep[0] / size, steep[1] / size, steep[2] / size];
      // dA of an ellipsoid = abc |S⁻² x| dω of the unit sphere
      elements.push({ at, normal, area: (a * b * c * size * 4 * Math.PI) / (8 * n * n) });
    }
  return { elements, projected: ([x, y, z]) => Math.PI * Math.hypot(b * c * x, a * c * y, a * b * z) };
}

function rectangle([l, w]: Vec3, n: number): { elements: Element[]; projected: Projected } {
  const across = Math.max(4, Math.round((2 * n * w) / l));
  const along = 2 * n;
  const elements = Array.from(
    { length: along * across },
    (_, k): Element => ({
      at: [l * (((k % along) + 0.5) / along - 0.5), w * ((Math.floor(k / along) + 0.5) / across - 0.5), 0],
      area: 1 / (along * across),
    }),
  );
  return { elements, projected: () => 1 };
}

/** Illuminance at p, by the receiver's plain definition. */
function plain(
  light: IntensityDistribution,
  { elements, projected }: { elements: Element[]; projected: Projected },
  p: Vec3,
  n: Vec3 | "cylinder",
): number {
  let E = 0;
  for (const { at, normal, area } of elements) {
    const v: Vec3 = [p[0] - at[0], p[1] - at[1], p[2] - at[2]];
    const d = Math.hypot(...v);
    const ω: Vec3 = [v[0] / d, v[1] / d, v[2] / d];
    const facing =
      normal === undefined ? 1 : Math.max(0, normal[0] * ω[0] + normal[1] * ω[1] + normal[2] * ω[2]);
    if (facing === 0) continue;
    const received =
      n === "cylinder" ? Math.hypot(ω[0], ω[1]) / Math.PI : -(n[0] * ω[0] + n[1] * ω[1] + n[2] * ω[2]);
    if (received > 0)
      E += (((intensityTowards(light, ...ω) * facing * area) / projected(ω)) * received) / (d * d);
  }
  return E;
}

const lobe =
  (power: number, [ax, ay, az]: Vec3, up = 0) =>
  ([x, y, z]: Vec3) =>
    1000 * (Math.max(0, ax * x + ay * y + az * z) ** power + up * Math.max(0, z) ** 2) + 20;
const aside: Vec3 = [Math.sin(0.5), 0, -Math.cos(0.5)];
const askew: Vec3 = [0.25, 0.3, -Math.sqrt(1 - 0.0625 - 0.09)];

describe("directional bodies", () => {
  it.each([
    ["box, lopsided 15° × 5°", "box", [0.3, 0.2, 0.1], sampled(lobe(6, aside), 15, 5), box],
    ["long box, askew 5° × 2.5°", "box", [1.2, 0.06, 0.05], sampled(lobe(30, askew), 5, 2.5), box],
    ["cylinder, lopsided 15° × 5°", "cylinder", [0.25, 0.25, 0.25], sampled(lobe(6, aside), 15, 5), cylinder],
    [
      "flat cylinder, up and down",
      "cylinder",
      [0.5, 0.5, 0.05],
      sampled(lobe(2, [0, 0, -1], 0.6), 15, 5),
      cylinder,
    ],
    [
      "ellipsoid, askew 5° × 2.5°",
      "ellipsoid",
      [0.4, 0.25, 0.15],
      sampled(lobe(30, askew), 5, 2.5),
      ellipsoid,
    ],
    ["linear, lopsided 15° × 5°", "rectangle", [1.2, 0.05, 0], sampled(lobe(6, aside), 15, 5), rectangle],
    ["linear, Lambertian", "rectangle", [1.2, 0.05, 0], beam(120, 1000, 2.5), rectangle],
  ] as const)("%s", (name, shape, size, light, cut) => {
    const emitter = new DirectSource(luminaire(light, opening(shape, size[0], size[1], size[2])), BOUND);
    const random = randomStream(20_261_125);
    const peak = light.intensity.reduce((a, b) => Math.max(a, b));
    let worst = 0;
    for (let i = 0; i < 16; i++) {
      const r = emitter.radius * 1.5 * 40 ** random();
      const [γ, C] = [Math.acos(1 - random()), 2 * Math.PI * random()];
      // Planes of the table and the axis itself are where the intensity bends.
      const turn = i % 4 === 0 ? -Math.PI / 2 : C;
      const p: Vec3 = [r * Math.sin(γ) * Math.cos(turn), r * Math.sin(γ) * Math.sin(turn), -r * Math.cos(γ)];
      const cylindrical = i % 3 === 2;
      const n: Vec3 = i % 3 === 1 ? [0.6, 0, 0.8] : [0, 0, 1];
      const receiver = new Receiver(cylindrical ? "cylindrical" : "planar", n, INTO_FACE);
      // Where the horizon cuts the opening the plain loop's own steps show; elsewhere 32 do for 2e-4.
      const height = -(n[0] * p[0] + n[1] * p[1] + n[2] * p[2]);
      if (!cylindrical && height < emitter.radius) continue;
      const exact = plain(light, cut(size as Vec3, 32), p, cylindrical ? "cylinder" : n);
      const floor = (1e-3 * peak) / (r * r);
      const E = emitter.illuminance(...p, receiver, floor);
      worst = Math.max(worst, Math.abs(E - exact) / Math.max(exact, floor));
    }
    console.log(`worst error ${name}: ${worst.toExponential(2)}`);
    expect(worst).toBeLessThan(BOUND);
  });

  it("a cylinder's reading right under a linear opening, where its weight bends", () => {
    // Found by the sweep, 2026-11-25: 0.44 % low with the nodes that a plane would need.
    const light = beam(120, 1000, 2.5);
    const emitter = new DirectSource(luminaire(light, opening("rectangle", 1.2, 0.05)), BOUND);
    const p: Vec3 = [-0.1331, -0.0067, -0.5007];
    const E = emitter.illuminance(...p, new Receiver("cylindrical", [0, 0, 1], INTO_FACE), 0);
    const exact = plain(light, rectangle([1.2, 0.05, 0], 600), p, "cylinder");
    console.log(
      `worst error of a cylinder under a linear opening: ${Math.abs(E / exact - 1).toExponential(2)}`,
    );
    expect(Math.abs(E / exact - 1)).toBeLessThan(BOUND);
  });

  it("a point a hand under a face is lit, though a narrow beam reaches it from a coin's width", () => {
    // Found by the sweep, 2026-11-25: the cell's samples lay inside the box, where nothing arrives, and one node was
    // taken for enough: 0 lx. Here no bound is promised, but light is.
    const light = beam(17, 1000, 1);
    const emitter = new DirectSource(luminaire(light, opening("box", 0.3, 0.2, 0.1)), BOUND);
    const receiver = new Receiver("planar", [0, 0, 1], INTO_FACE);
    const p: Vec3 = [0.1308, 0.0065, -0.0646];
    const E = emitter.illuminance(...p, receiver, 47);
    // Straight under a wide face the beam fills: E = flux per area of the face, side faces being dark.
    const exact = plain(
      light,
      { ...box([0.3, 0.2, 0.1], 600), projected: ([, , z]) => 0.06 * Math.abs(z) },
      p,
      [0, 0, 1],
    );
    console.log(`worst error next to a face: ${Math.abs(E / exact - 1).toExponential(2)}`);
    expect(Math.abs(E / exact - 1)).toBeLessThan(0.5);
    expect(emitter.tooNear(...p)).toBe(true);
  });
});
