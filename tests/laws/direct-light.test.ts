/**
 * Laws that direct light keeps whatever the luminaire: superposition, turning and mirroring, scaling, flux.
 *
 * Superposition is exact but for the order of additions. Turning luminaire and receiver together changes local
 * coordinates by rounding only, which can move a point across a cell of the node table; both sides then keep the
 * error bound, so the laws that turn hold to twice the bound (2 × 0.25 %), and where a symmetry maps nodes on
 * nodes, to rounding.
 */
import { describe, expect, it } from "vitest";
import { normalize, type Vec3 } from "../../src/geometry/vector.ts";
import type { PlacedLuminaire } from "../../src/luminaire/placed-luminaire.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { luminousFlux } from "../../src/photometry/luminous-flux.ts";
import { calculate } from "../support/calculate.ts";
import { elementToParallelDisc } from "../support/configuration-factors.ts";
import {
  beam,
  luminaire,
  opening,
  placed,
  plane,
  rotational,
  sampled,
  scene,
} from "../support/luminaires.ts";

const OPTIONS = { interreflection: false, occlusion: false };

function lux(
  luminaires: readonly PlacedLuminaire[],
  points: readonly Vec3[],
  normal: Vec3 = [0, 0, 1],
  options = {},
) {
  return calculate(scene([luminaires], [plane(points, normal)]), { ...OPTIONS, ...options }).planes[0]
    .layers[0].direct;
}

const lopsided = sampled(([x, y, z]) => Math.max(0, 400 * Math.max(0, -z) + 180 * x - 120 * y * z), 10, 2.5);
const lily = luminaire(lopsided, opening("disc", 0.4));
const bar = luminaire(lopsided, opening("rectangle", 0.9, 0.1));
const globe = luminaire(
  rotational(() => 80, 10),
  opening("ellipsoid", 0.3, 0.3, 0.3),
);
const spot = luminaire(beam(10, 5000), opening("disc", 0.3));

const grid: Vec3[] = [];
for (let i = 0; i < 12; i++) for (let j = 0; j < 6; j++) grid.push([0.1 + 0.2 * i, 0.1 + 0.2 * j, 0.9]);

const worst = (a: ArrayLike<number>, b: ArrayLike<number>) => {
  let highest = 0;
  for (let i = 0; i < b.length; i++) highest = Math.max(highest, b[i]);
  let most = 0;
  for (let i = 0; i < b.length; i++)
    most = Math.max(most, Math.abs(a[i] - b[i]) / Math.max(b[i], 1e-3 * highest));
  return most;
};

describe("superposition", () => {
  const all = [
    placed(lily, [0.5, 0.6, 1.7], { turn: 1, tilt: 0.4, spin: 2 }),
    placed(bar, [1.2, 0.5, 1.75], { turn: 0.3, tilt: 0, spin: 0 }),
    placed(globe, [1.9, 0.6, 1.6]),
    placed(spot, [0.9, 0.9, 1.8]),
  ];
  it("light of many is the sum of each alone, within each one's bound", () => {
    const together = lux(all, grid);
    const sum = new Float64Array(grid.length);
    for (const one of all) {
      const E = lux([one], grid);
      for (let i = 0; i < sum.length; i++) sum[i] += E[i];
    }
    const error = worst(together, sum);
    console.log(`worst error superposition ${error.toExponential(2)}`);
    // The floor of the bound is the plane's, which the others raise; node counts may differ by it.
    expect(error).toBeLessThan(0.0025);
  });
  it("layers do not know of each other's names, and a dimmer changes no field", () => {
    const base = scene([[all[0]], [all[1]]], [plane(grid)]);
    const full = calculate(base, OPTIONS);
    const dimmed = calculate(
      { ...base, layers: base.layers.map((layer) => ({ ...layer, dim: 0.3 })) },
      OPTIONS,
    );
    for (const n of [0, 1])
      expect(dimmed.planes[0].layers[n].direct).toEqual(full.planes[0].layers[n].direct);
  });
  it("twice the intensity is twice the light, to rounding", () => {
    const doubled: IntensityDistribution = { ...lopsided, intensity: lopsided.intensity.map((I) => 2 * I) };
    const once = lux([all[0]], grid);
    const twice = lux(
      [placed(luminaire(doubled, opening("disc", 0.4)), [0.5, 0.6, 1.7], { turn: 1, tilt: 0.4, spin: 2 })],
      grid,
    );
    for (let i = 0; i < once.length; i++) expect(Math.abs(twice[i] / once[i] - 2)).toBeLessThan(1e-12);
  });
});

