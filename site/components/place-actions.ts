/** What may be done with a luminaire that is not yet in the study: hang it in a layer, add it to the list, or drop it. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";

export interface PlaceActions {
  /** Adds it to the study, hanging it in a layer of the option on screen if one is given. */
  add(layer: number | undefined): void;
  leave?(): void;
  /** What adding it without hanging it is called. */
  readonly keep?: string;
}

export function placeActions(
  app: Pick<AppView, "study" | "arrangement">,
  actions: PlaceActions,
): TemplateResult {
  const { layers } = app.study.arrangements[app.arrangement];
  return html`<p class="row-of-actions">
    ${layers.map(
      (layer, index) =>
        html`<button type="button" @click=${() => actions.add(index)}>Hang it in ${layer.name}</button>`,
    )}
    <button type="button" @click=${() => actions.add(undefined)}>${actions.keep ?? "Add to the list, hang later"}</button>
    ${
      actions.leave === undefined
        ? nothing
        : html`<button type="button" @click=${() => actions.leave?.()}>Do not add it</button>`
    }
  </p>`;
}
