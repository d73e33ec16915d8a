/** The first light of a page against the closed form on the axis of a Lambertian disc, E = I₀ / (R² + d²) [Moon, 1936, from memory], and
 * against the engine's own light of the small kitchen. */
import { describe, expect, it } from "vitest";
import { unobstructedLight } from "../../../src/engine/direct/unobstructed-light.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { calculate } from "../../support/calculate.ts";
import { luminaire, opening, placed, rotational } from "../../support/luminaires.ts";
import { kitchen, resolved } from "../../support/studies.ts";

describe("the first light", () => {
  it("is within what it states under a Lambertian disc", () => {
    const [scene] = resolved(kitchen()).scenes;
    const D = 0.3;
    const disc = placed(
      luminaire(
        rotational((γ) => 100 * Math.max(0, Math.cos(γ))),
        opening("disc", D),
      ),
      [0, 0, 0],
    );
    const error = (d: number): number => {
      const plane = {
        ...scene.planes[0],
        points: Float64Array.of(0, 0, -d),
        weights: Float64Array.of(1),
        normal: [0, 0, 1] as const,
      };
      const lit: Scene = { ...scene, planes: [plane], layers: [{ ...scene.layers[0], luminaires: [disc] }] };
      return unobstructedLight(lit).planes[0].layers[0].direct[0] / (100 / ((D * D) / 4 + d * d)) - 1;
    };
    const [far, near] = [error(2.5 * D), error(1.5 * D)];
    console.log(
      `worst error of the first light at 2.5 and 1.5 diameters ${(100 * far).toFixed(2)}, ${(100 * near).toFixed(2)} %`,
    );
    expect(Math.abs(far)).toBeLessThan(0.01);
    expect(Math.abs(near)).toBeLessThan(0.04);
  });

  it("is the engine's direct light but for near field and shadows", () => {
    const study = resolved(kitchen());
    const [scene] = study.scenes;
    const first = unobstructedLight(scene);
    const full = calculate(scene, { ...study.options, interreflection: false, occlusion: false });
    let worst = 0;
    first.planes.forEach((plane, p) => {
      plane.layers.forEach((layer, l) => {
        layer.direct.forEach((E, i) => {
          const truth = full.planes[p].layers[l].direct[i];
          if (truth > 1) worst = Math.max(worst, Math.abs(E / truth - 1));
        });
      });
    });
    console.log(`worst error against the engine without shadows ${(100 * worst).toFixed(2)} %`);
    expect(worst).toBeLessThan(0.04);
  });
});