describe("invariance", () => {
  it("turning the whole arrangement about the vertical changes nothing", () => {
    let most = 0;
    for (const type of [lily, bar, globe, spot]) {
      const at: Vec3 = [0.7, 0.5, 1.75];
      const base = lux([placed(type, at, { turn: 0.4, tilt: 0.2, spin: 0.5 })], grid);
      for (const angle of [0.5, Math.PI / 2, 2.2]) {
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const turn = ([x, y, z]: Vec3): Vec3 => [c * x - s * y, s * x + c * y, z];
        const turned = lux(
          [placed(type, turn(at), { turn: 0.4 + angle, tilt: 0.2, spin: 0.5 })],
          grid.map(turn),
        );
        most = Math.max(most, worst(turned, base));
      }
    }
    console.log(`worst error under rotation ${most.toExponential(2)}`);
    // The same local points to rounding: at most a cell's edge is crossed, both sides within the bound.
    expect(most).toBeLessThan(0.005);
  });
  it("spinning a rotational luminaire about its axis changes nothing beyond twice the bound", () => {
    let most = 0;
    for (const type of [spot, globe]) {
      const base = lux([placed(type, [0.7, 0.5, 1.75])], grid);
      for (const spin of [0.1, 0.7, 2])
        most = Math.max(
          most,
          worst(lux([placed(type, [0.7, 0.5, 1.75], { turn: 0, tilt: 0, spin })], grid), base),
        );
    }
    console.log(`worst error under spin ${most.toExponential(2)}`);
    expect(most).toBeLessThan(0.005);
  });
  it("the mirror image of a luminaire gives the mirror image of its light", () => {
    const mirrored = sampled(
      ([x, y, z]) => Math.max(0, 400 * Math.max(0, -z) + 180 * x + 120 * y * z),
      10,
      2.5,
    );
    let most = 0;
    for (const shape of [opening("disc", 0.4), opening("rectangle", 0.9, 0.1)]) {
      const base = lux(
        [placed(luminaire(lopsided, shape), [1.2, 0.6, 1.75], { turn: 0, tilt: 0.3, spin: 0 })],
        grid,
      );
      const image = lux(
        [placed(luminaire(mirrored, shape), [1.2, -0.6, 1.75], { turn: 0, tilt: 0.3, spin: 0 })],
        grid.map(([x, y, z]) => [x, -y, z]),
      );
      most = Math.max(most, worst(image, base));
    }
    console.log(`worst error under reflection ${most.toExponential(2)}`);
    // Nodes map on nodes and cells on cells; points on a cell's edge apart, only rounding is left.
    expect(most).toBeLessThan(0.0025);
  });
  it("all lengths doubled at equal intensity: a quarter of the light", () => {
    const small = lux([placed(lily, [0.7, 0.5, 1.75])], grid);
    const large = lux(
      [placed(luminaire(lopsided, opening("disc", 0.8)), [1.4, 1, 3.5])],
      grid.map(([x, y, z]) => [2 * x, 2 * y, 2 * z]),
    );
    let most = 0;
    for (let i = 0; i < small.length; i++) most = Math.max(most, Math.abs((4 * large[i]) / small[i] - 1));
    console.log(`worst error under scaling ${most.toExponential(2)}`);
    expect(most).toBeLessThan(1e-9);
  });
});

describe("flux", () => {
  it("what leaves an opening arrives on the six faces of a box round it", () => {
    // Midpoint rule on 40 × 40 cells a face, smooth integrand 0.5 m away: about 1e-4.
    const n = 40;
    for (const [name, type] of [
      ["lopsided disc", lily],
      ["lopsided bar", bar],
      ["globe", globe],
    ] as const) {
      let arrived = 0;
      for (let axis = 0; axis < 3; axis++) {
        for (const side of [-1, 1]) {
          const normal: [number, number, number] = [0, 0, 0];
          normal[axis] = -side;
          const points: Vec3[] = [];
          for (let i = 0; i < n; i++) {
            for (let j = 0; j < n; j++) {
              const p: [number, number, number] = [0, 0, 0];
              p[axis] = side;
              p[(axis + 1) % 3] = -1 + (2 * (i + 0.5)) / n;
              p[(axis + 2) % 3] = -1 + (2 * (j + 0.5)) / n;
              points.push(p);
            }
          }
          for (const E of lux([placed(type, [0, 0, 0])], points, normal)) arrived += (E * 4) / (n * n);
        }
      }
      const left = luminousFlux(type.distribution).total;
      console.log(`worst error flux of ${name}: ${(arrived / left - 1).toExponential(2)}`);
      expect(Math.abs(arrived / left - 1)).toBeLessThan(0.0025);
    }
  });
});

