import { css, html, nothing, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { Drawing } from "../../drawing/drawing.ts";
import { polarDiagram } from "../../drawing/polar-diagram.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { IntensityDistribution } from "../../photometry/intensity-distribution.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { renderMarks } from "../shared/marks.ts";
import { drawingStyles, tokens } from "../shared/tokens.ts";

/**
 * Polar diagram of a luminous intensity distribution.
 *
 * @tag candlespan-polar
 */
export class CandlespanPolar extends CandlespanElement {
  static override styles = [
    tokens,
    drawingStyles,
    css`
      :host { container-type: inline-size; }
      svg { width: 100%; height: auto; max-width: 440px; }
      /* Drawn smaller, its words stay as large as can be read. */
      @container (max-width: 380px) {
        text { font-size: 14px; }
      }
    `,
  ];

  /** The luminaire whose distribution is drawn. */
  @property({ attribute: false }) luminaire?: Luminaire;
  /** A distribution on its own, in place of a luminaire's. */
  @property({ attribute: false }) distribution?: IntensityDistribution;
  /** Words above the diagram; the luminaire's name unless set. */
  @property() override title = "";

  #drawn: { from: IntensityDistribution; title: string; drawing: Drawing } | undefined;

  override render(): TemplateResult | typeof nothing {
    const distribution = this.distribution ?? this.luminaire?.distribution;
    if (distribution === undefined) return nothing;
    const title = this.title !== "" ? this.title : (this.luminaire?.name ?? "");
    // Resampling types A and B costs milliseconds; the same distribution is drawn once.
    if (this.#drawn?.from !== distribution || this.#drawn.title !== title)
      this.#drawn = { from: distribution, title, drawing: polarDiagram(distribution, title) };
    const { drawing } = this.#drawn;
    return html`<svg viewBox="0 0 ${drawing.width} ${drawing.height}" role="img" aria-label=${drawing.summary}>
      ${renderMarks(drawing.marks)}
    </svg>`;
  }
}

define("candlespan-polar", CandlespanPolar);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-polar": CandlespanPolar;
  }
}
