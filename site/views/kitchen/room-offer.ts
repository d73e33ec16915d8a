/** What stands outside the room, and the ways to put that right. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { moveInside, names, outsideRoom, removeOutside } from "../../edits/room-contents.ts";
import { read } from "../../store/pointer.ts";

export function roomOffer(app: AppView): TemplateResult | typeof nothing {
  const outside = outsideRoom(app.study);
  if (outside.length === 0) return nothing;
  const last = app.history.done.at(-1);
  const isResized = last !== undefined && read(last.before, ["room"]) !== read(last.after, ["room"]);
  const one = outside.length === 1;
  return html`<div class="offer" role="group" aria-label="Outside the room">
    <p>Outside the room: ${names(outside)}${outside.length > 3 ? `, such as ${outside[0].name}` : ""}.</p>
    <p class="row-of-actions">
      <button type="button" class="primary" @click=${() => app.edit(moveInside(outside))}>Move ${one ? "it" : "them"} in</button>
      ${
        outside.some(({ removal }) => removal !== undefined)
          ? html`<button type="button" @click=${() => app.edit(removeOutside(outside))}>Remove ${one ? "it" : "them"}</button>`
          : nothing
      }
      ${isResized ? html`<button type="button" @click=${() => app.history.undo()}>Keep the old size</button>` : nothing}
    </p>
  </div>`;
}
