/** What the drawings show beside the usual, each by its own tick. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";
import type { DrawnExtra } from "../store/screen-store.ts";

const CHOICES: readonly (readonly [DrawnExtra, string])[] = [
  ["values", "Light as numbers on the plan"],
  ["working edge", "Working edge in the profile"],
  ["tolerances", "How far pendants may be off"],
];

export function alsoDrawn(app: AppView): TemplateResult {
  return html`<button type="button" popovertarget="also-drawn" aria-haspopup="true">Also draw…</button>
    <div id="also-drawn" class="also-drawn" popover role="group" aria-label="Also draw">
      ${CHOICES.map(
        ([extra, words]) => html`<label><input
          type="checkbox"
          .checked=${app.alsoDrawn.has(extra)}
          @change=${(event: Event) => app.draw(extra, (event.target as HTMLInputElement).checked)}
        /> ${words}</label>`,
      )}
      ${app.alsoDrawn.has("tolerances") ? tolerances(app) : nothing}
    </div>`;
}

function tolerances(app: AppView): TemplateResult {
  const state = app.results?.tolerances.state;
  if (state?.status === "pending" || state?.status === "initial") {
    const share = state.status === "pending" ? (state.progress?.fraction ?? 0) : 0;
    return html`<p class="hint"><progress max="1" value=${share} aria-label="Tolerances computed"></progress> Looking where the verdict changes…</p>`;
  }
  if (state?.status === "error")
    return html`<p class="hint">${state.issues[0]?.message ?? "It cannot be told."}</p>`;
  const found = state?.status === "complete" ? state.value : [];
  return html`<p class="hint">Anywhere inside its ring, and this much lower or higher, a pendant leaves the verdict as it is.</p>
    <ul class="plain hint">${found.map(({ words }) => html`<li>${words}</li>`)}</ul>`;
}
