/** Which option is on screen; copies, renames and removes options. */

import { html, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { textField } from "../../components/fields.ts";
import { copyArrangement, removeArrangement } from "../../edits/luminaires.ts";

export function optionBar(app: AppView): TemplateResult {
  const list = app.study.arrangements;
  return html`<section class="part" aria-labelledby="options-heading">
    <h2 id="options-heading">Option</h2>
    <div class="options" role="group" aria-label="Option on screen">
      ${list.map(
        (each, index) => html`<button
          type="button"
          aria-pressed=${index === app.arrangement ? "true" : "false"}
          @click=${() => app.showArrangement(index)}
        >${String.fromCharCode(65 + (index % 26))} ${each.name}</button>`,
      )}
    </div>
    <details>
      <summary>Copy, rename, remove</summary>
      ${textField(app, {
        label: "Name of this option",
        path: ["arrangements", app.arrangement, "name"],
        change: "rename option",
      })}
    <p class="row-of-actions">
      <button type="button" @click=${() => {
        const index = app.arrangement;
        app.edit(copyArrangement(app.study, index));
        app.showArrangement(index + 1);
      }}>Copy option</button>
      <button type="button" ?disabled=${list.length < 2} @click=${() => {
        const index = app.arrangement;
        const edit = removeArrangement(app.study, index);
        app.showArrangement(index === 0 ? 0 : index - 1, edit);
      }}>Remove option</button>
    </p>
    </details>
  </section>`;
}
