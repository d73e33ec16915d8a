/** What stands on a surface shades it, however low it is; what only lies on it does not. */
import { expect, it } from "vitest";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import { calculate } from "../../support/calculate.ts";
import { luminaire, placed, plane, rotational, scene } from "../../support/luminaires.ts";
import { boxMesh } from "../../support/solids.ts";

/** A point source of equal intensity 1 m over the plane, 1 m before a wall of some height that stands on it. */
function behindWall(height: number, behind: number): number {
  const low: Vec3 = [0, -0.5, 0];
  const high: Vec3 = [0.02, 0.5, height];
  const lamp = placed(luminaire(rotational(() => 100)), [-1, 0, 1]);
  const wall = { name: "wall", kind: "body" as const, mesh: boxMesh(low, high), transmittance: 0 };
  const lit = { ...scene([[lamp]], [plane([[behind, 0, 0]])]), blockers: [wall] };
  return calculate(lit, { interreflection: false }).planes[0].layers[0].direct[0];
}

/** E = I cos θ / d² */
const clear = (behind: number): number => 100 / ((1 + behind) ** 2 + 1) ** 1.5;

it.each([0.04, 0.1, 0.3, 0.45])("throws a shadow as long as its height says, %s m high", (height) => {
  // From the lamp over the far rim: h / (s − 0.02) = 1 / (1 + s).
  const reach = (height + 0.02) / (1 - height);
  expect(behindWall(height, reach * 0.9)).toBe(0);
  expect(behindWall(height, reach * 1.1 + 0.01)).toBeCloseTo(clear(reach * 1.1 + 0.01), 2);
});
