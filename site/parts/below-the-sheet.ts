/** Below the sheet: what every figure comes from, the same light as tables, and the island cut across. */

import { html, nothing, type TemplateResult } from "lit";
import "../../src/presentation/elements/figures/figures.ts";
import "../../src/presentation/elements/findings/findings.ts";
import "../../src/presentation/elements/guideline-cards/guideline-cards.ts";
import "../../src/presentation/elements/section/section.ts";
import "../../src/presentation/elements/twins/light-table.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";

let rulesOpen = false;
let besideOpen = false;
let roomPart: ((app: AppView) => TemplateResult) | undefined;
let roomOpen = false;

/** The picture of the room and what draws it load when somebody first wants to see it. */
async function openRoom(app: AppView, open: boolean): Promise<void> {
  roomOpen = open;
  if (open) roomPart ??= (await import("./room-picture.ts")).roomPicture;
  app.redraw();
}

function rules(app: AppView): TemplateResult {
  const cards = app.rules;
  if (cards === undefined) return html`<p class="hint">Computing the light each rule would give…</p>`;
  return html`<candlespan-guideline-cards .cards=${cards} .display=${app.display}></candlespan-guideline-cards>`;
}

function beside(app: AppView): TemplateResult {
  const sections = app.beside;
  if (sections === undefined) return html`<p class="hint">Looking through everyone's eyes…</p>`;
  return html`<candlespan-findings .sections=${sections}></candlespan-findings>`;
}

export function belowTheSheet(app: AppView, study: ResolvedStudy, light: LightAnswer): TemplateResult {
  const { assessment } = light;
  return html`<div class="below">
    <section aria-labelledby="figures-heading">
      <h2 id="figures-heading">Figures, and what they come from</h2>
      <candlespan-figures .study=${study} .assessment=${assessment} .display=${app.display}></candlespan-figures>
    </section>
    <section>
      <details @toggle=${(event: Event) => void openRoom(app, (event.target as HTMLDetailsElement).open)}>
        <summary>The room as it will be lit</summary>
        ${roomOpen && roomPart !== undefined ? roomPart(app) : nothing}
      </details>
      <details>
        <summary>Cut across the island</summary>
        <candlespan-section
          fixed
          .study=${study}
          .assessment=${assessment}
          .display=${app.display}
          .selection=${app.selection}
        ></candlespan-section>
      </details>
      <details @toggle=${(event: Event) => {
        rulesOpen = (event.target as HTMLDetailsElement).open;
        app.redraw();
      }}>
        <summary>Published rules of thumb, and what they would give</summary>
        ${rulesOpen ? rules(app) : nothing}
      </details>
      <details @toggle=${(event: Event) => {
        besideOpen = (event.target as HTMLDetailsElement).open;
        app.redraw();
      }}>
        <summary>Eyes and heads, number and size, look, load and years</summary>
        ${besideOpen ? beside(app) : nothing}
      </details>
      <details>
        <summary>The light as a table</summary>
        <candlespan-light-table .study=${study} .assessment=${assessment} .display=${app.display}></candlespan-light-table>
      </details>
      <details>
        <summary>The luminaires as a table</summary>
        <candlespan-luminaire-table .study=${study} .assessment=${assessment} .display=${app.display}></candlespan-luminaire-table>
      </details>
    </section>
  </div>`;
}
