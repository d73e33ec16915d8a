/**
 * Closed rooms with known answers.
 *
 * - Any closed room of one reflectance: the area mean is Φ / (A (1 − ρ)), whatever shape and source (energy).
 * - Cube of 4 m, 10,000 lm isotropic at the centre; unit cube whose floor emits 1000 lm/m²: piecewise-constant
 *   radiosity with exact factors, refined 8, 16, 32 to the side and extrapolated (own computation).
 * - Sphere: the interreflected light is ρΦ / (A (1 − ρ)) at every point (integrating sphere; textbook).
 * - Lumped enclosures: unit squares, unit cube; J. P. Holman, Heat Transfer, example 8.16 (same algebra).
 */
import { describe, expect, it } from "vitest";
import { exchangeOf } from "../../src/engine/interreflection/exchange.ts";
import { Gather } from "../../src/engine/interreflection/gather.ts";
import { cutPatches, type Patches, patchesOf } from "../../src/engine/interreflection/patches.ts";
import { solveRadiosity } from "../../src/engine/interreflection/radiosity.ts";
import { dot, subtract, type Vec3 } from "../../src/geometry/vector.ts";
import type { Surface } from "../../src/scene/surface.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { calculate } from "../support/calculate.ts";
import { rotational } from "../support/distributions.ts";
import { luminaire, placed, plane, scene } from "../support/luminaires.ts";
import { roomSurfaces, surfaceOf } from "../support/rooms.ts";

const isotropic = (flux: number) => ({
  ...luminaire(rotational(() => flux / (4 * Math.PI), [0, 90, 180].map(Number))),
  flux,
});

function uniform(reflectance: number) {
  return { ceiling: reflectance, walls: reflectance, floor: reflectance };
}

function surfaceMean(patches: Patches, s: number, field: Float64Array): number {
  let sum = 0;
  let area = 0;
  for (let i = 0; i < patches.count; i++)
    if (patches.surface[i] === s) {
      sum += patches.area[i] * field[i];
      area += patches.area[i];
    }
  return sum / area;
}

describe("a closed room of one reflectance", () => {
  it("has the mean illuminance that energy demands, box or slope, any source", () => {
    let worst = 0;
    for (const rise of [0, 0.7])
      for (const rho of [0.2, 0.5, 0.8]) {
        const room = {
          ...scene([[placed(isotropic(3000), [1.2, 2.9, 1.7])]], [plane([[2, 2, 0]])]),
          surfaces: roomSurfaces(5.4, 4.2, 2.7, uniform(rho), rise),
        };
        const { patches, balance } = calculate(room);
        let flux = 0;
        patches!.area.forEach((a, i) => {
          flux += a * patches!.layers[0].illuminance[i];
        });
        const exact = 3000 / (1 - rho);
        worst = Math.max(worst, Math.abs(flux / exact - 1), Math.abs(balance!.imbalance));
      }
    console.log(`mean of closed rooms: worst error ${(100 * worst).toFixed(4)} %`);
    // 0.1 % without bodies is what is answered for.
    expectAccuracy("closed room, mean", worst);
  });

  it("of 4 m, lit from the centre, agrees with the refined benchmark at points", () => {
    const cases = [
      { rho: 0.5, centre: 310.98, inner: 216.075, mean: 208.33333 },
      { rho: 0.8, centre: 629.9, inner: 531.78, mean: 520.83333 },
    ];
    let worst = 0;
    let worstMean = 0;
    for (const { rho, centre, inner, mean } of cases) {
      const cube = {
        ...scene(
          [[placed(isotropic(10_000), [2, 2, 2])]],
          [
            plane([
              [2, 2, 0],
              [1, 1, 0],
            ]),
          ],
        ),
        surfaces: roomSurfaces(4, 4, 4, uniform(rho)),
      };
      const { planes, patches } = calculate(cube);
      const { direct, interreflected } = planes[0].layers[0];
      worst = Math.max(
        worst,
        Math.abs((direct[0] + interreflected[0]) / centre - 1),
        Math.abs((direct[1] + interreflected[1]) / inner - 1),
      );
      let flux = 0;
      patches!.area.forEach((a, i) => {
        flux += a * patches!.layers[0].illuminance[i];
      });
      worstMean = Math.max(worstMean, Math.abs(flux / 96 / mean - 1));
    }
    console.log(
      `cube lit from the centre: worst error ${(100 * worst).toFixed(3)} % at points, ${(100 * worstMean).toFixed(4)} % of the mean`,
    );
    // Points 0.5 %; the benchmark itself is known to 0.005 %.
    expectAccuracy("closed room, points", worst);
    expectAccuracy("closed room, cube mean", worstMean);
  });

  it("lit by its own floor agrees with the refined benchmark, where lumping errs by 13 %", () => {
    const exact = { floor: 208.72, ceiling: 342.43, walls: 362.21, ceilingCentre: 395.21 };
    const errors = [1000, 4000].map((wanted) => {
      const patches = patchesOf(roomSurfaces(1, 1, 1, uniform(0.5)), wanted);
      const { factors } = exchangeOf(new Gather(patches, []));
      const D = Float64Array.from(patches.surface, (s) => (s === 0 ? 2000 : 0));
      const rho = new Float64Array(patches.count).fill(0.5);
      const { exitance, interreflected } = solveRadiosity(factors, rho, D, { tolerance: 1e-7 });
      const gather = new Gather(patches, []);
      const row = new Float64Array(patches.count);
      gather.row(0.5, 0.5, 1, 0, 0, -1, row);
      let E = 0;
      row.forEach((f, i) => {
        E += f * exitance[i];
      });
      return Math.max(
        Math.abs(surfaceMean(patches, 0, interreflected) / exact.floor - 1),
        Math.abs(surfaceMean(patches, 1, interreflected) / exact.ceiling - 1),
        Math.abs(surfaceMean(patches, 2, interreflected) / exact.walls - 1),
        Math.abs(E / exact.ceilingCentre - 1),
      );
    });
    console.log(
      `cube lit by its floor: worst error ${errors.map((e) => (100 * e).toFixed(3)).join(" %, refined ")} %`,
    );
    // An emitter that meets walls: 0.3 % at the default, 0.1 % refined.
    expectAccuracy("closed room, lit floor", errors[0]);
    expectAccuracy("closed room, lit floor, refined", errors[1]);
  });
});

