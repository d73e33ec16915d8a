import { html, nothing, type TemplateResult } from "lit";
import type { ArrangementAssessment, Check, ZoneAssessment } from "../../assessment/assessment.ts";
import { verdictRule } from "../../words/headline.ts";
import { evennessText, extremeText, planeOfZone, rangeWords, VERDICT_MARK } from "../../words/zone-text.ts";
import { define } from "../shared/define.ts";
import { DrawingElement } from "../shared/drawing-element.ts";
import { tokens } from "../shared/tokens.ts";
import { VERDICT_STYLE } from "../sheet/verdict-words.ts";
import { type FigureRow, figureGroups } from "./figure-rows.ts";
import { figuresStyles } from "./figures.styles.ts";

/**
 * The figures of an arrangement by zone; each opens what it came from: band, uncertainty, inputs, method, source.
 *
 * @tag candlespan-figures
 * @csspart table - the zones in rows, their figures in columns
 * @csspart row - each figure with what it came from
 */
export class CandlespanFigures extends DrawingElement {
  static override styles = [tokens, figuresStyles];

  override render(): TemplateResult {
    const scene = this.shownScene;
    const { assessment } = this;
    if (scene === undefined || assessment === undefined) return html`<p>No light calculated yet.</p>`;
    const { zones, settings = [], layersOff = [] } = assessment;
    const own = { title: "as dimmed", zones };
    return html`${this.#table(assessment)}
    ${this.#beside(
      "Settings of the dimmers",
      settings.map(({ name, zones }) => ({ title: name, zones })),
    )}
    ${this.#beside(
      "One layer off",
      layersOff.length === 0
        ? []
        : [own, ...layersOff.map((off) => ({ title: `without ${off.layer}`, zones: off.zones }))],
    )}
    ${figureGroups(assessment, scene, this.words).map(
      (group) => html`<section aria-label=${group.name}>
        <h3>${group.name}</h3>
        ${group.rows.map((row) => this.#row(row))}
      </section>`,
    )}`;
  }

  /** Zones in rows, figures in columns: what one looks up. What each rests on is under it. */
  #table(assessment: ArrangementAssessment): TemplateResult {
    const { words } = this;
    const { zones } = assessment;
    const band = (check: Check | undefined): string => rangeWords(check?.band, words.lightFigure) ?? "–";
    return html`<table part="table">
      <caption class="visually-hidden">Zones and their light</caption>
      <thead><tr>${[
        "zone",
        `average, ${words.illuminanceUnit}`,
        "95 of 100 cases",
        "least",
        "most",
        "evenness",
        "verdict",
      ].map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
      <tbody>${zones.map((zone) => {
        const { name, checks, verdict } = zone;
        const { average, uniformity } = zone.statistics;
        const extreme = (which: "minimum" | "maximum"): string =>
          extremeText(planeOfZone(assessment, zone), which, words.lightFigure);
        const light = checks.find(
          ({ quantity, statistic }) => quantity === "illuminance" && statistic === "average",
        );
        return html`<tr class=${VERDICT_STYLE[verdict]}>
          <th scope="row">${name}</th><td>${words.lightFigure(average)}</td><td>${band(light)}</td>
          <td>${extreme("minimum")}</td><td>${extreme("maximum")}</td>
          <td>${average > 0 ? evennessText(uniformity) : "–"}</td>
          <td><span class="mark" aria-hidden="true">${VERDICT_MARK[verdict]}</span> ${verdict}</td>
        </tr>`;
      })}</tbody>
    </table>
    <p class="note">${tableNote(zones)}</p>`;
  }

  /** Zones in rows, their light otherwise in columns; nothing without columns. */
  #beside(
    caption: string,
    columns: readonly { readonly title: string; readonly zones: readonly ZoneAssessment[] }[],
  ): TemplateResult | typeof nothing {
    if (columns.length === 0) return nothing;
    const { words } = this;
    const cell = ({ statistics, verdict }: ZoneAssessment): TemplateResult => html`<td
      class=${VERDICT_STYLE[verdict]}
    >${words.light(statistics.average)} <span class="mark" aria-hidden="true">${VERDICT_MARK[verdict]}</span><span
      class="visually-hidden"
    > ${verdict}</span></td>`;
    return html`<table part="table" class="beside">
      <caption>${caption}</caption>
      <thead><tr><th scope="col">zone</th>${columns.map(({ title }) => html`<th scope="col">${title}</th>`)}</tr></thead>
      <tbody>${columns[0].zones.map(
        ({ name }, z) =>
          html`<tr><th scope="row">${name}</th>${columns.map(({ zones }) => cell(zones[z]))}</tr>`,
      )}</tbody>
    </table>`;
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

const OFF_CENTRE =
  "A figure need not stand in the middle of its 95 of 100 cases: some inputs err more to one side, as rated lamps, which may give less than rated but not more.";

/** Of which grid a figure is, and why a part of a zone can have a darker point than the whole. */
const GRIDS =
  "Least and most are the verification grid’s, which decides; in brackets with the fine grid, as the plan’s lines are drawn. Points of the verification grid lie in the middle of cells that grow with the zone: a larger zone is judged further from its edges. The profile’s least and most are of the middle of the top alone.";

/** What the columns are, said once. */
function tableNote(zones: readonly ZoneAssessment[]): string {
  const [judged] = zones.flatMap(({ checks }) => checks);
  const rule = judged === undefined ? "" : verdictRule(judged);
  return [
    OFF_CENTRE,
    GRIDS,
    "Evenness: least over average, U₀ in standards.",
    rule === "" ? "" : `How likely a target is reached decides: ${rule}, between them too close to call.`,
  ]
    .filter((sentence) => sentence !== "")
    .join(" ");
}

define("candlespan-figures", CandlespanFigures);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-figures": CandlespanFigures;
  }
}
