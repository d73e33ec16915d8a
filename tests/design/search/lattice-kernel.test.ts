/** Shifted fields against the direct engine, luminaire by luminaire and summed, on turned islands too. */

import { expect, it } from "vitest";
import { LatticeKernel } from "../../../src/design/search/lattice-kernel.ts";
import { placeOf, searchGrid } from "../../../src/design/search/search-grid.ts";
import { addDirectLight } from "../../../src/engine/direct/direct-light.ts";
import { DirectSources } from "../../../src/engine/direct/direct-sources.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import { rotationOf } from "../../../src/geometry/frame.ts";
import type { Luminaire } from "../../../src/luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../../src/luminaire/placed-luminaire.ts";
import { islandToRoom } from "../../../src/scene/island-frame.ts";
import type { Island } from "../../../src/scene/scene.ts";
import { beam, luminaire, opening, sampled, scene } from "../../support/luminaires.ts";
import { syntheticScene } from "../../support/synthetic-island.ts";

const STEP = 0.025;
const BOUND = 0.0025;

const types: readonly (readonly [string, Luminaire])[] = [
  ["a point", luminaire(beam(60))],
  ["a disc", luminaire(beam(90), opening("disc", 0.3))],
  [
    "a lopsided bar",
    luminaire(
      sampled(([x, y, z]) => Math.max(0, 300 - 250 * z + 120 * x + 60 * y)),
      opening("rectangle", 1.2, 0.06),
    ),
  ],
];

function hung(island: Island, type: Luminaire, i: number, j: number, turn: number): PlacedLuminaire {
  const [x, y] = islandToRoom(island, placeOf(island, STEP, i, j));
  return {
    luminaire: type,
    frame: { origin: [x, y, 1.77], rotation: rotationOf({ turn: island.turn + turn, tilt: 0, spin: 0 }) },
  };
}

it("equals the direct engine to 1e-9, shifted and summed", () => {
  const base = syntheticScene().island as Island;
  let worst = 0;
  let worstOfCalculation = 0;
  for (const turn of [0, 0.4]) {
    const island = { ...base, turn };
    const grid = searchGrid(island, [], STEP);
    const count = grid.points.length / 3;
    for (const [name, type] of types) {
      const own = name === "a disc" ? 0 : 0.7;
      const at: readonly (readonly [number, number])[] = [
        [-32, 0],
        [-1, 4],
        [33, -6],
      ];
      const placed = at.map(([i, j]) => hung(island, type, i, j, own));
      const source = new DirectSources().of(type, BOUND);
      const kernel = new LatticeKernel(
        type,
        {
          rotation: placed[0].frame.rotation,
          drop: 1.77 - island.height,
          turn,
          step: STEP,
          reach: [120, 60],
        },
        source,
      );
      const sum = new Float64Array(count);
      const one = new Float64Array(count);
      for (const [i, j] of at) {
        kernel.write(i, j, grid.nodes, grid.levels[0].which, one);
        for (let p = 0; p < count; p++) sum[p] += one[p];
      }
      const plane = {
        name: "top",
        role: "probe" as const,
        quantity: "planar" as const,
        points: grid.points,
        normal: [0, 0, 1] as const,
        weights: new Float64Array(count).fill(1),
      };
      const engine = new Float64Array(count);
      for (const each of placed) addDirectLight({ ...each, source }, plane, 0, engine);
      const whole = new LightEngine().calculate(scene([placed], [plane]), {
        interreflection: false,
        occlusion: false,
        nearFieldError: BOUND,
      }).planes[0].layers[0].direct;
      for (let p = 0; p < count; p++) {
        worst = Math.max(worst, Math.abs(sum[p] - engine[p]) / engine[p]);
        worstOfCalculation = Math.max(worstOfCalculation, Math.abs(sum[p] - whole[p]) / whole[p]);
      }
    }
  }
  console.log(`worst error of shifted fields against the direct engine ${worst.toExponential(1)}`);
  console.log(
    `worst error against a whole calculation, floor and all ${worstOfCalculation.toExponential(1)}`,
  );
  // Rounding of a few additions; the same nodes answer on both sides.
  expect(worst).toBeLessThan(1e-9);
  // A calculation may use fewer nodes where the plane is dark, within its bound.
  expect(worstOfCalculation).toBeLessThan(2 * BOUND);
});