describe("cylindrical and semi-cylindrical illuminance", () => {
  const quantities = (
    kind: "planar" | "cylindrical" | "semi-cylindrical",
    luminaires: PlacedLuminaire[],
    point: Vec3,
    normals: readonly Vec3[],
  ) =>
    calculate(
      scene(
        [luminaires],
        normals.map((normal) => plane([point], normal, kind)),
      ),
      { ...OPTIONS, nearFieldError: 1e-4 },
    ).planes.map(({ layers }) => layers[0].direct[0]);
  const quantity = (
    kind: "planar" | "cylindrical" | "semi-cylindrical",
    luminaires: PlacedLuminaire[],
    point: Vec3,
    normal: Vec3,
  ) => quantities(kind, luminaires, point, [normal])[0];
  const point = luminaire(rotational(() => 1000, 30));

  it("a single source: E_z / E_h = tan θ / π", () => {
    for (const [degrees, ratio] of [
      [45, 0.31831],
      [60, 0.55133],
    ]) {
      const θ = (degrees * Math.PI) / 180;
      const lamp = [placed(point, [2 * Math.tan(θ), 0, 2])];
      const Ez = quantity("cylindrical", lamp, [0, 0, 0], [0, 0, 1]);
      const Eh = quantity("planar", lamp, [0, 0, 0], [0, 0, 1]);
      expect(Ez / Eh).toBeCloseTo(ratio, 5);
      expect(Ez / Eh).toBeCloseTo(Math.tan(θ) / Math.PI, 10);
    }
  });
  it("is the mean over all vertical directions; four directions are not enough", () => {
    const lamp = [placed(lily, [0.4, 0.7, 1.2], { turn: 0.3, tilt: 0.2, spin: 0 })];
    const Ez = quantity("cylindrical", lamp, [0, 0, 0], [0, 0, 1]);
    const directions = 720;
    const normals = Array.from({ length: directions }, (_, i): Vec3 => {
      const φ = (2 * Math.PI * (i + 0.5)) / directions;
      return [Math.cos(φ), Math.sin(φ), 0];
    });
    const planar = quantities("planar", lamp, [0, 0, 0], normals);
    const mean = planar.reduce((sum, E) => sum + E, 0) / directions;
    console.log(`worst error cylindrical against 720 directions ${(Ez / mean - 1).toExponential(2)}`);
    expect(Math.abs(Ez / mean - 1)).toBeLessThan(2e-4);
    const source = [placed(point, [2, 0, 2])];
    const exact = quantity("cylindrical", source, [0, 0, 0], [0, 0, 1]);
    for (const [turn, expected] of [
      [0, 0.7854],
      [Math.PI / 4, 1.1107],
    ]) {
      let four = 0;
      for (let i = 0; i < 4; i++) {
        const φ = turn + (i * Math.PI) / 2;
        four += quantity("planar", source, [0, 0, 0], [Math.cos(φ), Math.sin(φ), 0]) / 4;
      }
      expect(four / exact).toBeCloseTo(expected, 4);
    }
  });
  it("semi-cylindrical: (1/π)(I/d²)(1 + cos α) cos ε, facing, sideways and away", () => {
    const lamp = [placed(point, [2, 0, 1])];
    const Esc = (normal: Vec3) => quantity("semi-cylindrical", lamp, [0, 0, 0], normal);
    const base = ((1000 / 5) * (2 / Math.sqrt(5))) / Math.PI;
    expect(Esc([1, 0, 0])).toBeCloseTo(2 * base, 9);
    expect(Esc([0, 1, 0])).toBeCloseTo(base, 9);
    expect(Esc([-1, 0, 0])).toBeCloseTo(0, 9);
    // Front and back together are twice the cylinder.
    const front = Esc(normalize([0.3, 0.8, 0]));
    const back = Esc(normalize([-0.3, -0.8, 0]));
    expect(front + back).toBeCloseTo(2 * quantity("cylindrical", lamp, [0, 0, 0], [0, 0, 1]), 9);
  });
  it("under a large even ceiling of luminance L: E_h = πL, E_z half of it", () => {
    // A Lambertian disc of 400 m at 1 m: F = r²/(h² + r²) = 1 − 2.5e-5; its edge at 0.29° is missing from E_z.
    const r = 200;
    const ceiling = luminaire(
      rotational((γ) => Math.PI * r * r * Math.max(0, Math.cos(γ)), 0.05, 0, 90),
      opening("disc", 2 * r),
    );
    // Close to a large disc the node ladder ends; the near rings are what a cylinder needs. So compare at 0.4 r.
    const lamp = [placed(ceiling, [0, 0, 80])];
    const Eh = quantity("planar", lamp, [0, 0, 0], [0, 0, 1]);
    expect(Eh / Math.PI / elementToParallelDisc(80, r)).toBeCloseTo(1, 4);
    // E_z = ∫ sin²γ dγ 2 L over the cap = L (γ₀ − sin γ₀ cos γ₀)
    const γ0 = Math.atan(r / 80);
    const Ez = quantity("cylindrical", lamp, [0, 0, 0], [0, 0, 1]);
    console.log(
      `worst error cylindrical under a disc ${(Ez / (γ0 - Math.sin(γ0) * Math.cos(γ0)) - 1).toExponential(2)}`,
    );
    expect(Math.abs(Ez / (γ0 - Math.sin(γ0) * Math.cos(γ0)) - 1)).toBeLessThan(1e-4);
  });
});
