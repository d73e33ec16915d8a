/** Says which strip of the top no zone judges, and offers to stretch the zones over it. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { lengthText } from "../../components/words.ts";
import { stretchZones, unjudgedPart, unjudgedStrips } from "../../edits/zones.ts";

export function strips(app: AppView): TemplateResult | typeof nothing {
  const strips = unjudgedStrips(app.study);
  const between = strips.some(({ depth }) => depth > 0) ? undefined : unjudgedPart(app.study);
  if (strips.length === 0 && between === undefined) return nothing;
  const edit = stretchZones(app.study);
  return html`<div class="offer" role="group" aria-label="Zones and the top">
    ${strips.map(({ side, depth }) =>
      depth > 0
        ? html`<p>${lengthText(app, depth)} of the top ${side} belongs to no zone: nobody judges its light.</p>`
        : html`<p>The zones reach ${lengthText(app, -depth)} beyond the top ${side}.</p>`,
    )}
    ${
      between === undefined
        ? nothing
        : html`<p>A part of the top within ${lengthText(app, between[1][0] - between[0][0])} by ${lengthText(app, between[1][1] - between[0][1])} belongs to no zone: nobody judges its light.</p>`
    }
    ${
      edit === undefined
        ? nothing
        : html`<p class="row-of-actions"><button type="button" class="primary" @click=${() => app.edit(edit)}>${
            between !== undefined || strips.some(({ depth }) => depth > 0)
              ? "Stretch the zones"
              : "Fit the zones to the top"
          }</button></p>`
    }
  </div>`;
}
