/** What a layer's luminaire is swapped by, with the light before it kept to be compared until the next swap or study. */

import type { AppView } from "../app-view.ts";
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
