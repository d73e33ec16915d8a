/** What was read from dropped files: one line each, and where to use it. */

import { html, nothing, type TemplateResult } from "lit";
import { formatIssue } from "../../src/app.ts";
import type { StudySession } from "../session.ts";
import { useReading } from "../storage/open-files.ts";

export function siteReadings(desk: StudySession): TemplateResult | typeof nothing {
  if (desk.readings.length === 0) return nothing;
  const { layers } = desk.study.arrangements[desk.arrangement];
  const dismiss = (path: string): void => {
    desk.given.dismiss(path);
    desk.redraw();
  };
  const use = (path: string, layer: number | undefined): void => {
    const bytes = desk.given.contentOf(path);
    if (bytes === undefined) return;
    desk.edit(useReading(desk, path, bytes, layer));
    dismiss(path);
  };
  return html`<section class="part readings" aria-labelledby="readings-heading">
    <h2 id="readings-heading">Read</h2>
    <ul class="plain">
      ${desk.readings.map(
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
            <button type="button" @click=${() => dismiss(reading.path)}>Dismiss</button>
          </p>
        </li>`,
      )}
    </ul>
  </section>`;
}
