/** Levels of nodes, and what a horizon leaves of a disc's first moment against a sum over the disc. */
import { expect, it } from "vitest";
import { DirectSource } from "../../../src/engine/direct/direct-source.ts";
import { visibleMoment } from "../../../src/engine/direct/node-table.ts";
import { Receiver } from "../../../src/engine/direct/receiver.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import { luminaire, opening, sampled } from "../../support/luminaires.ts";

it("of a disc that a horizon cuts is the sum over what stands above it", () => {
  const steps = 400;
  let worst = 0;
  for (const t of [-1.5, -1, -0.7, -0.2, 0, 0.3, 0.8, 1, 1.2]) {
    let sum = 0;
    for (let i = -steps; i < steps; i++)
      for (let j = -steps; j < steps; j++) {
        const [x, y] = [(i + 0.5) / steps, (j + 0.5) / steps];
        if (x * x + y * y < 1) sum += Math.max(0, x - t) / steps ** 2;
      }
    worst = Math.max(worst, Math.abs(visibleMoment(t) - sum / Math.PI));
  }
  console.log(`visible moment: worst error ${worst.toExponential(1)}`);
  // Cells of the rim are taken whole or not at all.
  expect(worst).toBeLessThan(2e-4);
});

it("asks for the nodes of a mirrored distribution at the mirrored point, whichever side its beam is on", () => {
  // A beam of some ten degrees to one side of a luminaire that is dim and even on the other.
  const beamTowards = (side: 1 | -1) => {
    const axis: Vec3 = [0.6 * side, 0, -0.8];
    const towards = (d: Vec3): number => d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2];
    const type = luminaire(
      sampled((d) => 50 + 5000 * Math.max(0, towards(d)) ** 200, 5, 1),
      opening("disc", 0.4),
    );
    return new DirectSource(type, 0.0025);
  };
  const [right, left] = [beamTowards(1), beamTowards(-1)];
  const unturned = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const receiver = new Receiver("planar", [0, 0, 1], unturned);
  const levels = new Set<number>();
  for (const x of [-1, -0.75, -0.5, -0.25, 0.25, 0.5, 0.75, 1])
    for (const y of [-0.3, 0.1, 0.4]) {
      const level = right.level(x, y, -1, receiver, 1);
      expect(left.level(-x, y, -1, receiver, 1)).toBe(level);
      levels.add(level);
    }
  expect(levels.size).toBeGreaterThan(1);
});
