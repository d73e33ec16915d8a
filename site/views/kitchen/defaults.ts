/** Every value the study leaves to a default, and why it is what it is. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";

export function defaultsPart(app: AppView): TemplateResult | typeof nothing {
  const defaults = app.light?.defaults ?? [];
  if (defaults.length === 0) return nothing;
  return html`<section class="part">
    <details>
      <summary>${defaults.length} values are defaults</summary>
      <ul class="plain">
        ${defaults.map(
          (each) =>
            html`<li><code>${each.path}</code> ${JSON.stringify(each.value)}<br /><span class="hint">${each.why}</span></li>`,
        )}
      </ul>
    </details>
  </section>`;
}
