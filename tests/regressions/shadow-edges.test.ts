/**
 * Shadow edges, found 2026-11-27: bodies of revolution were 24-gons, whose edge lay up to 2 mm beside that of the round
 * body; lines of sight started 1 mm over the receiving point, which moved every edge by 1 mm times the tangent of its
 * slant; samples were shifted by the point's number in its plane; and the light of a lamp in its shade behind a shelf's
 * edge was a staircase of forty steps.
 */
import { describe, expect, it } from "vitest";
import { frame } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { luminaireBlockers } from "../../src/scene/luminaire-blockers.ts";
import type { Blocker } from "../../src/scene/scene.ts";
import { calculate } from "../support/calculate.ts";
import { beam, luminaire, opening, placed, plane, scene } from "../support/luminaires.ts";
import { boxMesh } from "../support/solids.ts";

const LAMP: Vec3 = [0, 0, 2];
const spot = luminaire(beam(60), opening("point", 0));

function drumShadow(points: readonly Vec3[], diameter: number, z: number): Float64Array {
  const body = {
    profile: "drum",
    diameter,
    height: 0.3,
    offset: 0,
    reflectance: 0,
    transmittance: 0,
  } as const;
  const given = scene(
    [[placed(spot, LAMP)], [{ luminaire: { ...spot, body }, frame: frame([0, 0, z]) }]],
    [plane(points)],
  );
  return calculate({ ...given, blockers: luminaireBlockers(given.layers) }, { interreflection: false })
    .planes[0].layers[0].direct;
}

describe("the shadow of a round body", () => {
  it("ends where the rim's does, in every direction", () => {
    // A drum of 0.68 m from 1 m to 1.3 m under a point at 2 m: its upper rim casts the shadow, to 0.34 · 2 / 0.7 m.
    const edge = (0.34 * 2) / 0.7;
    const around = Array.from({ length: 48 }, (_, k) => (2 * Math.PI * (k + 0.25)) / 48);
    const at = (r: number) => around.map((φ): Vec3 => [r * Math.cos(φ), r * Math.sin(φ), 0]);
    const within = drumShadow(at(edge - 1e-4), 0.68, 1);
    const without = drumShadow(at(edge + 1e-4), 0.68, 1);
    expect(within.filter((E) => E > 0)).toHaveLength(0);
    expect(without.filter((E) => E === 0)).toHaveLength(0);
  });
});

describe("a shadow's edge", () => {
  it("lies where the line of sight from the very point says", () => {
    // An edge at x = 0.5, 1 m up, seen under 45 degrees: the shadow begins at x = 1.
    const blockers: Blocker[] = [
      { name: "shelf", kind: "body", mesh: boxMesh([0.5, -3, 1], [3, 3, 1.1]), transmittance: 0 },
    ];
    const points: Vec3[] = [
      [1 - 1e-4, 0, 0],
      [1 + 1e-4, 0, 0],
    ];
    const [seen, hidden] = calculate(
      { ...scene([[placed(spot, LAMP)]], [plane(points)]), blockers },
      { interreflection: false },
    ).planes[0].layers[0].direct;
    expect(seen).toBeGreaterThan(0);
    expect(hidden).toBe(0);
  });
});

describe("a point in half shadow", () => {
  it("has the same light in any company", () => {
    const blockers: Blocker[] = [
      { name: "shelf", kind: "body", mesh: boxMesh([0.1, -3, 0.9], [3, 3, 1]), transmittance: 0 },
      { name: "pane", kind: "body", mesh: boxMesh([-3, 0.05, 1.2], [3, 0.3, 1.3]), transmittance: 0.4 },
    ];
    const lamp = placed(luminaire(beam(90), opening("disc", 0.4)), LAMP);
    // The share that passes: what arrives clear is another module's.
    const light = (points: readonly Vec3[], solids: readonly Blocker[]) => {
      const field = (blockers: readonly Blocker[]) =>
        calculate({ ...scene([[lamp]], [plane(points)]), blockers }, { interreflection: false }).planes[0]
          .layers[0].direct;
      const clear = field([]);
      return field(solids).map((E, k) => E / clear[k]);
    };
    const points = Array.from({ length: 60 }, (_, k): Vec3 => [0.1 + 0.008 * k, 0.002 * k, 0]);
    const together = light(points, blockers);
    const backwards = light([...points].reverse(), [...blockers].reverse()).reverse();
    // In a plane that is not level, so that other points lie lower.
    const tilted = light([...points, [0, 0, -0.5], [1, 1, 0.7]], blockers);
    let worst = 0;
    points.forEach((p, k) => {
      const [alone] = light([p], blockers);
      for (const other of [together[k], backwards[k], tilted[k]])
        worst = Math.max(worst, Math.abs(other - alone));
    });
    console.log(`one point in any company: worst difference ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-9);
  });

  it("changes half as much between points half as far apart", () => {
    const blockers: Blocker[] = [
      { name: "shelf", kind: "body", mesh: boxMesh([0.1, -3, 0.9], [3, 3, 1]), transmittance: 0 },
    ];
    const lamp = placed(luminaire(beam(90), opening("disc", 0.2)), LAMP);
    const jump = (n: number) => {
      const points = Array.from({ length: n + 1 }, (_, k): Vec3 => [0.05 + (0.35 * k) / n, 0, 0]);
      const { direct } = calculate(
        { ...scene([[lamp]], [plane(points)]), blockers },
        { interreflection: false },
      ).planes[0].layers[0];
      return Math.max(...direct.subarray(1).map((E, k) => Math.abs(E - direct[k])));
    };
    for (const n of [100, 200, 400]) expect(jump(2 * n) / jump(n)).toBeLessThan(0.55);
  });
});
