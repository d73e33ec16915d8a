/** Power as dimmed: linear with flux, or by the dimmer's own curve. Check figure: 2 × 9 W + 4 × 10 W on 5 m × 4 m is
 * 2.90 W/m² (lighting power density = connected watts / floor area). */
import { describe, expect, it } from "vitest";
import { energyOf, powerShare } from "../../src/assessment/energy.ts";
import { frame } from "../../src/geometry/frame.ts";
import { lambertian, tinyScene } from "../support/tiny-scene.ts";

const at = (watts: number | undefined, count: number) =>
  Array.from({ length: count }, () => ({
    luminaire: lambertian("x", 500, "A", watts),
    frame: frame([1, 1, 2]),
  }));

describe("power", () => {
  it("is connected watts over floor area at full output", () => {
    const layers = [
      { name: "a", role: "pendant" as const, dim: 1, luminaires: at(9, 2) },
      { name: "b", role: "recessed" as const, dim: 1, luminaires: at(10, 4) },
    ];
    const energy = energyOf(tinyScene({ layers }));
    expect(energy).toEqual({ watts: 58, wattsPerSquareMetre: 2.9, unknownWatts: 0 });
  });

  it("follows the dimmer's curve, straight between its points and level beyond them", () => {
    const dimmer = {
      curve: [
        [0.1, 0.2],
        [0.5, 0.4],
        [1, 1],
      ] as const,
    };
    const share = (dim: number): number => powerShare({ dim, dimmer });
    expect([0, 0.1, 0.3, 0.5, 0.75, 1].map(share)).toEqual([0.2, 0.2, expect.closeTo(0.3, 12), 0.4, 0.7, 1]);
    // A dimmer measured up to 80 % only says nothing of more: what it drew there stands.
    expect(powerShare({ dim: 0.95, dimmer: { curve: [...dimmer.curve.slice(0, 2), [0.8, 0.7]] } })).toBe(0.7);
    expect(powerShare({ dim: 0.3 })).toBe(0.3);
  });

  it("counts luminaires that do not state theirs", () => {
    const layers = [
      { name: "a", role: "pendant" as const, dim: 0.5, luminaires: [...at(10, 1), ...at(undefined, 2)] },
    ];
    expect(energyOf(tinyScene({ layers }))).toMatchObject({ watts: 5, unknownWatts: 2 });
  });
});
