/** The light before a luminaire was swapped or its body stated, beside the light now. */

import { html, type TemplateResult } from "lit";
import { type ArrangementAssessment, powerFigure } from "../../../src/app.ts";
import type { AppView, Swap } from "../../app-view.ts";
import { lightText } from "../../components/words.ts";

export function beforeAndAfter(app: AppView, swap: Swap, now: string): TemplateResult {
  // Until the new luminaire's light is there, the light shown is still that before it.
  const after = app.lighting.isBehind ? undefined : app.light?.assessment;
  const row = (name: string, say: (assessment: ArrangementAssessment) => string): TemplateResult =>
    html`<tr><th scope="row">${name}</th><td>${say(swap.assessment)}</td><td>${after === undefined ? "…" : say(after)}</td></tr>`;
  const zone = (assessment: ArrangementAssessment, name: string) =>
    assessment.zones.find((each) => each.name === name)?.statistics;
  return html`<table class="before-after">
    <caption>Before and after</caption>
    <thead><tr><td></td><th scope="col">${swap.luminaire}</th><th scope="col">${now}</th></tr></thead>
    <tbody>
      ${swap.assessment.zones.map(
        ({ name }) => html`
          ${row(`${name}, average`, (each) => lightText(app, zone(each, name)?.average ?? Number.NaN))}
          ${row(`${name}, evenness`, (each) => (zone(each, name)?.uniformity ?? Number.NaN).toFixed(2))}
        `,
      )}
      ${row("power, all lights", (each) => `${powerFigure(each.energy.watts, each.energy.unknownWatts)} W`)}
    </tbody>
  </table>`;
}
