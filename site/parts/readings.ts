/** What was read from dropped files: one line each, and where to use it. */

import { html, nothing, type TemplateResult } from "lit";
import { formatIssue } from "../../src/diagnostics/issue.ts";
import type { CandlespanApp } from "../app.ts";
import { useReading } from "../keep/take-files.ts";

export function readingsPart(app: CandlespanApp): TemplateResult | typeof nothing {
  if (app.readings.length === 0) return nothing;
  const { layers } = app.study.arrangements[app.arrangement];
  const use = (path: string, layer: number | undefined): void => {
    const bytes = app.contentOf(path);
    if (bytes === undefined) return;
    app.edit(useReading(app, path, bytes, layer));
    app.dismiss(path);
  };
  return html`<section class="part readings" aria-labelledby="readings-heading">
    <h2 id="readings-heading">Read</h2>
    <ul class="plain">
      ${app.readings.map(
        (reading) => html`<li>
          <p>${reading.ok ? "" : "✕ "}${reading.line}</p>
          ${reading.issues.map((issue) => html`<p class=${reading.ok ? "hint" : "problem"}>${formatIssue(issue)}</p>`)}
          <p class="row-of-actions">
            ${
              reading.ok
                ? html`${layers.map(
                    (layer, index) =>
                      html`<button type="button" @click=${() => use(reading.path, index)}>Use in ${layer.name}</button>`,
                  )}
                  <button type="button" @click=${() => use(reading.path, undefined)}>Keep for later</button>`
                : nothing
            }
            <button type="button" @click=${() => app.dismiss(reading.path)}>Dismiss</button>
          </p>
        </li>`,
      )}
    </ul>
  </section>`;
}
