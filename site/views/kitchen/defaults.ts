/** Every value the study leaves to a default, and why it is what it is. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { placeWords, valueWords } from "../../components/study-words.ts";

export function defaultsPart(app: AppView): TemplateResult | typeof nothing {
  const defaults = app.light?.defaults ?? [];
  if (defaults.length === 0) return nothing;
  return html`<section class="part">
    <details>
      <summary>${defaults.length} values are defaults</summary>
      <ul class="plain">
        ${defaults.map(({ path: pointer, value, why }) => {
          const path = pointer.split("/").slice(1);
          const { subject, field } = placeWords(app.study, path);
          return html`<li>
            ${subject}${field === "" ? "" : `, ${field}`}: ${valueWords(value, path, app)}
            <br /><span class="hint">${why}</span>
          </li>`;
        })}
      </ul>
    </details>
  </section>`;
}
