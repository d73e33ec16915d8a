/** Where a pendant comes to rest between neighbours of other sizes: rims count, not middles. */
import { expect, it } from "vitest";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { snapMove } from "../../src/drawing/snap.ts";
import type { Body } from "../../src/luminaire/body.ts";
import type { Wording } from "../../src/words/wording.ts";
import { luminaire, placed, rotational } from "../support/luminaires.ts";
import { tinyScene } from "../support/tiny-scene.ts";

const words = { length: (m: number) => `${Math.round(1000 * m)} mm` } as Wording;

/** Pendants of given diameters at places along the island (m), the last one held. */
function moved(row: readonly (readonly [along: number, diameter: number])[], by: number) {
  const plain = tinyScene();
  const axes = islandAxes(plain);
  const luminaires = row.map(([along, diameter]) => {
    const [x, y] = axes.toRoom([along, axes.width / 2]);
    const body: Body = {
      profile: "drum",
      diameter,
      height: 0.2,
      offset: 0,
      reflectance: 0.5,
      transmittance: 0,
    };
    return placed({ ...luminaire(rotational(() => 100)), body }, [x, y, 1.7]);
  });
  const scene = { ...plain, layers: [{ ...plain.layers[0], luminaires }] };
  const held = { layer: 0, index: row.length - 1 };
  const move = { along: by, across: 0, height: 0 };
  const snapped = snapMove(scene, axes, held, [held], move, 0.03, words);
  return { at: row[row.length - 1][0] + snapped.move.along, reasons: snapped.reasons };
}

it("stands with equal gaps between rims", () => {
  // Rims at 0.3 + 0.1 and 1.9 − 0.3: the middle of the free 1.2 m is at 1.0, that of the lamps at 1.1.
  const row = [
    [0.3, 0.2],
    [1.9, 0.6],
    [0.9, 0.2],
  ] as const;
  const { at, reasons } = moved(row, 0.085);
  expect(at).toBeCloseTo(1.0, 9);
  expect(reasons).toEqual(["equal gaps, 500 mm"]);
});

it("keeps the gap that its neighbours keep, from rim to rim", () => {
  // 0.2 and 0.6 wide at 0.3 and 1.0: 0.3 m free between them, so that 0.2 m wide comes to 1.3 + 0.3 + 0.1.
  const row = [
    [0.3, 0.2],
    [1.0, 0.6],
    [1.6, 0.2],
  ] as const;
  const { at, reasons } = moved(row, 0.085);
  expect(at).toBeCloseTo(1.7, 9);
  expect(reasons).toEqual(["gap 300 mm"]);
});
