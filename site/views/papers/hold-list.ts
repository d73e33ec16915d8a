/** What holds the set-out, before any paper is opened: by the place that answers it, each with the boxes it holds and its field as a link. */

import { html, nothing, type TemplateResult } from "lit";
import { shortTags } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { takeDefault } from "../../components/fields.ts";
import { placeWords, valueWords } from "../../components/study-words.ts";
import { capital } from "../../components/words.ts";
import { oneCircuitEach } from "../../edits/circuits.ts";
import { leaveHolds } from "../../store/hold-visit.ts";
import type { Path } from "../../store/pointer.ts";
import { type HeldHere, heldPlaces, pathOf } from "./held-places.ts";

type Held = HeldHere["holds"][number];

/** A usual value that stands in for one is set by one click, here too. */
function acceptance(app: AppView, path: Path): TemplateResult | typeof nothing {
  const standard = app.defaultAt(path);
  if (standard === undefined) return nothing;
  const words = valueWords(standard.value, path.map(String), app);
  const { subject, field } = placeWords(app.study, path);
  const change = `${subject}: ${path.at(-1) === "margin" ? "wall to the outer ones" : field} ${words}`;
  return takeDefault(app, standard, change, words);
}

/** A circuit for each layer that names none, in one step: an offer, as it stands on the button. */
function circuitOffer(app: AppView): TemplateResult | typeof nothing {
  const offer = oneCircuitEach(app.study, app.arrangement);
  return offer === undefined
    ? nothing
    : html`<p class="row-of-actions"><button type="button" @click=${() => app.edit(offer)}>
        ${capital(offer.name)}
      </button></p>`;
}

/** The other way out for a luminaire that nobody chose: another one in its layer. */
function choice(
  app: AppView,
  { field, missing }: Held,
  leave: (path: Path) => void,
): TemplateResult | typeof nothing {
  const [list, name, key] = field;
  if (list !== "luminaires" || key !== "order" || missing === undefined) return nothing;
  const { layers } = app.study.arrangements[app.arrangement];
  const layer = layers.findIndex((each) => each.luminaire === name);
  return layer < 0
    ? nothing
    : html`<button type="button" class="text" @click=${() =>
        leave([
          "arrangements",
          app.arrangement,
          "layers",
          layer,
          "luminaire",
        ])}>Choose the luminaire</button>`;
}

export function holdList(app: AppView): TemplateResult {
  if (app.light === undefined) return html``;
  const places = heldPlaces(app);
  const points = places.reduce((sum, { holds }) => sum + holds.length, 0);
  const count = `${points === 1 ? "one point" : `${points} points`} at ${places.length === 1 ? "one place" : `${places.length} places`}`;
  return html`<section class="part holds" aria-labelledby="holds-heading">
    <h2 id="holds-heading">On HOLD${places.length === 0 ? ": nothing" : `: ${count}`}</h2>
    <p class="hint">${
      places.length === 0
        ? "Everything the set-out sheet needs is stated."
        : "The set-out sheet says not to build before these are settled. Each leads to its field, where what is needed is marked."
    }</p>
    ${circuitOffer(app)}
    ${places.map((place) => heldHere(app, place))}
  </section>`;
}

function heldHere(app: AppView, { name, holds }: HeldHere): TemplateResult {
  const leave = (path: Path): void => {
    leaveHolds(app, () => heldPlaces(app), { name, path });
    app.showField(path);
  };
  return html`<h3>${capital(name)}</h3>
    <ul class="plain">
      ${holds.map((held) => {
        const { tags, words, field } = held;
        const path = pathOf(field, app.arrangement);
        const show = (event: Event): void => {
          event.preventDefault();
          leave(path);
        };
        const tag = tags.length === 0 ? "All" : shortTags(tags);
        return html`<li><a href="#${idOf(path)}" @click=${show}>${tag}</a>: ${words} ${choice(app, held, leave)} ${acceptance(app, path)}</li>`;
      })}
    </ul>`;
}