describe("a sphere", () => {
  it("spreads interreflected light evenly, whatever lights it", () => {
    const facets = facetedSphere(24, 12);
    const patches = cutPatches(facets, 10);
    const exchange = exchangeOf(new Gather(patches, []));
    const rho = 0.8;
    let area = 0;
    for (const a of patches.area) area += a;
    // All light on one facet: the hardest case for evenness.
    const D = new Float64Array(patches.count);
    D[5] = 1000 / patches.area[5];
    const { interreflected } = solveRadiosity(
      exchange.factors,
      new Float64Array(patches.count).fill(rho),
      D,
      { tolerance: 1e-9 },
    );
    const exact = (rho * 1000) / (area * (1 - rho));
    let worst = 0;
    let mean = 0;
    interreflected.forEach((E, i) => {
      mean += (E * patches.area[i]) / area;
      // The lit facet does not see itself, nor its flat neighbours as a true sphere would.
      const away = Math.hypot(
        patches.centre[3 * i] - patches.centre[15],
        patches.centre[3 * i + 1] - patches.centre[16],
        patches.centre[3 * i + 2] - patches.centre[17],
      );
      if (away > 0.6) worst = Math.max(worst, Math.abs(E / exact - 1));
    });
    console.log(
      `faceted sphere: worst error ${(100 * worst).toFixed(2)} % at a facet, mean ${(100 * Math.abs(mean / exact - 1)).toFixed(3)} %`,
    );
    expect(Math.abs(mean / exact - 1)).toBeLessThan(1e-3);
    // 288 flat facets stand in for the sphere, 15° from one to the next; the error falls with its square.
    expect(worst).toBeLessThan(0.03);
  });
});

