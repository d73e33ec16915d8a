/** The views, and the controls of the one that is entered; on a narrow page they share its height with the sheet, as much as is wanted. */

import { html, nothing, type TemplateResult } from "lit";
import { VIEWS } from "../views/views.ts";

/** How much of a narrow page's height the controls take. */
export const HEIGHTS = ["folded", "usual", "tall"] as const;
export type ControlsHeight = (typeof HEIGHTS)[number];

export interface Side {
  /** The view that is entered. */
  readonly view: string;
  readonly height: ControlsHeight;
  readonly controls: unknown;
  visit(view: string): void;
  setHeight(height: ControlsHeight): void;
}

export function side({ view, height, controls, visit, setHeight }: Side): TemplateResult {
  const step = (by: 1 | -1, words: string): TemplateResult => {
    const next = HEIGHTS[HEIGHTS.indexOf(height) + by] as ControlsHeight | undefined;
    return html`<button
      type="button"
      class=${by < 0 ? "height lower" : "height raise"}
      aria-label="Panel: ${words}"
      aria-controls="controls"
      ?disabled=${next === undefined}
      @click=${() => next !== undefined && setHeight(next)}
    >${words}</button>`;
  };
  return html`<div class="side" data-height=${height}>
    <nav aria-label="Places">
      ${VIEWS.map(
        ({ id, name }) => html`<button
          type="button"
          aria-current=${id === view ? "page" : nothing}
          @click=${() => {
            if (height === "folded") setHeight("usual");
            visit(id);
          }}
        >${name}</button>`,
      )}
      ${step(-1, height === "tall" ? "Less" : "Hide")} ${step(1, height === "folded" ? "Show" : "More")}
    </nav>
    <div id="controls" class="controls" tabindex="-1">${controls}</div>
  </div>`;
}
