/** The hand without a page: steps, snaps with their reasons, Escape, several luminaires at once. */
import { describe, expect, it } from "vitest";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import type { Move } from "../../src/drawing/luminaire-key.ts";
import { withinRoom } from "../../src/drawing/room-limits.ts";
import { snapMove } from "../../src/drawing/snap.ts";
import { keyStep } from "../../src/elements/shared/drag-controller.ts";
import { movedScene } from "../../src/elements/shared/moved-scene.ts";
import { frame, UPRIGHT } from "../../src/geometry/frame.ts";
import type { Body } from "../../src/luminaire/body.ts";
import { verticalExtent } from "../../src/luminaire/vertical-extent.ts";
import { wording } from "../../src/words/wording.ts";
import { syntheticScene } from "../support/synthetic-island.ts";

const scene = syntheticScene();
const axes = islandAxes(scene);
const words = wording();
const still: Move = { along: 0, across: 0, height: 0 };

describe("snaps", () => {
  const first = { layer: 0, index: 0 };

  it("to equal bays, and say so", () => {
    const moved = movedScene(scene, [{ ...first, position: [2.0, 1.9, 1.77] }]);
    const { move, reasons } = snapMove(moved, axes, first, [first], { ...still, along: -0.09 }, 0.03, words);
    expect(0.5 + move.along).toBeCloseTo(0.4, 9);
    expect(reasons).toEqual(["equal bays"]);
  });

  it("to the island's centreline and to neighbours", () => {
    const moved = movedScene(scene, [{ ...first, position: [1.9, 2.2, 1.9] }]);
    const across = snapMove(moved, axes, first, [first], { ...still, across: -0.29 }, 0.03, words);
    expect(across.reasons).toEqual(["island centreline"]);
    expect(across.move.across).toBeCloseTo(-0.3, 9);
    const height = snapMove(moved, axes, first, [first], { ...still, height: -0.12 }, 0.03, words);
    expect(height.reasons).toEqual(["level with pendants 2"]);
    expect(height.move.height).toBeCloseTo(-0.13, 9);
  });

  it("to the gap its neighbours keep, in the unit shown", () => {
    // Others at 1.2 and 2.0 m, rims 0.15 m out: 0.5 m between; the same gap to the left puts it at 0.4 m, which is
    // the equal bay too; move the others to tell the two apart.
    const moved = movedScene(scene, [
      { layer: 0, index: 1, position: [1.5 + 1.3, 1.9, 1.77] },
      { layer: 0, index: 2, position: [1.5 + 2.0, 1.9, 1.77] },
    ]);
    const { move, reasons } = snapMove(moved, axes, first, [first], { ...still, along: 0.19 }, 0.03, words);
    expect(0.4 + move.along).toBeCloseTo(0.6, 9);
    expect(reasons).toEqual(["gap 400 mm"]);
  });

  it("nowhere when nothing is near", () => {
    const { move, reasons } = snapMove(scene, axes, first, [first], { ...still, along: 0.2 }, 0.01, words);
    expect(move.along).toBeCloseTo(0.2, 12);
    expect(reasons).toEqual([]);
  });
});

it("steps 25 mm or 1 in, finely 5 mm or 1/8 in", () => {
  const imperial = wording({ length: "ft-in", illuminance: "fc" });
  expect([keyStep(words, false), keyStep(words, true)]).toEqual([0.025, 0.005]);
  expect([keyStep(imperial, false), keyStep(imperial, true)]).toEqual([0.0254, 0.003175]);
});

it("moves a luminaire with the body it carries, and nothing else", () => {
  const mesh = { positions: Float64Array.of(1, 1, 1, 2, 2, 2), triangles: new Uint32Array(0) };
  const blocker = { name: "dome", kind: "pendant" as const, mesh, transmittance: 0, owner: [0, 1] as const };
  const withBody = syntheticScene({ blockers: [blocker, { ...blocker, owner: [0, 2] as const }] });
  const from = withBody.layers[0].luminaires[1].frame.origin;
  const moved = movedScene(withBody, [
    { layer: 0, index: 1, position: [from[0] + 0.1, from[1], from[2] - 0.2] },
  ]);
  expect([...moved.blockers[0].mesh.positions].map((n) => Math.round(n * 1e9) / 1e9)).toEqual([
    1.1, 1, 0.8, 2.1, 2, 1.8,
  ]);
  expect(moved.blockers[1]).toBe(withBody.blockers[1]);
  expect(moved.layers[1]).toBe(withBody.layers[1]);
  expect(moved.layers[0].luminaires[0]).toBe(withBody.layers[0].luminaires[0]);
});

