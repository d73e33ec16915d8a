/** What holds the set-out, before any paper is opened: each with the boxes it holds and its field as a link. */

import { html, nothing, type TemplateResult } from "lit";
import { holdsOf, shortTags } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { valueWords } from "../../components/study-words.ts";
import { leaveHolds } from "../hold-return.ts";
import type { Path } from "../../store/pointer.ts";

/** A usual value that stands in for one is set by one click, here too. */
function acceptance(app: AppView, path: Path): TemplateResult | typeof nothing {
  const standard = app.defaultAt(path);
  if (standard === undefined) return nothing;
  const words = valueWords(standard.value, path.map(String), app);
  return html`<button type="button" class="text" @click=${() =>
    app.edit({
      name: `set ${path.at(-1)} of the ${path[0]}`,
      edits: [standard.edit],
    })}>Set ${words}</button>`;
}

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
          leaveHolds(app);
          app.showField(path);
        };
        const tag = tags.length === 0 ? "All" : shortTags(tags);
        return html`<li><a href="#${idOf(path)}" @click=${show}>${tag}</a>: ${words} ${acceptance(app, path)}</li>`;
      })}
    </ul>
  </section>`;
}
