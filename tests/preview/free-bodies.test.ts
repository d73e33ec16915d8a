/** Bodies of the picture: the same however often they are made, and made from shapes that are known already. */
import { performance } from "node:perf_hooks";
import { BufferGeometry } from "three";
import { describe, expect, it } from "vitest";
import { freeBodies } from "../../src/preview/free-bodies.ts";
import { mergedShape } from "../../src/preview/triangles.ts";
import { kitchen, resolved } from "../support/studies.ts";

const people = [
  { name: "Ana", stature: 1.7, at: [2.7, 2.9], facing: 270, posture: "leaning" },
  { name: "Bo", stature: 1.6, at: [2.2, 1.2], facing: 90, posture: "seated" },
];

describe("bodies of a scene that comes again", () => {
  it("are what they were, moved with their luminaires, of shapes kept from before", () => {
    const [scene] = resolved(kitchen({ people })).scenes;
    const start = performance.now();
    const first = freeBodies(scene, true);
    const between = performance.now();
    // As from a worker: no object is the same.
    const second = freeBodies(structuredClone(scene), true);
    const end = performance.now();
    console.log(
      `${first.length} bodies in ${(between - start).toFixed(1)} ms, again in ${(end - between).toFixed(1)} ms`,
    );
    expect(first.some(({ kind }) => kind === "person")).toBe(true);
    expect(first.some(({ kind }) => kind === "pendant")).toBe(true);
    expect(second).toEqual(first);
    const [{ luminaires }] = scene.layers;
    const moved = {
      ...scene,
      layers: scene.layers.map((layer, l) => ({
        ...layer,
        luminaires: luminaires.map(({ luminaire, frame }) => ({
          luminaire,
          frame: l === 0 ? { ...frame, origin: frame.origin.map((x, k) => x + (k === 0 ? 0.25 : 0)) } : frame,
        })),
      })),
    } as unknown as typeof scene;
    const third = freeBodies({ ...moved, layers: moved.layers.slice(0, 1) }, false);
    for (const [b, { triangles }] of third.entries())
      for (let i = 0; i < triangles.positions.length; i++)
        expect(triangles.positions[i]).toBeCloseTo(
          first[b].triangles.positions[i] + (i % 3 === 0 ? 0.25 : 0),
          9,
        );
  });

  it("forget a shape that some scenes have done without", () => {
    let made = 0;
    const ask = (): BufferGeometry =>
      mergedShape("nothing", 1, () => {
        made++;
        return new BufferGeometry().setFromPoints([]);
      });
    const [scene] = resolved(kitchen({})).scenes;
    ask();
    ask();
    expect(made).toBe(1);
    for (let i = 0; i < 6; i++) freeBodies(scene, false);
    ask();
    expect(made).toBe(2);
  });
});
