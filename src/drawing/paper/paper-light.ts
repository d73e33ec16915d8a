/** The light of a plan as marks on paper: bands, hatching below target, isolux lines with their labels. */

import { LABEL_SIZE, type PlanLight } from "../plan-light.ts";
import type { PaperMark } from "./paper.ts";

export function paperLight(light: PlanLight): PaperMark[] {
  const clip = light.outline;
  return [
    ...light.bands.map(
      ({ colour, rings }): PaperMark => ({ kind: "area", rings, colour, clip, depicts: "light band" }),
    ),
    ...light.below.map((areas): PaperMark => ({ kind: "hatch", areas, depicts: "below target" })),
    ...light.lines.map(
      ({ points, colour, strong }): PaperMark => ({
        kind: "traced",
        points,
        colour,
        weight: strong ? 1.1 : 0.5,
        clip,
        depicts: "isolux line",
      }),
    ),
    ...light.labels.map(({ at, turn, text, colour, ground }): PaperMark => {
      // The label's place is its middle; words stand on their baseline.
      const drop = LABEL_SIZE * 0.35;
      const angle = (turn * Math.PI) / 180;
      return {
        kind: "label",
        at: [at[0] - Math.sin(angle) * drop, at[1] + Math.cos(angle) * drop],
        text,
        anchor: "middle",
        size: LABEL_SIZE,
        strong: true,
        turn,
        colour,
        rim: ground,
        depicts: "isolux label",
      };
    }),
  ];
}
