import { css, html, type TemplateResult } from "lit";
import { placeOf } from "../../drawing/island-axes.ts";
import { define } from "../shared/define.ts";
import { DrawingElement } from "../shared/drawing-element.ts";
import { tokens } from "../shared/tokens.ts";

const tableStyles = css`
  .scroll { overflow-x: auto; }
  table { border-collapse: collapse; font-size: 13px; }
  caption { text-align: left; font-weight: 600; padding-bottom: 4px; }
  th, td { padding: 4px 8px; text-align: right; border-bottom: 1px solid var(--_hairline); white-space: nowrap; }
  th { font-weight: 400; color: var(--_quiet); }
  th[scope="row"], .left { text-align: left; }
  thead th { white-space: normal; vertical-align: bottom; }
`;

const MOST = 14;
/** Width of a column of figures, in either unit, and of the places across before them (px). */
const COLUMN = 76;
const NAMES = 112;

/**
 * The light on the top as a table, for those who do not see the plan or want the numbers: columns along, rows
 * across, the far side first as on the plan.
 *
 * @tag candlespan-light-table
 */
export class CandlespanLightTable extends DrawingElement {
  static override styles = [tokens, tableStyles];

  override render(): TemplateResult {
    const scene = this.shownScene;
    const reader = scene === undefined ? undefined : this.reader(scene);
    if (scene === undefined || reader?.top === undefined) return html`<p>No light calculated yet.</p>`;
    const axes = this.axes(scene);
    const { words } = this;
    // About 200 mm apart: fine enough to find a dark end, few enough to hear read out, and to be seen at once.
    const fitting = this.width === 0 ? MOST : Math.floor((this.width - NAMES) / COLUMN);
    const columns = Math.max(3, Math.min(MOST, fitting, Math.round(axes.length / 0.2)));
    const rows = Math.max(2, Math.min(8, Math.round(axes.width / 0.2)));
    const along = Array.from({ length: columns }, (_, i) => ((i + 0.5) * axes.length) / columns);
    const across = Array.from({ length: rows }, (_, j) => ((rows - j - 0.5) * axes.width) / rows);
    return html`<div class="scroll" tabindex="0" role="region" aria-label="Light on the top as a table">
      <table>
        <caption>Light on the top (${words.illuminanceUnit}), by place along and across</caption>
        <thead>
          <tr><th scope="col" class="left">across \\ along</th>${along.map((a) => html`<th scope="col">${words.length(a)}</th>`)}</tr>
        </thead>
        <tbody>
          ${across.map(
            (c) => html`<tr>
              <th scope="row">${words.length(c)}</th>
              ${along.map((a) => {
                const light = reader.at({ along: a, across: c });
                return html`<td>${light === undefined ? "–" : words.lightFigure(light.total)}</td>`;
              })}
            </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }
}

/**
 * The luminaires as a table: where each is, how high it hangs, what its light rests on.
 *
 * @tag candlespan-luminaire-table
 */
export class CandlespanLuminaireTable extends DrawingElement {
  static override styles = [tokens, tableStyles];

  override render(): TemplateResult {
    const scene = this.shownScene;
    if (scene === undefined) return html`<p>No arrangement yet.</p>`;
    const axes = this.axes(scene);
    const { words } = this;
    return html`<div class="scroll" tabindex="0" role="region" aria-label="Luminaires as a table">
      <table>
        <caption>Luminaires of ${scene.name}</caption>
        <thead>
          <tr>
            <th scope="col" class="left">luminaire</th><th scope="col" class="left">type</th>
            <th scope="col">along</th><th scope="col">across</th><th scope="col">centre above floor</th>
            <th scope="col">flux</th><th scope="col">dimmed to</th>
          </tr>
        </thead>
        <tbody>
          ${scene.layers.flatMap((layer) =>
            layer.luminaires.map(({ luminaire, frame }, i) => {
              const place = placeOf(axes, frame.origin);
              return html`<tr>
                <th scope="row">${layer.name} ${i + 1}</th>
                <td class="left">${luminaire.name}</td>
                <td>${words.length(place.along)}</td><td>${words.length(place.across)}</td>
                <td>${words.length(place.height)}</td>
                <td>${Math.round(luminaire.flux)} lm</td><td>${Math.round(layer.dim * 100)} %</td>
              </tr>`;
            }),
          )}
        </tbody>
      </table>
    </div>`;
  }
}

define("candlespan-light-table", CandlespanLightTable);
define("candlespan-luminaire-table", CandlespanLuminaireTable);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-light-table": CandlespanLightTable;
    "candlespan-luminaire-table": CandlespanLuminaireTable;
  }
}
