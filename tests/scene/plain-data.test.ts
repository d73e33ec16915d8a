/** A scene and its luminaires are plain data: they pass `structuredClone` unchanged and give the same light after it. */
import { describe, expect, it } from "vitest";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { scaledLuminaire, scaleOf } from "../../src/luminaire/scaled.ts";
import { luminanceTowards } from "../../src/luminaire/shade/luminance.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { kitchen, resolved } from "../support/studies.ts";

const scene: Scene = resolved(
  kitchen({
    luminaires: {
      dome: {
        lamp: { flux: 806, watts: 8, shape: "A60", finish: "frosted" },
        shade: { profile: "dome", diameter: 0.3, height: 0.2, finish: "brass" },
      },
      spot: { beam: { flux: 650, angle: 36 }, watts: 7 },
    },
  }),
).scenes[0];

/** Paths of whatever in a value is a function. */
function functionsIn(value: unknown, path = ""): string[] {
  if (typeof value === "function") return [path];
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return [];
  return Object.entries(value).flatMap(([key, each]) => functionsIn(each, `${path}/${key}`));
}

describe("a scene with luminaires from lamp and shade, and from flux and beam", () => {
  const copy = structuredClone(scene);

  it("holds no functions and passes structuredClone unchanged", () => {
    expect(scene.layers[0].luminaires[0].luminaire.emission.kind).toBe("surfaces");
    expect(functionsIn(scene)).toEqual([]);
    expect(copy).toEqual(scene);
  });

  it("gives the same bits of light from its copy, from a fresh engine and from one that knew the scene", () => {
    const engine = new LightEngine();
    const options = { quality: "quick", interreflection: false } as const;
    const light = engine.calculate(scene, options);
    const known = engine.sources.size;
    expect(engine.calculate(copy, options)).toEqual(light);
    expect(new LightEngine().calculate(copy, options)).toEqual(light);
    // Content decides: the copy's luminaires are the known ones.
    expect(engine.sources.size).toBe(known);
    // Of each its near field or lookup, and the drafts' table beside the full one whose cells it reads.
    expect(known).toBe(new Set(scene.layers.map(({ name }) => name)).size * 3);
  });

  it("shows an eye the same luminance, and is scaled as its original is", () => {
    const [{ luminaire }] = scene.layers[0].luminaires;
    const [{ luminaire: other }] = copy.layers[0].luminaires;
    const seen = luminanceTowards(luminaire, [1, 0, -0.4]);
    expect(seen?.luminance).toBeGreaterThan(0);
    expect(luminanceTowards(other, [1, 0, -0.4])).toEqual(seen);
    const larger = structuredClone(scaledLuminaire(luminaire, 1.4));
    expect(larger).toEqual(scaledLuminaire(luminaire, 1.4));
    expect(scaleOf(larger)).toEqual({ original: luminaire, size: 1.4 });
  });
});
