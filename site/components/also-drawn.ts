/** What the drawings show beside the usual, each by its own tick. */

import { html, nothing, type TemplateResult } from "lit";
import { type AlsoDrawn, alsoDrawn } from "../../src/elements/also-drawn/also-drawn.ts";
import type { AppView } from "../app-view.ts";
import type { StudySession } from "../session.ts";

type DrawnExtra = "values" | "working edge" | "tolerances" | "tags";

const CHOICES: readonly (readonly [DrawnExtra, string])[] = [
  ["values", "Light as numbers on the plan"],
  ["working edge", "Working edge in the profile"],
  ["tolerances", "How far pendants may be off"],
  ["tags", "Tags of the papers: P1, P2"],
];

/** What is wanted; the same for every study of the page. */
const wanted = new Set<DrawnExtra>();
const NONE = [] as const;
let made: { readonly key: readonly unknown[]; readonly drawn: AlsoDrawn } | undefined;

/** The same object while nothing of it changes, so that nothing is drawn again. */
export function alsoDrawnOf(session: StudySession): AlsoDrawn | undefined {
  const state = session.results?.tolerances.state;
  const tolerances = wanted.has("tolerances") && state?.status === "complete" ? state.value : NONE;
  const key = [
    wanted.has("values"),
    wanted.has("working edge"),
    tolerances,
    isTagged(session.screen),
  ] as const;
  if (made?.key.every((part, i) => part === key[i]) !== true)
    made = { key, drawn: alsoDrawn({ values: key[0], workingEdge: key[1], tolerances, tags: key[3] }) };
  return made?.drawn;
}

/** Where the list of what is on hold names them, too; a client sees no list. */
function isTagged({ isForClient }: StudySession["screen"]): boolean {
  return wanted.has("tags") || (!isForClient && location.hash === "#hand-over");
}

function want(app: AppView, extra: DrawnExtra, isDrawn: boolean): void {
  wanted[isDrawn ? "add" : "delete"](extra);
  if (extra === "tolerances") app.results?.[isDrawn ? "need" : "release"](extra);
  app.redraw();
}

/** Brings the table of the figures under the drawings, and the keyboard with it. */
function showFigures(): void {
  const heading = document.getElementById("figures-heading");
  heading?.scrollIntoView({ block: "start" });
  heading?.focus({ preventScroll: true });
}

/** The last of the switches over the sheet. What only drawings show keeps its room elsewhere: no switch moves the others. */
export function besideSwitch(app: AppView): TemplateResult {
  return html`${app.sheetContent === "drawings" ? alsoChoices(app) : html`<button type="button" class="absent">Also draw…</button>`}
    <button type="button" title="All figures and what they come from, under the drawings" @click=${showFigures}>Figures</button>`;
}

function alsoChoices(app: AppView): TemplateResult {
  return html`<button type="button" popovertarget="also-drawn" aria-haspopup="true">Also draw…</button>
    <div id="also-drawn" class="over" popover role="group" aria-label="Also draw">
      ${CHOICES.map(
        ([extra, words]) => html`<label><input
          type="checkbox"
          .checked=${wanted.has(extra)}
          @change=${(event: Event) => want(app, extra, (event.target as HTMLInputElement).checked)}
        /> ${words}</label>`,
      )}
      ${wanted.has("tolerances") ? tolerances(app) : nothing}
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
  const rings = state?.status === "complete" ? state.value : [];
  return html`<p class="hint">Anywhere inside its ring, and this much lower or higher, a pendant leaves the verdict as it is.</p>
    <ul class="plain hint">${rings.map(({ words }) => html`<li>${words}</li>`)}</ul>`;
}
