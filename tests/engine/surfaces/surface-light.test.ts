/** Light on things without surfaces, as pictures paint them. */
import { expect, it } from "vitest";
import type { Calculate } from "../../../src/engine/calculate.ts";
import { SKETCHED_LIGHT, surfaceLight } from "../../../src/engine/surfaces/surface-light.ts";
import { roomSurfaces } from "../../support/rooms.ts";
import { boxMesh } from "../../support/solids.ts";
import { textbookResult, tinyScene } from "../../support/tiny-scene.ts";

/** Interreflected light from all round (lx), by the side that a plane faces. */
const SIDES = [100, 200, 300, 400, 500, 60];

it("leaves who stands on the floor half of what their sides take underneath, and what hangs its own", () => {
  const calculate: Calculate = (scene) => {
    const result = textbookResult(scene);
    return {
      ...result,
      planes: result.planes.map((field, i) => {
        const { normal } = scene.planes[i];
        const axis = normal.findIndex((x) => x !== 0);
        const value = SIDES[2 * axis + (normal[axis] < 0 ? 1 : 0)];
        return {
          ...field,
          layers: field.layers.map((layer) => ({
            ...layer,
            interreflected: layer.interreflected.map(() => value),
          })),
        };
      }),
    };
  };
  const mesh = boxMesh([1, 1, 0], [1.4, 1.4, 1.7]);
  const scene = tinyScene({
    surfaces: roomSurfaces(5, 4, 2.7, { ceiling: 0.8, walls: 0.5, floor: 0.2 }),
    blockers: [
      { name: "cook", kind: "person", mesh, transmittance: 0 },
      { name: "dome", kind: "pendant", mesh, transmittance: 0 },
    ],
  });
  const { things } = surfaceLight(scene, calculate, SKETCHED_LIGHT);
  const [cook, dome] = things.map(({ layers }) => [...layers[0]]);
  // Sides take 250 lx on average.
  expect(cook).toEqual([100, 200, 300, 400, 500, 125]);
  expect(dome).toEqual(SIDES);
});
