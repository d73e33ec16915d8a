/** What a layer's luminaire is swapped by, with the light before it kept to be compared until the next swap or study. */

import type { AppView, FieldsView } from "../app-view.ts";
import type { NamedEdit } from "../edits/named-edit.ts";
import type { LayerPlace } from "../edits/study-luminaires.ts";

/** Makes an edit that puts another luminaire into a layer. */
export function swapBy(
  app: Pick<AppView, "study" | "lighting" | "edit" | "lastSwap">,
  { arrangement, layer }: LayerPlace,
  edit: NamedEdit,
): void {
  const { shown } = app.lighting;
  const { luminaire } = app.study.arrangements[arrangement].layers[layer];
  app.edit(edit);
  if (shown === undefined) return;
  app.lastSwap = { arrangement, layer, luminaire, assessment: shown.answer.assessment };
}

/** The fields of a luminaire: what they change of its body keeps the light before, which a body's size may move. */
export function fieldsOf(app: AppView, name: string): FieldsView {
  return {
    lighting: app.lighting,
    study: app.study,
    display: app.display,
    drafts: app.drafts,
    read: (path) => app.read(path),
    defaultAt: (path) => app.defaultAt(path),
    issueAt: (path) => app.issueAt(path),
    keepDraft: (id, draft) => app.keepDraft(id, draft),
    dropDraft: (id) => app.dropDraft(id),
    edit: (edit, options) => {
      const { lastSwap, arrangement } = app;
      const before = lastSwap?.body === name ? lastSwap.assessment : app.lighting.shown?.answer.assessment;
      app.edit(edit, options);
      const isBody = edit.edits.some(
        ({ path: [list, of, key] }) => list === "luminaires" && of === name && key === "body",
      );
      if (isBody && before !== undefined)
        app.lastSwap = { arrangement, body: name, luminaire: "before", assessment: before };
    },
  };
}
