/** One's own luminaires, whatever study they are used in: hung or kept here, taken away, carried as a file. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { placeActions } from "../../components/place-actions.ts";
import { addLuminaireToStudy } from "../../edits/study-luminaires.ts";
import { download } from "../../storage/export-study.ts";
import { keepLuminaires, stateOf, withShelf } from "../../storage/kept-luminaires.ts";
import { type KeptLuminaire, luminaireOf, shelfText } from "../../storage/luminaire-shelf.ts";

export function keepButton(app: AppView, name: string): TemplateResult {
  return html`<button type="button" @click=${() => void keepLuminaires(app, [luminaireOf(app.study, name)])}>
    Keep for other studies
  </button>`;
}

export function luminaireShelf(app: AppView): TemplateResult {
  const state = stateOf(app);
  const toggle = (event: Event): void => {
    state.isOpen = (event.target as HTMLDetailsElement).open;
    if (state.isOpen) void withShelf(app, async () => {});
  };
  const { removed } = state;
  return html`<section class="part" aria-labelledby="shelf-heading">
    <h2 id="shelf-heading">My luminaires</h2>
    <details class="shelf" ?open=${state.isOpen} @toggle=${toggle}>
      <summary>Kept in this browser for every study</summary>
      ${
        state.kept.length === 0
          ? html`<p class="hint">None yet: “Keep for other studies” under a luminaire puts it here.</p>`
          : nothing
      }
      ${state.kept.map((each) => keptItem(app, each))}
      ${
        removed === undefined
          ? nothing
          : html`<p class="row-of-actions"><button type="button" @click=${() => {
              state.removed = undefined;
              void keepLuminaires(app, [removed]);
            }}>Put ${removed.name} back</button></p>`
      }
      <p class="row-of-actions">
        <button type="button" ?disabled=${state.kept.length === 0} @click=${() =>
          download("my.luminaires.json", "application/json", shelfText(state.kept))}>Save to a file</button>
        <button type="button" @click=${() => app.openFile("list")}>Bring from a file</button>
      </p>
    </details>
  </section>`;
}

function keptItem(app: AppView, kept: KeptLuminaire): TemplateResult {
  const { name, luminaire } = kept;
  const said = [luminaire.maker, luminaire.order].filter((word) => word !== undefined).join(", ");
  return html`<div class="item" role="group" aria-label=${name}>
    <p>${name}${said === "" ? nothing : html` <span class="hint">${said}</span>`}</p>
    ${placeActions(app, {
      keep: "Take into the study",
      add(layer) {
        const place = layer === undefined ? undefined : { arrangement: app.arrangement, layer };
        const edit = addLuminaireToStudy(app.study, kept, place);
        app.edit(edit);
        app.showLuminaire(edit.luminaire);
      },
    })}
    <p class="row-of-actions">
      <button type="button" @click=${() => {
        stateOf(app).removed = kept;
        void withShelf(app, (shelf) => shelf.remove(name));
      }}>Take away from here</button>
    </p>
  </div>`;
}
