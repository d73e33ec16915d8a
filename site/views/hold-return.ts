/** The way back to what is on hold, and on to the next of it, while who came from there is at a field. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../app-view.ts";
import { placeWords } from "../components/study-words.ts";
import { type HeldPoint, holdVisit } from "../store/hold-visit.ts";

export function holdReturn(app: AppView): TemplateResult | typeof nothing {
  const visit = holdVisit(app);
  if (visit === undefined) return nothing;
  const next = visit.next();
  const go = (): void => {
    if (next === undefined) return;
    visit.goTo(next);
    app.showField(next.path);
  };
  const nextWords = (point: HeldPoint): string =>
    visit.isHere(point) ? placeWords(app.study, point.path).field : point.name;
  return html`<p class="hold-return">
    <a href="#hand-over">${visit.places().length === 0 ? "Nothing is on HOLD any more: to the papers" : "Back to what is on HOLD"}</a>
    ${next === undefined ? nothing : html`<button type="button" class="text" @click=${go}>Next: ${nextWords(next)}</button>`}
  </p>`;
}
