/** Pendants' bodies that hide the same of a room: two of them in one place are one, and two that overlap hide what
 * their union hides. Both hold of any way to reckon with bodies. */
import { describe, expect, it } from "vitest";
import type { CalculationResult } from "../../../src/engine/result.ts";
import type { Mesh } from "../../../src/geometry/mesh.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import type { Blocker, Scene } from "../../../src/scene/scene.ts";
import { calculate } from "../../support/calculate.ts";
import { luminaire, placed, plane, rotational, scene } from "../../support/luminaires.ts";
import { roomSurfaces } from "../../support/rooms.ts";
import { boxMesh } from "../../support/solids.ts";

/** Light that goes up only, above whatever hangs there. */
const uplight = luminaire(rotational((γ) => (γ > Math.PI / 2 ? -1000 * Math.cos(γ) : 0)));
const points = Array.from({ length: 8 }, (_, k): Vec3 => [1.3 + 0.35 * k, 2.2, 0.9]);

function room(bodies: readonly Mesh[]): Scene {
  const blockers = bodies.map(
    (mesh, i): Blocker => ({ name: `plate ${i}`, kind: "pendant", mesh, transmittance: 0, reflectance: 0 }),
  );
  return {
    ...scene([[placed(uplight, [2.6, 2, 2.3])]], [plane(points)]),
    surfaces: roomSurfaces(5.2, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }),
    blockers,
  };
}

function light(bodies: readonly Mesh[], quality: "quick" | "full"): Float64Array {
  return calculate(room(bodies), { quality }).planes[0].layers[0].interreflected;
}

function worstBetween(a: Float64Array, b: Float64Array): number {
  return a.reduce((most, E, i) => Math.max(most, Math.abs(E / b[i] - 1)), 0);
}

const plate = (from: number, to: number): Mesh => boxMesh([from, 1.5, 1.6], [to, 2.6, 1.64]);

describe("energy", () => {
  /** Flux absorbed by the surfaces (lm), from what each patch receives. */
  function absorbed({ surfaces }: Scene, { patches }: CalculationResult): number {
    if (patches === undefined) throw new Error("no patches");
    const [{ illuminance }] = patches.layers;
    return illuminance.reduce(
      (sum, E, i) => sum + patches.area[i] * E * (1 - surfaces[patches.surface[i]].reflectance),
      0,
    );
  }

  it("is on the surfaces and in the bodies that stand in its way, each once", () => {
    // Light down, onto one plate over another.
    const down = luminaire(rotational((γ) => (γ < Math.PI / 2 ? 1000 * Math.cos(γ) : 0)));
    const flux = 1000 * Math.PI;
    for (const bodies of [[], [plate(1.9, 3.3)], [plate(1.9, 3.3), plate(2, 3.2)]]) {
      const plain = room(bodies);
      const layers = [{ ...plain.layers[0], luminaires: [placed({ ...down, flux }, [2.6, 2, 2.3])] }];
      const { balance } = calculate({ ...plain, layers }, { quality: "full" });
      const caught = balance?.absorbedByBodies ?? 0;
      console.log(
        `${bodies.length} plates: direct balance ${((balance?.directImbalance ?? 1) * 100).toFixed(2)} %, in them ${(100 * caught).toFixed(0)} %`,
      );
      if (bodies.length > 0) expect(caught).toBeGreaterThan(0.3);
      expect(Math.abs(balance?.directImbalance ?? 1)).toBeLessThan(0.005);
    }
  });

  it("is missing where a wall is", () => {
    const whole = room([]);
    const open = { ...whole, surfaces: whole.surfaces.slice(0, 5) };
    const layers = [
      { ...open.layers[0], luminaires: [placed({ ...uplight, flux: 1000 * Math.PI }, [2.6, 2, 2.3])] },
    ];
    const result = calculate({ ...open, layers }, { quality: "quick" });
    const lost = absorbed({ ...open, layers }, result) / (1000 * Math.PI) - 1;
    console.log(
      `open room: balance ${(100 * (result.balance?.imbalance ?? 0)).toFixed(2)} %, by patches ${(100 * lost).toFixed(2)} %`,
    );
    expect(lost).toBeLessThan(-0.05);
    // The balance is that of the factors as they came out; in the patches, rows but a little short are scaled to one.
    const { imbalance = 0, directImbalance = 0 } = result.balance ?? {};
    expect(imbalance).toBeLessThanOrEqual(lost);
    expect(imbalance).toBeGreaterThan(2 * lost);
    expect(imbalance).toBeLessThan(directImbalance);
  });
});

describe("bodies that hide the same", () => {
  it.each(["quick", "full"] as const)("are one where they are in one place (%s)", (quality) => {
    const none = light([], quality);
    const one = light([plate(1.9, 3.3)], quality);
    const two = light([plate(1.9, 3.3), plate(1.9, 3.3)], quality);
    const hidden = worstBetween(one, none);
    const worst = worstBetween(two, one);
    console.log(
      `two plates in one place (${quality}): worst error ${worst.toExponential(1)}, one hides ${(100 * hidden).toFixed(0)} %`,
    );
    expect(hidden).toBeGreaterThan(0.3);
    // The same rays meet the same plate twice.
    expect(worst).toBeLessThan(1e-4);
  });

  it.each(["quick", "full"] as const)("hide what their union hides where they overlap (%s)", (quality) => {
    const whole = light([plate(1.9, 3.3)], quality);
    const parts = light([plate(1.9, 2.9), plate(2.4, 3.3)], quality);
    const worst = worstBetween(parts, whole);
    console.log(
      `two plates that overlap (${quality}): worst error ${(100 * worst).toFixed(2)} % of one plate`,
    );
    expect(worst).toBeLessThan(0.02);
  });
});
