/** Where light leaves an opaque shade: the opening that files state, and over which an eye's mean luminance is taken. */

import { describe, expect, it } from "vitest";
import { seenLuminaire } from "../../../src/advice/glare/seen-luminaire.ts";
import { buildShadeLuminaire } from "../../../src/luminaire/shade/build.ts";
import type { ShadeDocument } from "../../../src/luminaire/shade/shade-document.ts";
import { placed } from "../../support/luminaires.ts";

function built(shade: ShadeDocument) {
  const outcome = buildShadeLuminaire("x", { flux: 1000, shape: "A19", finish: "frosted" }, shade);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const BELL: ShadeDocument = {
  profile: [
    [0.17, 0],
    [0.165, 0.06],
    [0.11, 0.16],
    [0.04, 0.22],
  ],
  finish: "brass",
  bottom: "diffuser",
  diffuser: { finish: "opal glass" },
};

describe("the opening of an opaque shade", () => {
  it("is the cover below, as bright from every side as a perfect diffuser: L = Φ/(π A), Lambert's law", () => {
    const { luminaire } = built(BELL);
    expect(luminaire.emission.opening).toEqual({ shape: "disc", length: 0.34, width: 0.34, height: 0 });
    const L = luminaire.flux / (Math.PI * Math.PI * 0.17 ** 2);
    let worst = 0;
    for (const degrees of [0, 30, 50, 65, 75]) {
      const gamma = (degrees * Math.PI) / 180;
      const eye = [3 * Math.sin(gamma), 0, -3 * Math.cos(gamma)] as const;
      worst = Math.max(worst, Math.abs(seenLuminaire(placed(luminaire, [0, 0, 0]), eye, 1).mean / L - 1));
    }
    console.log(`luminance of an opal mouth: worst error ${(100 * worst).toFixed(2)} %`);
    // The flux is traced to 1 %; the far field of a flat cover is Lambert's by construction.
    expect(worst).toBeLessThan(0.01);
  });

  it("is its rim where the wall is wider above, not its widest place", () => {
    const { luminaire } = built({
      profile: [
        [0.06, 0],
        [0.15, 0.08],
        [0.15, 0.2],
        [0.03, 0.26],
      ],
      finish: "black",
    });
    expect(luminaire.emission.opening).toEqual({ shape: "disc", length: 0.12, width: 0.12, height: 0 });
  });

  it("lies above where the lower end is shut: a bowl to light the ceiling", () => {
    const { luminaire } = built({ profile: "bowl", diameter: 0.4, height: 0.16, finish: "black" });
    expect(luminaire.emission.opening).toMatchObject({ shape: "disc", height: 0 });
    expect(luminaire.emission.opening.length).toBeCloseTo(0.4, 9);
    const levels = luminaire.body?.outline?.map(([, z]) => z) ?? [];
    expect(Math.max(...levels)).toBeCloseTo(0, 9);
    expect(Math.min(...levels)).toBeCloseTo(-0.16, 9);
  });

  it("is called by what passes: a shut lower end of the wall's own finish is no diffuser", () => {
    const shut = { profile: "drum", diameter: 0.4, bottom: "closed", top: "open" } as const;
    expect(built({ ...shut, finish: "black" }).description).toContain("a solid shade");
    expect(built(BELL).description).toContain("an opaque shade with a diffuser");
  });

  it("is the whole of what a wall lets through", () => {
    const { luminaire } = built({ profile: "drum", diameter: 0.4, height: 0.25, finish: "linen" });
    expect(luminaire.emission.opening).toEqual({ shape: "cylinder", length: 0.4, width: 0.4, height: 0.25 });
  });
});
