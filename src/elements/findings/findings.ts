import { css, html, nothing, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { FindingsSection } from "../../words/findings-sections.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { findingsContext, StudyProperties } from "../shared/study-context.ts";
import { tokens } from "../shared/tokens.ts";

/**
 * What there is to say of an arrangement beside its verdict: eyes and heads, surroundings, look, number and size, load
 * and years, in headed sections.
 *
 * @tag candlespan-findings
 * @csspart section - each headed section
 */
export class CandlespanFindings extends CandlespanElement {
  static override styles = [
    tokens,
    css`
      section { border-top: 1px solid var(--_hairline); padding: 12px 0; }
      h3 { margin: 0; font-size: 15px; font-weight: 600; }
      p { margin: 4px 0 0; font-size: 13px; max-width: 72ch; }
      .wide { overflow-x: auto; }
      table { margin-top: 8px; border-collapse: collapse; font-size: 13px; font-variant-numeric: tabular-nums; }
      th, td { padding: 2px 12px 2px 0; text-align: right; font-weight: 400; white-space: pre; }
      thead th { color: var(--_quiet); white-space: normal; vertical-align: bottom; }
      .left { text-align: left; }
    `,
  ];

  @property({ attribute: false }) sections: readonly FindingsSection[] = [];

  constructor() {
    super();
    this.addController(new StudyProperties(this, findingsContext, ["sections"]));
  }

  override render(): TemplateResult {
    return html`${this.sections.map(
      ({ heading, sentences, table }) => html`<section part="section">
        <h3>${heading}</h3>
        ${sentences.map((sentence) => html`<p>${sentence}</p>`)}
        ${table === undefined ? nothing : tableOf(heading, table)}
      </section>`,
    )}`;
  }
}

function tableOf(heading: string, { rows, left }: NonNullable<FindingsSection["table"]>): TemplateResult {
  const [head, ...body] = rows;
  const side = (column: number) => (left.includes(column) ? "left" : "");
  return html`<div class="wide" tabindex="0" role="region" aria-label=${heading}>
    <table>
      <thead><tr>${head.map((cell, i) => html`<th scope="col" class=${side(i)}>${cell}</th>`)}</tr></thead>
      <tbody>
        ${body.map(
          (row) => html`<tr>
            ${row.map((cell, i) =>
              i === 0
                ? html`<th scope="row" class=${side(i)}>${cell}</th>`
                : html`<td class=${side(i)}>${cell}</td>`,
            )}
          </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}

define("candlespan-findings", CandlespanFindings);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-findings": CandlespanFindings;
  }
}