describe("lumped enclosures", () => {
  const solve = (factors: number[][], rho: number[], emitted: number[]) => {
    const n = rho.length;
    // Emission enters as the direct light that would make it; a black emitter is given an exitance of its own.
    const D = Float64Array.from(emitted, (m, i) => (rho[i] > 0 ? m / rho[i] : 0));
    return solveRadiosity(
      Float32Array.from(factors.flat()),
      Float64Array.from(rho),
      D,
      { tolerance: 1e-12, maximumSweeps: 4000 },
      undefined,
      undefined,
    ).exitance.slice(0, n);
  };

  it("of flat walls have their textbook exitances and illuminances", () => {
    const box = cutPatches(roomSurfaces(1, 1, 1, uniform(0.5)), 10);
    expect(box.count).toBe(6);
    const { factors } = exchangeOf(new Gather(box, []));
    const lit = Float64Array.of(2000, 0, 0, 0, 0, 0);
    const cube = solveRadiosity(factors, new Float64Array(6).fill(0.5), lit, {
      tolerance: 1e-10,
    }).interreflected;
    const squares = solveRadiosity(factors, Float64Array.of(0.5, 0.5, 0, 0, 0, 0), lit, {
      tolerance: 1e-10,
    }).interreflected;
    const errors = [
      cube[0] / 181.8182 - 1,
      cube[1] / 363.4917 - 1,
      cube[2] / 363.6725 - 1,
      squares[1] / 201.83976 - 1,
      squares[0] / 20.1663 - 1,
    ].map(Math.abs);
    console.log(`lumped cube and squares: worst error ${Math.max(...errors).toExponential(1)}`);
    // The printed digits, and factors in single precision.
    expect(Math.max(...errors)).toBeLessThan(1e-6);
  });

  it("of Holman's two plates in a large room and in an insulated one", () => {
    // Holman 8.16: plates of emissivity 0.8 and 0.5 at 1000 and 400 K, F12 = 0.2, room at 300 K; σ 5.669e-8.
    const sigma = 5.669e-8;
    const [e1, e2, e3] = [1000, 400, 300].map((T) => sigma * T ** 4);
    // A black room is a lit surface whose exitance is fixed: reflectance almost none.
    const open = solve(
      [
        [0, 0.2, 0.8],
        [0.2, 0, 0.8],
        [0, 0, 1],
      ],
      [0.2, 0.5, 1e-12],
      [0.8 * e1, 0.5 * e2, e3],
    );
    const shut = solve(
      [
        [0, 0.2, 0.8],
        [0.2, 0, 0.8],
        [0.5, 0.5, 0],
      ],
      [0.2, 0.5, 1 - 1e-12],
      [0.8 * e1, 0.5 * e2, 0],
    );
    const errors = [
      open[0] / 45644.42 - 1,
      open[1] / 5473.75 - 1,
      shut[0] / 51955.25 - 1,
      shut[1] / 20390.26 - 1,
      shut[2] / 36172.76 - 1,
    ].map(Math.abs);
    console.log(`Holman 8.16: worst error ${Math.max(...errors).toExponential(1)}`);
    expect(Math.max(...errors)).toBeLessThan(2e-6);
  });

  it("of two infinite planes: E = D / (1 − ρ₁ρ₂)", () => {
    const { interreflected } = solveRadiosity(
      Float32Array.of(0, 1, 1, 0),
      Float64Array.of(0.2, 0.7),
      Float64Array.of(300, 0),
      { tolerance: 1e-12 },
    );
    expect(300 + interreflected[0]).toBeCloseTo(348.8372, 4);
    expect(interreflected[1]).toBeCloseTo(69.7674, 4);
  });
});

/** A sphere of radius 1 as inward-facing flat facets, triangles at the poles and trapezoids between. */
function facetedSphere(around: number, down: number): Surface[] {
  const at = (j: number, i: number): Vec3 => {
    const theta = (Math.PI * j) / down;
    const phi = (2 * Math.PI * i) / around;
    return [Math.sin(theta) * Math.cos(phi), Math.sin(theta) * Math.sin(phi), Math.cos(theta)];
  };
  const facets: Surface[] = [];
  for (let j = 0; j < down; j++)
    for (let i = 0; i < around; i++) {
      const corners = [at(j, i), at(j, i + 1), at(j + 1, i + 1), at(j + 1, i)].filter((v, k, all) =>
        all.every((w, m) => m >= k || Math.hypot(...subtract(v, w)) > 1e-9),
      );
      const facet = surfaceOf("wall 0", corners, 0.8);
      facets.push(dot(facet.normal, corners[0]) < 0 ? facet : surfaceOf("wall 0", corners.reverse(), 0.8));
    }
  return facets;
}
