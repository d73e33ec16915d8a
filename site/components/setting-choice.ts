/** The row of settings over the drawings. */

import { html, type TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";
import type { RawSetting } from "../edits/raw-study.ts";

/** Which setting of the dimmers is lit, where the option has any. */
export function settingChoice(app: AppView, settings: readonly RawSetting[]): TemplateResult {
  const choice = (words: string, name: string | undefined): TemplateResult => html`<button
    type="button"
    title=${words}
    aria-pressed=${app.setting === name ? "true" : "false"}
    @click=${() => app.showSetting(name)}
  >${words}</button>`;
  return html`<div class="shown" role="group" aria-label="Setting of the dimmers">
    ${choice("As dimmed", undefined)}${settings.map(({ name }) => choice(name, name))}
  </div>`;
}
