/** The luminaire of a layer, and the light before and after it is swapped. */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import { type ArrangementAssessment, powerFigure } from "../../../src/app.ts";
import type { AppView, Swap } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { lightText } from "../../components/words.ts";
import { readFiles } from "../../components/read-files.ts";
import { swapLuminaire } from "../../edits/luminaires.ts";
import type { RawLayer } from "../../edits/raw-study.ts";
import { evidenceIn } from "../../light/scene-queries.ts";
import { swapBy } from "../../light/swapped-light.ts";

/** No luminaire's name: none may hold a line break. */
const FROM_FILE = "\n";

export function luminaireChoice(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const names = Object.keys(app.study.luminaires ?? {});
  const id = idOf(["arrangements", app.arrangement, "layers", index, "luminaire"]);
  const swap = app.lastSwap;
  const place = { arrangement: app.arrangement, layer: index };
  const { at } = app.given;
  const isAsked = typeof at === "object" && at.arrangement === place.arrangement && at.layer === index;
  const evidence = evidenceIn(app.light?.scene, layer.luminaire);
  return html`<div class="field">
    <label for=${id}>Luminaire</label>
    <select id=${id} @change=${(event: Event) => {
      const select = event.target as HTMLSelectElement;
      if (select.value !== FROM_FILE) {
        swapBy(app, place, swapLuminaire(app.study, app.arrangement, index, select.value));
        return;
      }
      select.value = layer.luminaire;
      app.openFile(place);
    }}>
      ${names.map(
        (each) => html`<option value=${each} .selected=${live(each === layer.luminaire)}>${each}</option>`,
      )}
      <option value=${FROM_FILE}>from a file…</option>
    </select>
    ${evidence === undefined ? nothing : html`<p class="hint">Its light is ${evidence}.</p>`}
    ${isAsked ? readFiles(app) : nothing}
    ${
      swap === undefined || swap.layer !== index || swap.arrangement !== app.arrangement
        ? nothing
        : beforeAndAfter(app, swap, layer.luminaire)
    }
  </div>`;
}

function beforeAndAfter(app: AppView, swap: Swap, now: string): TemplateResult {
  const after = app.light?.assessment;
  const row = (name: string, say: (assessment: ArrangementAssessment) => string): TemplateResult =>
    html`<tr><th scope="row">${name}</th><td>${say(swap.assessment)}</td><td>${after === undefined ? "…" : say(after)}</td></tr>`;
  const zone = (assessment: ArrangementAssessment, name: string) =>
    assessment.zones.find((each) => each.name === name)?.statistics;
  return html`<table class="before-after">
    <caption>Before and after the swap</caption>
    <thead><tr><td></td><th scope="col">${swap.luminaire}</th><th scope="col">${now}</th></tr></thead>
    <tbody>
      ${swap.assessment.zones.map(
        ({ name }) => html`
          ${row(`${name}, average`, (each) => lightText(app, zone(each, name)?.average ?? Number.NaN))}
          ${row(`${name}, evenness`, (each) => (zone(each, name)?.uniformity ?? Number.NaN).toFixed(2))}
        `,
      )}
      ${row("power", (each) => `${powerFigure(each.energy.watts, each.energy.unknownWatts)} W`)}
    </tbody>
  </table>`;
}