describe("a move", () => {
  const key = { layer: 0, index: 0 };
  const [x, y, z] = scene.layers[0].luminaires[0].frame.origin;

  it("stops where the body meets a wall, the ceiling or the top", () => {
    const far = withinRoom(scene, [key], [-9, 9, 9]);
    // The dome is 300 mm wide and 220 mm high, the room 4.2 m wide, its ceiling at 2.7 m.
    expect(x + far.by[0]).toBeCloseTo(0.15, 9);
    expect(y + far.by[1]).toBeCloseTo(4.2 - 0.15, 9);
    const [low, high] = verticalExtent(scene.layers[0].luminaires[0].luminaire);
    expect(z + far.by[2] + high).toBeCloseTo(2.7, 9);
    expect(far.reasons).toEqual(["wall", "ceiling"]);
    const down = withinRoom(scene, [key], [0, 0, -9]);
    expect(z + down.by[2] + low).toBeCloseTo(0.92, 9);
    expect(withinRoom(scene, [key], [0.1, -0.1, 0.05])).toEqual({ by: [0.1, -0.1, 0.05], reasons: [] });
  });

  it("stops a long luminaire by the side that it turns to the wall", () => {
    const shape = { diameter: 1.2, height: 0.06, offset: 0, reflectance: 0.5, transmittance: 0 };
    const body: Body = { profile: "box", length: 1.2, width: 0.1, ...shape };
    const [layer, ...rest] = scene.layers;
    const luminaire = { ...layer.luminaires[0].luminaire, body };
    const turned = { luminaire, frame: frame([x, y, z], { ...UPRIGHT, turn: Math.PI / 2 }) };
    const long = { ...scene, layers: [{ ...layer, luminaires: [turned] }, ...rest] };
    const far = withinRoom(long, [key], [-9, 9, 0]);
    expect(x + far.by[0]).toBeCloseTo(0.05, 9);
    expect(y + far.by[1]).toBeCloseTo(4.2 - 0.6, 9);
  });

  it("stops where the body meets a slope (2026-11-29: it went through the ceiling)", () => {
    // Rises towards far x by 1 in 2, from 1.8 m: over the dome at x = 2.5 m the ceiling is 3.05 m high.
    const room = { ...scene.room, ceilingHeight: 1.8, slope: Math.atan(0.5), towards: 0 };
    const sloped = movedScene({ ...scene, room }, [{ ...key, position: [2.5, y, z] }]);
    const [, high] = verticalExtent(scene.layers[0].luminaires[0].luminaire);
    const down = withinRoom(sloped, [key], [-2.3, 0.3, 0]);
    // Its uppermost point touches where 1.8 + x / 2 = z + high, and it stops there on its way.
    const stop = (2.5 - 2 * (z + high - 1.8)) / 2.3;
    expect(1.8 + (2.5 + down.by[0]) / 2).toBeCloseTo(z + high, 9);
    expect(down.by[1]).toBeCloseTo(0.3 * stop, 9);
    expect(down.by[2]).toBe(0);
    expect(down.reasons).toEqual(["ceiling"]);
    expect(withinRoom(sloped, [key], [0.5, 0.3, 0])).toEqual({ by: [0.5, 0.3, 0], reasons: [] });
    // What is above it already may go up the slope alone.
    const above = movedScene({ ...scene, room }, [{ ...key, position: [0.5, y, z + 1] }]);
    expect(withinRoom(above, [key], [-0.2, 0, 0]).by[0]).toBeCloseTo(0, 9);
    expect(withinRoom(above, [key], [0.2, 0, 0]).by[0]).toBeCloseTo(0.2, 9);
  });

  it("of several stops for all where it stops for the first", () => {
    const both = withinRoom(scene, [key, { layer: 0, index: 2 }], [9, 0, 0]);
    const last = scene.layers[0].luminaires[2].frame.origin[0];
    expect(last + both.by[0]).toBeCloseTo(5.4 - 0.15, 9);
  });

  it("of what stands outside goes inwards only", () => {
    const outside = movedScene(scene, [{ ...key, position: [-0.3, y, z] }]);
    expect(withinRoom(outside, [key], [-0.2, 0, 0]).by[0]).toBeCloseTo(0, 9);
    expect(withinRoom(outside, [key], [0.3, 0, 0]).by[0]).toBeCloseTo(0.3, 9);
  });
});
