/** Settings of the dimmers in rows, options in columns, as they are ranked. */

import { html, nothing, type TemplateResult } from "lit";
import type { Clash } from "../../advice/clashes/clash.ts";
import { settingsComparison } from "../../app/settings-comparison.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import type { Scene } from "../../scene/scene.ts";
import type { IlluminanceUnit } from "../../units/illuminance-text.ts";
import { type SettingTableCell, type SettingTableRow, settingTableRows } from "../../words/settings-text.ts";
import { VERDICT_STYLE } from "../sheet/verdict-words.ts";

interface ComparedOption {
  readonly letter: string;
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  readonly clashes: readonly Clash[];
}

/** Nothing where no option has a setting. */
export function settingsTable(
  options: readonly ComparedOption[],
  unit: IlluminanceUnit,
): TemplateResult | typeof nothing {
  const rows = settingTableRows(
    settingsComparison(options),
    options.map(({ clashes }) => clashes),
    unit,
  );
  if (rows.length === 0) return nothing;
  return html`<section class="settings" part="settings" aria-label="Settings of the dimmers">
    <h2>Settings of the dimmers</h2>
    <div class="across" tabindex="0" role="group" aria-label="Table of settings">
      <table>
        <thead><tr>
          <th scope="col"><span class="visually-hidden">setting</span></th>
          ${options.map(({ letter, scene }) => html`<th scope="col" title=${scene.name}><span class="letter">${letter}</span> <span class="name">${scene.name}</span></th>`)}
        </tr></thead>
        ${settingsOf(rows).map((each) => html`<tbody>${each.map(tableRow)}</tbody>`)}
      </table>
    </div>
  </section>`;
}

/** The rows of each setting. */
function settingsOf(rows: readonly SettingTableRow[]): readonly (readonly SettingTableRow[])[] {
  const settings: SettingTableRow[][] = [];
  for (const row of rows) {
    if (row.kind === "setting") settings.push([]);
    settings[settings.length - 1].push(row);
  }
  return settings;
}

function tableRow({ kind, name, cells }: SettingTableRow): TemplateResult {
  return html`<tr class=${kind}>
    <th scope=${kind === "setting" ? "rowgroup" : "row"} title=${name}>${name}</th>
    ${cells.map((cell) => tableCell(kind, cell))}
  </tr>`;
}

/** Figures stand in a column of their own, whether or not a band follows. */
function tableCell(of: SettingTableRow["kind"], cell: SettingTableCell | undefined): TemplateResult {
  if (cell === undefined) return html`<td>–</td>`;
  const { words, band, verdict } = cell;
  return html`<td class=${verdict === undefined ? nothing : VERDICT_STYLE[verdict]}><span class="figure">${words}</span>${of !== "setting" ? html` <span class="band">${band}</span>` : nothing}</td>`;
}
