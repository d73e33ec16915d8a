/** A luminaire being made from lamp and shade, or from flux and beam: its form comes first, and nothing of the study
 * changes until it is hung or kept. */

import { html, nothing, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";
import type { AppView, FieldsView } from "../../app-view.ts";
import { placeActions } from "../../components/place-actions.ts";
import { reveal } from "../../components/reveal.ts";
import { freshName, type RawLuminaire, type RawStudy } from "../../edits/raw-study.ts";
import { addLuminaireToStudy } from "../../edits/study-luminaires.ts";
import { type Json, read, write } from "../../store/pointer.ts";
import { luminaireForm } from "./luminaire-form.ts";

interface NewLuminaire {
  readonly name: string;
  readonly luminaire: RawLuminaire;
}

const started = new WeakMap<AppView["lighting"], NewLuminaire>();

/** Begins a luminaire with typical values. */
export function startLuminaire(app: AppView, stem: string, luminaire: RawLuminaire): void {
  const name = freshName(stem, Object.keys(app.study.luminaires ?? {}));
  started.set(app.lighting, { name, luminaire });
  app.redraw();
}

export function newLuminaire(app: AppView): TemplateResult | typeof nothing {
  const begun = started.get(app.lighting);
  if (begun === undefined) return nothing;
  const end = (): void => {
    started.delete(app.lighting);
    app.redraw();
  };
  const { name, luminaire } = begun;
  return html`<div class="item new" role="group" aria-label="New luminaire" ${ref(reveal)}>
    <p>Not hung yet: typical values, to be replaced by the real ones.</p>
    ${luminaireForm(formView(app, begun), { name, document: luminaire })}
    ${placeActions(app, {
      add(layer) {
        const place = layer === undefined ? undefined : { arrangement: app.arrangement, layer };
        const edit = addLuminaireToStudy(app.study, begun, place);
        app.edit(edit);
        end();
        app.showLuminaire(edit.luminaire);
      },
      leave: end,
    })}
  </div>`;
}

/** The study as if the luminaire stood in it, edited apart from it. */
function formView(app: AppView, { name, luminaire }: NewLuminaire): FieldsView {
  const luminaires = { ...app.study.luminaires, [name]: luminaire };
  const study = { ...app.study, luminaires, arrangements: [] } as RawStudy;
  return {
    study,
    display: app.display,
    drafts: app.drafts,
    read: (path) => read(study as unknown as Json, path),
    defaultAt: () => undefined,
    issueAt: () => undefined,
    edit({ edits }) {
      let after = study as unknown as Json;
      for (const { path, value } of edits) after = write(after, path, value);
      // A new name stands where the old one stood: last.
      const [last] = Object.entries((after as unknown as RawStudy).luminaires ?? {}).slice(-1);
      started.set(app.lighting, { name: last[0], luminaire: last[1] });
      app.redraw();
    },
    keepDraft: (id, draft) => app.keepDraft(id, draft),
    dropDraft: (id) => app.dropDraft(id),
  };
}
