/** Which option is on screen; copies, renames and removes options. */

import { html, type TemplateResult } from "lit";
import { arrangementLetters } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { textField } from "../../components/fields.ts";
import { copyOption, removeOption } from "../../edits/options.ts";

export function optionBar(app: AppView): TemplateResult {
  const list = app.study.arrangements;
  const letters = arrangementLetters(list);
  return html`<section class="part" aria-labelledby="options-heading">
    <div class="heading-with-action">
      <h2 id="options-heading">Option</h2>
      <button type="button" @click=${() => {
        app.edit(copyOption(app.study, app.arrangement));
        app.showArrangement(list.length);
      }}>Copy option</button>
    </div>
    <div class="options" role="group" aria-label="Option on screen">
      ${list.map(
        (each, index) => html`<button
          type="button"
          id=${idOf(["arrangements", index])}
          aria-pressed=${index === app.arrangement ? "true" : "false"}
          @click=${() => app.showArrangement(index)}
        >${letters[index]} ${each.name}</button>`,
      )}
    </div>
    <details>
      <summary>Rename, remove</summary>
      ${textField(app, {
        label: "Name of this option",
        path: ["arrangements", app.arrangement, "name"],
        change: "rename option",
      })}
    <p class="row-of-actions">
      <button type="button" ?disabled=${list.length < 2} @click=${() => {
        const index = app.arrangement;
        const edit = removeOption(app.study, index);
        app.showArrangement(index === 0 ? 0 : index - 1, edit);
      }}>Remove option</button>
    </p>
    </details>
  </section>`;
}
