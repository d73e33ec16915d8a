import { html, nothing, type TemplateResult } from "lit";
import { define } from "../shared/define.ts";
import { DrawingElement } from "../shared/drawing-element.ts";
import { tokens } from "../shared/tokens.ts";
import { type FigureRow, figureGroups } from "./figure-rows.ts";
import { figuresStyles } from "./figures.styles.ts";

/**
 * The figures of an arrangement by zone; each opens what it came from: band, uncertainty, inputs, method, source.
 *
 * @tag candlespan-figures
 * @csspart row - each figure
 * @cssprop --candlespan-close - words and marks too close to call
 * @cssprop --candlespan-focus - ring of what has the focus
 * @cssprop --candlespan-font - typeface; inherits the page's
 * @cssprop --candlespan-hairline - rules that only divide
 * @cssprop --candlespan-ink - lines and words
 * @cssprop --candlespan-meets - words and marks of what meets its target
 * @cssprop --candlespan-quiet - words and lines of less weight
 * @cssprop --candlespan-short - words and marks of what falls short
 */
export class CandlespanFigures extends DrawingElement {
  static override styles = [tokens, figuresStyles];

  override render(): TemplateResult {
    const scene = this.shownScene;
    const { assessment } = this;
    if (scene === undefined || assessment === undefined) return html`<p>No light calculated yet.</p>`;
    return html`${figureGroups(assessment, scene, this.words).map(
      (group) => html`<section aria-label=${group.name}>
        <h3>${group.name}</h3>
        ${group.rows.map((row) => this.#row(row))}
      </section>`,
    )}`;
  }

  #row(row: FigureRow): TemplateResult {
    return html`<details class=${row.style} part="row">
      <summary>
        <span class="what">${row.what}</span>
        <span class="value">${row.value}</span>
        ${
          row.said === ""
            ? nothing
            : html`<span class="said">${row.mark === "" ? nothing : html`<span class="mark" aria-hidden="true">${row.mark}</span> `}${row.said}</span>`
        }
      </summary>
      <dl>${row.from.map(({ term, words }) => html`<dt>${term}</dt><dd>${words}</dd>`)}</dl>
    </details>`;
  }
}

define("candlespan-figures", CandlespanFigures);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-figures": CandlespanFigures;
  }
}
