/** What holds the set-out, before any paper is opened: each with the boxes it holds and its field as a link. */

import { html, type TemplateResult } from "lit";
import { holdsOf, shortTags } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import type { Path } from "../../store/pointer.ts";

export function holdList(app: AppView): TemplateResult {
  const { light } = app;
  if (light === undefined) return html``;
  const held = holdsOf(light, app.display.length === "ft-in" ? "ft-in" : "mm");
  return html`<section class="part holds" aria-labelledby="holds-heading">
    <h2 id="holds-heading">On HOLD: ${held.length === 0 ? "nothing" : held.length}</h2>
    <p class="hint">${
      held.length === 0
        ? "Everything the electrician’s sheet needs is stated."
        : "The electrician’s sheet says not to build before these are settled. Each leads to its field."
    }</p>
    <ul class="plain">
      ${held.map(({ tags, words, field }) => {
        const path: Path = field[0] === "layers" ? ["arrangements", app.arrangement, ...field] : field;
        const show = (event: Event): void => {
          event.preventDefault();
          app.showField(path);
        };
        return html`<li><a href="#${idOf(path)}" @click=${show}>${tags.length === 0 ? "All" : shortTags(tags)}</a>: ${words}</li>`;
      })}
    </ul>
  </section>`;
}
