/** Luminaires of a drawing as things a hand can take: focusable, named, with a visible state. */
import { nothing, type SVGTemplateResult, svg } from "lit";
import type { LuminaireMarks } from "../../drawing/drawing.ts";
import { type LuminaireKey, sameLuminaire } from "../../drawing/luminaire-key.ts";
import { renderMarks, round } from "./marks.ts";

/** WCAG 2.2 target size (minimum); a coarse pointer gets the 44 px of the enhanced criterion. */
const SMALLEST = 24;
const SMALLEST_COARSE = 44;
/** Length of the corners around what is selected, which stand at what is drawn, not around what a finger may touch. */
const BRACKET = 6;

export function renderHandles(
  luminaires: readonly LuminaireMarks[],
  selection: readonly LuminaireKey[],
  describe: (key: LuminaireKey) => string,
  options: { readonly coarse?: boolean; readonly fixed?: boolean; readonly tabStop?: string } = {},
): SVGTemplateResult[] {
  const least = options.coarse ? SMALLEST_COARSE : SMALLEST;
  return luminaires.map((drawn) => {
    const isSelected = selection.some((s) => sameLuminaire(s, drawn));
    const { x, y, width, height } = drawn.handle;
    const w = Math.max(width, least);
    const h = Math.max(height, least);
    const box = { x: x + (width - w) / 2, y: y + (height - h) / 2, w, h };
    if (options.fixed) return svg`<g>${renderMarks(drawn.marks)}</g>`;
    return svg`<g
      class="luminaire"
      part="luminaire"
      data-luminaire="${drawn.layer} ${drawn.index}"
      tabindex=${options.tabStop === undefined || options.tabStop === `${drawn.layer} ${drawn.index}` ? "0" : "-1"}
      role="button"
      aria-pressed=${isSelected ? "true" : "false"}
      aria-label=${describe(drawn)}
      aria-describedby="hand-help"
    >
      <g aria-hidden="true">${renderMarks(drawn.marks)}</g>
      <rect class="grip" x=${round(box.x)} y=${round(box.y)} width=${round(box.w)} height=${round(box.h)} rx="3"></rect>
      ${
        isSelected
          ? svg`<g class="chosen" aria-hidden="true">${[
              [x - 3, y - 3, 1, 1],
              [x + width + 3, y - 3, -1, 1],
              [x - 3, y + height + 3, 1, -1],
              [x + width + 3, y + height + 3, -1, -1],
            ].map(
              ([cx, cy, sx, sy]) =>
                svg`<path d="M${round(cx)} ${round(cy + sy * BRACKET)}V${round(cy)}H${round(cx + sx * BRACKET)}"></path>`,
            )}</g>`
          : nothing
      }
    </g>`;
  });
}
