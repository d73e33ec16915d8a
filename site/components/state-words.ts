/** One line on how far the light on screen can be trusted just now. */

import type { Lighting } from "../light/lighting.ts";

export function stateWords(lighting: Lighting): string {
  const { state, shown } = lighting;
  const isWhole = (shown?.answer.assessment.planes ?? []).some((plane) =>
    plane.layers.some((layer) => layer.interreflected.some((lux) => lux > 0)),
  );
  switch (state.kind) {
    case "first":
      return "Computing the light…";
    case "refined":
      return `Refined: direct ${isWhole ? "and interreflected light" : "light only"}${shown?.quality === "judged" ? ", with bands." : "; the verdict follows…"}`;
    case "issues":
      return "Not computed: see what is wrong above the sheet.";
    case "fault":
      return `The calculation stopped: ${state.message} Undo the last change or reload; nothing is lost.`;
    default: {
      const { progress } = state;
      if (progress !== undefined && lighting.isBehind) {
        return `The light of the last change is being computed: ${progress.stage}, ${Math.round(progress.fraction * 100)} %.`;
      }
      const what = isWhole ? "direct light as moved, interreflected light as before" : "direct light only";
      return progress === undefined
        ? `Coarse: ${what}.`
        : `Coarse: ${what}. Refining: ${progress.stage}, ${Math.round(progress.fraction * 100)} %.`;
    }
  }
}
