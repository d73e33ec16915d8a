/** Gathered light on planes, cylinders and semi-cylinders against closed forms, and what interpolation may err. */
import { describe, expect, it } from "vitest";
import { marginPlane } from "../../../src/app/margin-plane.ts";
import { Gather } from "../../../src/engine/interreflection/gather.ts";
import { PatchIntegral } from "../../../src/engine/interreflection/patch-integral.ts";
import { type Patches, patchesOf } from "../../../src/engine/interreflection/patches.ts";
import { PlaneGather } from "../../../src/engine/interreflection/plane-gather.ts";
import { unevenPatches } from "../../../src/engine/interreflection/uneven-patches.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import type { ReceivedQuantity } from "../../../src/scene/calculation-plane.ts";
import { plane } from "../../support/luminaires.ts";
import { boxSurfaces, roomSurfaces, surfaceOf } from "../../support/rooms.ts";
import { boxMesh } from "../../support/solids.ts";
import { rectanglePlane } from "../../support/tiny-scene.ts";

describe("gathered light", () => {
  it("on cylinders and semi-cylinders is what their definitions integrate", () => {
    // A small facet up and ahead: E_z = I sin θ / (π d²), E_sc = I (1 + cos α) cos ε / (π d²), I = L A cos θ′.
    const side = 0.02;
    const centre: Vec3 = [1.5, 0.8, 2.6];
    const [x, y, z] = centre;
    const facet = surfaceOf(
      "ceiling",
      [
        [x - side / 2, y - side / 2, z],
        [x - side / 2, y + side / 2, z],
        [x + side / 2, y + side / 2, z],
        [x + side / 2, y - side / 2, z],
      ],
      1,
    );
    const gather = new Gather(patchesOf([facet], 1), []);
    const eye: Vec3 = [0, 0, 1.2];
    const d2 = x * x + y * y + (z - 1.2) ** 2;
    const d = Math.sqrt(d2);
    const M = 5000;
    const I = (M / Math.PI) * side * side * ((z - 1.2) / d);
    const horizontal = Math.hypot(x, y) / d;
    let worst = 0;
    const check = (quantity: ReceivedQuantity, normal: Vec3, exact: number) => {
      const found = new PlaneGather("", gather, plane([eye], normal, quantity), 0.1).evaluate(
        new Float64Array(gather.patches.count).fill(M),
        1,
      ).layers[0][0];
      worst = Math.max(worst, Math.abs(found / exact - 1));
    };
    check("planar", [0, 0, 1], (I / d2) * ((z - 1.2) / d));
    check("cylindrical", [0, 0, 1], ((I / d2) * horizontal) / Math.PI);
    for (const facing of [0, 0.7, 2.5]) {
      const alpha = Math.atan2(y, x) - facing;
      check(
        "semi-cylindrical",
        [Math.cos(facing), Math.sin(facing), 0],
        ((I / d2) * (1 + Math.cos(alpha)) * horizontal) / Math.PI,
      );
    }
    console.log(`cylinders: worst error ${(100 * worst).toFixed(2)} %`);
    // One facet is the hardest case for a mean over 24 (12) directions: the kink of max(0, cos) at most a half
    // step off, (π / 24)² / 6 = 0.3 % of a cylinder; light from all round averages it out.
    expect(worst).toBeLessThan(0.01);
  });

  it("in a closed room of one exitance is that exitance, whatever stands in it", () => {
    const low: Vec3 = [1.1, 1.3, 0];
    const high: Vec3 = [3.4, 2.2, 0.9];
    const shelf: readonly [Vec3, Vec3] = [
      [2, 1.6, 1.4],
      [3, 2.6, 1.5],
    ];
    const floorHole: Vec3[] = [low, [low[0], high[1], 0], [high[0], high[1], 0], [high[0], low[1], 0]];
    const patches = patchesOf(
      [
        ...roomSurfaces(5, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }, 0, [floorHole]),
        ...boxSurfaces("island sides", low, high, 0.5),
        ...boxSurfaces("body", ...shelf, 0.5, { bottom: true }),
      ],
      300,
    );
    const gather = new Gather(patches, [
      { name: "island", kind: "island", mesh: boxMesh(low, high), transmittance: 0 },
      { name: "shelf", kind: "body", mesh: boxMesh(...shelf), transmittance: 0 },
    ]);
    const points = Array.from({ length: 12 }, (_, k): Vec3 => [1.2 + 0.2 * k, 1.4 + 0.06 * k, 0.9]);
    const even = new Float64Array(patches.count).fill(250);
    const [found] = new PlaneGather("", gather, plane(points), 0.1).evaluate(even, 1).layers;
    const worst = found.reduce((most, E) => Math.max(most, Math.abs(E / 250 - 1)), 0);
    console.log(
      `even room: worst error ${worst.toExponential(1)}, before rows are brought to one ${(100 * gather.worstRow).toFixed(3)} %`,
    );
    // Σ F = 1 whatever hides what: visible parts are exact, and only the nodes of far patches err, by 5e-4 at most.
    expect(gather.worstRow).toBeLessThan(5e-4);
    expect(worst).toBeLessThan(1e-12);
  });

  it("on a fine grid and its edge errs by interpolation no more than it says", () => {
    const patches = patchesOf(roomSurfaces(5, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 400);
    const gather = new Gather(patches, []);
    // A bright patch of ceiling and a bright wall: stronger gradients than a kitchen's.
    const exitance = Float64Array.from(patches.surface, (s, i) =>
      s === 2 ? 300 : s === 1 && patches.centre[3 * i] > 2 && patches.centre[3 * i] < 3 ? 800 : 20,
    );
    const top = rectanglePlane("top", [1, 0.4, 0.9], [2.4, 1.1], 96, 44);
    const edge = marginPlane({ ...top, grid: top.grid! });
    for (const [of, fewer] of [
      [top, 10],
      [edge, 1.8],
    ] as const) {
      const coarse = new PlaneGather("", gather, of, 0.1);
      const fast = coarse.evaluate(exitance, 1);
      const [exact] = new PlaneGather("", gather, of, 0.001).evaluate(exitance, 1).layers;
      const mean = exact.reduce((sum, E) => sum + E, 0) / exact.length;
      let worst = 0;
      fast.layers[0].forEach((E, i) => {
        worst = Math.max(worst, Math.abs(E - exact[i]) / mean);
      });
      console.log(
        `interpolation, ${of.name}: worst error ${(100 * worst).toFixed(3)} % of the mean, said ${(100 * fast.interpolationError).toFixed(3)} %, ${coarse.nodes.length} points gathered of ${exact.length}`,
      );
      expect(coarse.nodes.length).toBeLessThan(exact.length / fewer);
      expect(worst).toBeLessThan(2e-3);
      // Eight checks see the order of the error, not its peak.
      expect(fast.interpolationError).toBeGreaterThan(worst / 20);
      // Even light is interpolated exactly: what is left of it after this one errs by as much, the other way.
      const rest = coarse.evaluate(
        exitance.map((M) => 1000 - M),
        1,
      );
      const meanOf = ({ layers: [E] }: typeof fast): number => E.reduce((a, b) => a + b, 0) / E.length;
      expect((rest.interpolationError * meanOf(rest)) / (fast.interpolationError * meanOf(fast))).toBeCloseTo(
        1,
        6,
      );
    }
  });

  it("next to a wall with a scallop of light sees the scallop, not the patches' means", () => {
    // A bright spot on wall 0, 0.3 m wide, seen from points 0.2 m off the wall.
    const M = (x: number, z: number) => 100 + 2000 * Math.exp(-((x - 2.2) ** 2 + (z - 1.1) ** 2) / 0.18);
    const room = roomSurfaces(5, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 });
    const points = Array.from({ length: 12 }, (_, k): Vec3 => [1.5 + 0.13 * k, 0.2, 0.9]);
    const at = (patches: Patches) => {
      const gather = new PlaneGather("", new Gather(patches, []), plane(points), 0.1);
      const integral = new PatchIntegral(patches);
      const n = patches.count;
      const flux = new Float64Array(n);
      const quarters = new Map<number, Float64Array>();
      for (let i = 0; i < n; i++) {
        if (patches.surface[i] !== 2) continue;
        flux[i] = integral.over(i, (x, _, z) => M(x, z), 0.2);
        if (integral.quartered) quarters.set(i, integral.quarters.slice());
      }
      const rho = new Float64Array(n).fill(1);
      const light = { flux, unshadowed: { flux, quarters, shares: new Map() } };
      const exitance = flux.map((value, i) => value / patches.area[i]);
      const uneven = unevenPatches(patches, rho, [{ layer: 0, light }], exitance, 1);
      return {
        plain: gather.evaluate(exitance, 1).layers[0],
        seen: gather.evaluate(exitance, 1, undefined, undefined, uneven).layers[0],
      };
    };
    const exact = at(patchesOf(room, 30_000)).plain;
    const { plain, seen } = at(patchesOf(room, 850));
    const worst = (field: Float64Array) =>
      field.reduce((most, E, i) => Math.max(most, Math.abs(E / exact[i] - 1)), 0);
    console.log(
      `beside a scallop: worst error ${(100 * worst(plain)).toFixed(1)} % by even patches, ${(100 * worst(seen)).toFixed(1)} % by quarters`,
    );
    // The spot is as small as a patch: harder than any scallop. Quarters leave the second difference of M over half a
    // patch, a quarter of the even patches' first.
    expect(worst(seen)).toBeLessThan(0.04);
    expect(worst(seen)).toBeLessThan(worst(plain) / 4);
  });

  it("gives each light of a layer that layer's unevenness, however many lights there are", () => {
    const patches = patchesOf(roomSurfaces(5, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }), 400);
    const n = patches.count;
    const near = Array.from({ length: n }, (_, i) => i).filter(
      (i) => patches.surface[i] === 2 && Math.abs(patches.centre[3 * i] - 2.2) < 0.4,
    );
    const points = Array.from({ length: 6 }, (_, k): Vec3 => [1.9 + 0.13 * k, 0.2, 0.9]);
    const gather = new PlaneGather("", new Gather(patches, []), plane(points), 0.1);
    const deviations = [
      [300, -100, -100, -100],
      [-50, 150, -50, -50],
    ];
    const unevenOf = (layers: readonly number[][]) => ({
      patch: near,
      deviation: Float64Array.from(near.flatMap(() => layers.flat())),
    });
    const levels = [100, 40, 250, 10, 70, 90];
    const exitance = Float64Array.from(levels.flatMap((level) => Array.from({ length: n }, () => level)));
    const { layers } = gather.evaluate(exitance, 6, undefined, undefined, unevenOf(deviations), 2);
    let least = Number.POSITIVE_INFINITY;
    layers.forEach((light, l) => {
      const alone = unevenOf([deviations[l % 2]]);
      const own = exitance.slice(l * n, (l + 1) * n);
      const [expected] = gather.evaluate(own, 1, undefined, undefined, alone).layers;
      const [even] = gather.evaluate(own, 1).layers;
      light.forEach((E, i) => {
        expect(E).toBeCloseTo(expected[i], 9);
        least = Math.min(least, Math.abs(E - even[i]));
      });
    });
    expect(least).toBeGreaterThan(0.01);
  });
});
