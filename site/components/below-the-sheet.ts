/** Below the sheet, and what is offered beside its verdict: what every figure comes from, the same light as tables, and the island cut across. */

import { html, nothing, type TemplateResult } from "lit";
import "../../src/elements/figures/figures.ts";
import "../../src/elements/findings/findings.ts";
import "../../src/elements/guideline-cards/guideline-cards.ts";
import "../../src/elements/section/section.ts";
import "../../src/elements/light-table/light-table.ts";
import type { ResolvedStudy } from "../../src/app.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import type { SecondaryName } from "../light/secondary-results.ts";
import { searchPath } from "./field-id.ts";
import { taskPart } from "./task-part.ts";

/** What is unfolded; the rest is not even made, so that a moving hand waits for nothing nobody sees. */
const open = new Set<string>();

/** A part that is made while it is unfolded, and named by what it is folded under. */
function folded(
  app: AppView,
  summary: string,
  content: () => unknown,
  result?: SecondaryName,
): TemplateResult {
  const toggle = (event: Event): void => {
    const isOpen = (event.target as HTMLDetailsElement).open;
    if (isOpen) open.add(summary);
    else open.delete(summary);
    if (result !== undefined && isOpen) app.results?.need(result);
    else if (result !== undefined) app.results?.release(result);
    app.redraw();
  };
  return html`<details ?open=${open.has(summary)} @toggle=${toggle}>
    <summary>${summary}</summary>
    ${open.has(summary) ? content() : nothing}
  </details>`;
}

function rules(app: AppView): TemplateResult {
  return taskPart(
    app,
    app.results?.rules,
    "Computing the light each rule would give…",
    (cards) =>
      html`<candlespan-guideline-cards .cards=${cards} .display=${app.display}></candlespan-guideline-cards>`,
  );
}

function findings(app: AppView): TemplateResult {
  return taskPart(
    app,
    app.results?.findings,
    "Looking through everyone's eyes…",
    (sections) => html`<candlespan-findings .sections=${sections}></candlespan-findings>`,
  );
}

/** Where a zone does not surely reach what is asked: the way to the search for rows that do not, after the verdict. */
export function betterRows(
  app: AppView,
  { assessment, scene }: LightAnswer,
): TemplateResult | typeof nothing {
  const isUnsure = assessment.zones.some(
    ({ verdict }) => verdict === "falls short" || verdict === "too close to call",
  );
  if (!isUnsure || !scene.layers.some(({ role }) => role === "pendant")) return nothing;
  return html`<button slot="next" type="button" class="text" @click=${() => app.showField(searchPath(app.arrangement))}>
    Better rows…</button>`;
}

export function belowTheSheet(app: AppView, study: ResolvedStudy, light: LightAnswer): TemplateResult {
  const { assessment } = light;
  return html`<div class="below">
    <section aria-labelledby="figures-heading">
      <h2 id="figures-heading" tabindex="-1">Figures, and what they come from</h2>
      <candlespan-figures .study=${study} .assessment=${assessment} .display=${app.display}></candlespan-figures>
    </section>
    <section>
      ${folded(
        app,
        "Cut across the island",
        () => html`<candlespan-section
          fixed
          .study=${study}
          .assessment=${assessment}
          .display=${app.display}
          .selection=${app.selection}
        ></candlespan-section>`,
      )}
      ${folded(app, "Published rules of thumb, and what they would give", () => rules(app), "rules")}
      ${folded(app, "Around the island, eyes and heads, number and size, look, load and years", () => findings(app), "findings")}
      ${folded(
        app,
        "The light as a table",
        () =>
          html`<candlespan-light-table .study=${study} .assessment=${assessment} .display=${app.display}></candlespan-light-table>`,
      )}
      ${folded(
        app,
        "The luminaires as a table",
        () =>
          html`<candlespan-luminaire-table .study=${study} .assessment=${assessment} .display=${app.display}></candlespan-luminaire-table>`,
      )}
    </section>
    ${
      crossOriginIsolated
        ? nothing
        : html`<p class="hint">
            Without shared memory in this browser a calculation that is no longer wanted runs to its end first: after
            quick changes the refined light comes later.
          </p>`
    }
  </div>`;
}
