/** Luminaires that may dazzle an eye: where they stand in the picture, and how bright they are. */

import { seenLuminaire } from "../../assessment/glare/seen-luminaire.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";

/** Brighter than this is marked (cd/m²); common practice for screens and task work, no source. */
export const MARKED_FROM = 3000;

export interface GlareMark {
  readonly at: Vec3;
  readonly luminance: number;
  /** False where the figure is a mean over the opening: a lamp in sight can be 10 to 100 times brighter. */
  readonly exact: boolean;
}

export function glareMarks(scene: Scene, eye: Vec3): GlareMark[] {
  return scene.layers
    .flatMap(({ luminaires, dim }) =>
      luminaires.map((placed): GlareMark => {
        const { luminance, what } = seenLuminaire(placed, eye, dim * scene.maintenance);
        return { at: placed.frame.origin, luminance, exact: what !== "mean over the opening" };
      }),
    )
    .filter(({ luminance }) => luminance >= MARKED_FROM);
}
