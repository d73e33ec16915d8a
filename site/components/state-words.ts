/** One line on how far the light on screen can be trusted just now. */

import type { Lighting } from "../light/lighting.ts";

export function stateWords(lighting: Lighting): string {
  const { state, shown } = lighting;
  switch (state.kind) {
    case "first":
      return "Computing the light…";
    case "refined":
      return shown?.quality === "judged"
        ? "Refined: direct and interreflected light, with bands."
        : "Refined: direct and interreflected light. Working out the bands…";
    case "issues":
      return "Not computed: see what is wrong above the sheet.";
    case "fault":
      return `The calculation stopped: ${state.message} Undo the last change or reload; nothing is lost.`;
    default: {
      const { progress } = state;
      if (progress !== undefined && lighting.isBehind) {
        return `The light of the last change is being computed: ${progress.stage}, ${Math.round(progress.fraction * 100)} %.`;
      }
      const stands = (shown?.answer.assessment.planes ?? []).some((plane) =>
        plane.layers.some((layer) => layer.interreflected.some((lux) => lux > 0)),
      );
      const what = stands ? "direct light as moved, interreflected light as before" : "direct light only";
      return progress === undefined
        ? `Coarse: ${what}; refining follows.`
        : `Coarse: ${what}. Refining: ${progress.stage}, ${Math.round(progress.fraction * 100)} %.`;
    }
  }
}
