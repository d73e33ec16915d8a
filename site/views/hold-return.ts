/** The way back to what is on hold, while who came from there is at a field. Kept with the study on screen until the list is seen again. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";

const left = new WeakSet<AppView["lighting"]>();

/** From now on there is a way back. */
export function leaveHolds({ lighting }: Pick<AppView, "lighting">): void {
  left.add(lighting);
}

/** The list is on screen. */
export function seeHolds({ lighting }: Pick<AppView, "lighting">): void {
  left.delete(lighting);
}

export function holdReturn({ lighting }: Pick<AppView, "lighting">): TemplateResult | typeof nothing {
  return left.has(lighting)
    ? html`<p class="hold-return"><a href="#hand-over">Back to what is on HOLD</a></p>`
    : nothing;
}
