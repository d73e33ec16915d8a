/** The luminaire of a layer, and the light before and after it is swapped. */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import { arrangementLetters, oneSided, SIDES, turnOf, upwardShare } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { readFiles } from "../../components/read-files.ts";
import { swapLuminaire } from "../../edits/luminaires.ts";
import type { RawLayer } from "../../edits/raw-study.ts";
import { hangInOthers, type LayerPlace } from "../../edits/study-luminaires.ts";
import { evidenceIn } from "../../light/scene-queries.ts";
import { swapBy } from "../../light/swapped-light.ts";
import { beforeAndAfter } from "./before-and-after.ts";
import { filedBodyButton } from "./luminaire-form.ts";

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
    ${
      evidence === undefined
        ? nothing
        : html`<p class="hint">Its light ${evidence.plain}
            ${
              app.study.luminaires?.[layer.luminaire]?.beam === undefined
                ? nothing
                : html`<button type="button" class="text" @click=${() => app.openFile(place)}>Hang a measured one, from its photometric file</button>`
            }</p>`
    }
    ${undrawnBody(app, layer, index)}
    ${oneSidedHint(app, layer, index)}
    ${isAsked ? readFiles(app) : nothing}
    ${
      swap === undefined || swap.layer !== index || swap.arrangement !== app.arrangement
        ? nothing
        : html`${beforeAndAfter(app, swap, layer.luminaire)}
            ${inThisAlone(app, place, swap.luminaire)}`
    }
  </div>`;
}

/** That a luminaire is drawn by its light alone, where its file states a body: the way to take it. */
export function undrawnBody(
  app: AppView,
  { luminaire: name }: RawLayer,
  index: number,
): TemplateResult | typeof nothing {
  const document = app.study.luminaires?.[name];
  const luminaire = app.light?.scene.layers[index]?.luminaires[0]?.luminaire;
  if (document === undefined || document.body !== undefined || luminaire?.name !== name) return nothing;
  const take = filedBodyButton(app, { name, document, luminaire });
  return take === nothing
    ? nothing
    : html`<p class="hint">Drawn as large as its luminous opening until its body is set.</p>${take}`;
}

/** That one side gets more of its light than the other, and the way round. */
function oneSidedHint(app: AppView, layer: RawLayer, index: number): TemplateResult | typeof nothing {
  const [placed] = app.light?.scene.layers[index]?.luminaires ?? [];
  if (placed?.luminaire.name !== layer.luminaire) return nothing;
  const share = upwardShare(placed);
  const up =
    share === undefined ? nothing : html`<p class="hint">${Math.round(100 * share)} % of it goes up.</p>`;
  const side = oneSided(placed);
  if (side === undefined) return up;
  const { times, towards, from } = side;
  const turn = (turnOf(placed) + 180) % 360;
  return html`${up}<p class="hint">
    ${times < 10 ? times.toFixed(1) : "Over 10"} times as much of it goes to the ${SIDES[towards]} side as to the ${SIDES[from]} side:
    pendants nearer the ${SIDES[from]} side light both more alike.
    ${
      layer.row === undefined
        ? nothing
        : html`<button type="button" class="text" @click=${() =>
            app.edit({
              name: `${layer.name} turned round`,
              edits: [
                { path: ["arrangements", app.arrangement, "layers", index, "row", "turn"], value: turn },
              ],
            })}>Turn it round</button>`
    }
  </p>`;
}

/** Which other options hang what they hung, and the way to hang the same there. */
function inThisAlone(app: AppView, place: LayerPlace, before: string): TemplateResult | typeof nothing {
  const same = hangInOthers(app.study, place, before);
  if (same === undefined) return nothing;
  const letters = arrangementLetters(app.study.arrangements);
  const others = new Set(same.edits.map(({ path }) => letters[Number(path[1])]));
  return html`<p class="hint">In this option alone: ${before} still hangs in ${[...others].join(", ")}.
        <button type="button" class="text" @click=${() => app.edit(same)}>Hang it there too</button></p>`;
}
