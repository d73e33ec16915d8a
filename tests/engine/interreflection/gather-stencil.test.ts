/** Interpolation between gathered points: of the fourth order, so that a cubic comes back as it was. */
import { expect, it } from "vitest";
import { marginPlane } from "../../../src/app/margin-plane.ts";
import { stencilOf } from "../../../src/engine/interreflection/gather-stencil.ts";
import { rectanglePlane } from "../../support/tiny-scene.ts";

const cubic = (x: number, y: number): number => 1 + x - 2 * y + x * x * x - 3 * x * y * y + 2 * y ** 3;

it("gives a cubic back on a grid and along its edge", () => {
  const top = rectanglePlane("top", [0, 0, 0.9], [2.4, 1.1], 96, 44);
  const { grid } = top;
  if (grid === undefined) throw new Error("no grid");
  for (const plane of [top, marginPlane({ ...top, grid })]) {
    const { nodes, start, node, weight } = stencilOf(plane, 0.1);
    const at = (i: number): number => cubic(plane.points[3 * i], plane.points[3 * i + 1]);
    let worst = 0;
    for (let i = 0; i < plane.points.length / 3; i++) {
      let sum = 0;
      for (let k = start[i]; k < start[i + 1]; k++) sum += weight[k] * at(nodes[node[k]]);
      worst = Math.max(worst, Math.abs(sum - at(i)));
    }
    console.log(
      `${plane.name}: a cubic from ${nodes.length} of ${plane.points.length / 3} points, worst error ${worst.toExponential(1)}`,
    );
    expect(nodes.length).toBeLessThan(plane.points.length / 3);
    expect(worst).toBeLessThan(1e-11);
  }
});
