/** What a horizon leaves of a disc's first moment, against a sum over the disc. */
import { expect, it } from "vitest";
import { visibleMoment } from "../../../src/engine/direct/node-table.ts";

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
