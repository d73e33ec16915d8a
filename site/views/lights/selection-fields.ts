/** The selected luminaires: copied, mirrored, removed, and one of them put to typed places. */

import { html, nothing, type TemplateResult } from "lit";
import { readTypedLength } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { remarkPart } from "../../components/fields.ts";
import { typedValue } from "../../components/typed-value.ts";
import { usualLengths } from "../../components/usual-lengths.ts";
import { lengthText } from "../../components/words.ts";
import {
  copyLuminaires,
  type LuminaireKey,
  mirrorLuminaires,
  moveLuminaires,
  removeLuminaires,
  wordsFor,
} from "../../edits/luminaires.ts";
import { LEFT_WALL, NEAR_WALL } from "../kitchen/walls.ts";

export function selectionFields(app: AppView): TemplateResult | typeof nothing {
  const { selection, light } = app;
  if (selection.length === 0 || light === undefined) return nothing;
  const { layers } = app.study.arrangements[app.arrangement];
  const words = wordsFor(selection, layers);
  const edit = (make: typeof copyLuminaires): void =>
    app.edit(make(app.study, app.arrangement, light.scene, selection));
  return html`<section class="part selected" aria-labelledby="selected-heading">
    <h2 id="selected-heading">Selected: ${words}</h2>
    ${selection.length === 1 ? positionFields(app, selection[0]) : nothing}
    <p class="row-of-actions">
      <button type="button" @click=${() => edit(copyLuminaires)}>Copy</button>
      <button type="button" @click=${() =>
        app.edit(mirrorLuminaires(app.study, app.arrangement, light.scene, selection, "along"))}>
        Mirror along
      </button>
      <button type="button" @click=${() =>
        app.edit(mirrorLuminaires(app.study, app.arrangement, light.scene, selection, "across"))}>
        Mirror across
      </button>
      <button type="button" @click=${() => {
        edit(removeLuminaires);
        app.select([]);
      }}>Remove</button>
      <button type="button" @click=${() => app.select([])}>Select none</button>
    </p>
  </section>`;
}

/** Typed places of one luminaire, from the room's corner; every way of arranging understands them. */
function positionFields(app: AppView, key: LuminaireKey): TemplateResult {
  const light = app.light as NonNullable<AppView["light"]>;
  const placed = light.scene.layers[key.layer]?.luminaires[key.index];
  if (placed === undefined) return html``;
  const names = [`From ${LEFT_WALL}`, `From ${NEAR_WALL}`, "Height of the light's centre"];
  return html`<div class="fields">
    ${[0, 1, 2].map((axis) => {
      const id = `place-${key.layer}-${key.index}-${axis}`;
      const draft = app.drafts.get(id);
      return html`<div class="field">
        <label for=${id}>${names[axis]}</label>
        <input
          id=${id}
          type="text"
          autocomplete="off"
          .value=${typedValue(draft?.text ?? lengthText(app, placed.frame.origin[axis]))}
          aria-invalid=${draft?.problem === undefined ? nothing : "true"}
          aria-describedby=${draft?.problem === undefined ? nothing : `${id}-problem`}
          @change=${(event: Event) => {
            const input = event.target as HTMLInputElement;
            const unit = app.display.length;
            const read = readTypedLength(
              input.value,
              unit,
              placed.frame.origin[axis],
              usualLengths(app.study, ["at", axis]),
            );
            if (!read.ok) {
              app.keepDraft(id, {
                text: input.value,
                problem: `${read.problem}. Expected ${read.expected}.`,
              });
              return;
            }
            const moveTo = (metres: number): void => {
              app.dropDraft(id);
              const by: [number, number, number] = [0, 0, 0];
              by[axis] = metres - placed.frame.origin[axis];
              app.edit(moveLuminaires(app.study, app.arrangement, light.scene, [key], by));
            };
            moveTo(read.metres);
            const { metres, text, isInOtherUnit, otherwise } = read;
            if (!isInOtherUnit) return;
            app.keepDraft(id, {
              remark: {
                shown: lengthText(app, metres),
                words: `Read as ${text}.`,
                ...(otherwise
                  ? { instead: { words: otherwise.text, take: () => moveTo(otherwise.metres) } }
                  : {}),
              },
            });
          }}
        >
        ${draft?.problem === undefined ? nothing : html`<p class="problem" id="${id}-problem">✕ ${draft.problem}</p>`}
        ${remarkPart(draft, lengthText(app, placed.frame.origin[axis]))}
      </div>`;
    })}
  </div>`;
}
