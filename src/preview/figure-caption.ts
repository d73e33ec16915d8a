/** What stands under the picture: scale, caption, how far it is and what is to be known of it. */

import { html, nothing, type TemplateResult } from "lit";
import "../elements/scale/scale.ts";
import { exposureWords, pictureRemarks } from "./caption.ts";
import type { Exposure } from "./exposure.ts";
import type { Look } from "./kitchen-view.ts";

export interface FigureCaption {
  readonly look: Look;
  readonly unit: "lx" | "fc";
  readonly lines: readonly string[];
  readonly exposure: Exposure | undefined;
  /** Share of the refinement that is done. */
  readonly fraction: number;
  readonly remarks: Parameters<typeof pictureRemarks>[0];
}

export function figureCaption(caption: FigureCaption): TemplateResult {
  const { look, unit, lines, exposure, fraction, remarks } = caption;
  const isLux = look === "lux";
  const title = exposure === undefined || isLux ? "" : exposureWords(exposure);
  return html`
    <figcaption>
      ${isLux ? html`<candlespan-scale .unit=${unit}></candlespan-scale>` : nothing}
      ${lines.map((line) => html`<div title=${title}>${line}</div>`)}
      <div class="state" role="status">
        <slot name="progress">${fraction < 1 ? progress(fraction) : nothing}</slot> ${pictureRemarks(remarks).map((words) => html`<span>${words}</span>`)}
      </div>
    </figcaption>
  `;
}

const progress = (fraction: number): TemplateResult =>
  html`The picture is being refined <progress max="1" .value=${fraction} aria-label="Fine light"></progress>`;
