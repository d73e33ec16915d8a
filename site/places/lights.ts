/** Lights: which luminaires, in which layers, where; and what swapping one does. */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import { repeat } from "lit/directives/repeat.js";
import type { ArrangementAssessment } from "../../src/assessment/assessment.ts";
import type { AppView, Swap } from "../app-view.ts";
import {
  addLuminaire,
  copyArrangement,
  copyLuminaires,
  type LuminaireKey,
  makeRow,
  mirrorLuminaires,
  moveLuminaires,
  removeArrangement,
  removeLuminaires,
  wordsFor,
} from "../edits/luminaires.ts";
import { freshName, metresOf, type RawLayer } from "../edits/raw-study.ts";
import { choiceField, lengthField, numberField, shareSlider, textField } from "../parts/fields.ts";
import { typedValue } from "../parts/typed-value.ts";
import { lengthText, lightText } from "../parts/words.ts";
import type { Json, Path } from "../store/pointer.ts";
import { luminairesPart } from "./luminaires-part.ts";
import type { Place } from "./place.ts";

export const lights: Place = {
  controls(app) {
    const { layers } = app.study.arrangements[app.arrangement];
    return html`
      ${optionBar(app)} ${selectionPart(app)}
      ${repeat(
        layers,
        (layer) => layer.name,
        (layer, index) => layerPart(app, layer, index),
      )}
      <p class="row-of-actions">
        <button type="button" @click=${() => addLayer(app)}>Add a layer</button>
      </p>
      ${luminairesPart(app)}
    `;
  },
};

function optionBar(app: AppView): TemplateResult {
  const list = app.study.arrangements;
  return html`<section class="part" aria-labelledby="options-heading">
    <h2 id="options-heading">Option</h2>
    <div class="options" role="group" aria-label="Option on screen">
      ${list.map(
        (each, index) => html`<button
          type="button"
          aria-pressed=${index === app.arrangement ? "true" : "false"}
          @click=${() => app.showArrangement(index)}
        >${String.fromCharCode(65 + (index % 26))} ${each.name}</button>`,
      )}
    </div>
    <details>
      <summary>Copy, rename, remove</summary>
      ${textField(app, {
        label: "Name of this option",
        path: ["arrangements", app.arrangement, "name"],
        change: "rename option",
      })}
    <p class="row-of-actions">
      <button type="button" @click=${() => {
        const index = app.arrangement;
        app.edit(copyArrangement(app.study, index));
        app.showArrangement(index + 1);
      }}>Copy option</button>
      <button type="button" ?disabled=${list.length < 2} @click=${() => {
        const index = app.arrangement;
        const edit = removeArrangement(app.study, index);
        app.showArrangement(index === 0 ? 0 : index - 1, edit);
      }}>Remove option</button>
    </p>
    </details>
  </section>`;
}

function selectionPart(app: AppView): TemplateResult | typeof nothing {
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
  const names = ["From wall 3 (x)", "From wall 0 (y)", "Height of the light's centre"];
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
          aria-invalid=${draft === undefined ? nothing : "true"}
          aria-describedby=${draft === undefined ? nothing : `${id}-problem`}
          @change=${(event: Event) => {
            const input = event.target as HTMLInputElement;
            const read = app.readLength(input.value);
            if (!read.ok) {
              app.keepDraft(id, {
                text: input.value,
                problem: `${read.problem}. Expected ${read.expected}.`,
              });
              return;
            }
            app.dropDraft(id);
            const by: [number, number, number] = [0, 0, 0];
            by[axis] = read.metres - placed.frame.origin[axis];
            app.edit(moveLuminaires(app.study, app.arrangement, light.scene, [key], by));
          }}
        >
        ${draft === undefined ? nothing : html`<p class="problem" id="${id}-problem">✕ ${draft.problem}</p>`}
      </div>`;
    })}
  </div>`;
}

const ROLES = [
  { value: "pendant", words: "pendants" },
  { value: "recessed", words: "recessed" },
  { value: "accent", words: "accents" },
  { value: "other", words: "other" },
];

function layerPart(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const path: Path = ["arrangements", app.arrangement, "layers", index];
  const heading = `layer-${index}-heading`;
  return html`<section class="part" aria-labelledby=${heading}>
    <h2 id=${heading}>${layer.name}</h2>
    ${luminaireChoice(app, layer, index)}
    ${shareSlider(app, {
      label: "Dimmed to",
      path: [...path, "dim"],
      change: `${layer.name} dimmed to`,
      fallback: 1,
    })}
    ${
      layer.row !== undefined
        ? rowFields(app, layer, path)
        : layer.grid !== undefined
          ? gridFields(app, layer, path)
          : freePlaces(app, layer, index)
    }
    <p class="row-of-actions">
      <button type="button" @click=${() => {
        if (app.light !== undefined) {
          app.edit(addLuminaire(app.study, app.arrangement, app.light.scene, index));
        }
      }}>Add one</button>
      <button type="button" @click=${() => {
        const count = app.light?.scene.layers[index]?.luminaires.length ?? 0;
        app.select(Array.from({ length: count }, (_, i) => ({ layer: index, index: i })));
      }}>Select all</button>
    </p>
    <details>
      <summary>Name, role, circuit</summary>
      <div class="fields">
        ${textField(app, { label: "Layer name", path: [...path, "name"], change: "rename layer" })}
        ${choiceField(app, {
          label: "Role",
          path: [...path, "role"],
          change: `${layer.name} as`,
          choices: ROLES,
          fallback: "other",
        })}
        ${textField(app, { label: "Circuit", path: [...path, "circuit"], change: "circuit", optional: true })}
      </div>
      <p class="row-of-actions">
        <button type="button" @click=${() => {
          const layers = app.study.arrangements[app.arrangement].layers.filter((_, i) => i !== index);
          app.select([]);
          app.edit({
            name: `remove layer ${layer.name}`,
            edits: [{ path: ["arrangements", app.arrangement, "layers"], value: layers as unknown as Json }],
          });
        }}>Remove layer</button>
      </p>
    </details>
  </section>`;
}

function luminaireChoice(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const names = Object.keys(app.study.luminaires ?? {});
  const id = `luminaire-of-${index}`;
  const swap = app.lastSwap;
  const evidence = app.evidenceOf(layer.luminaire);
  return html`<div class="field">
    <label for=${id}>Luminaire</label>
    <select id=${id} @change=${(event: Event) => app.swap(index, (event.target as HTMLSelectElement).value)}>
      ${names.map(
        (each) => html`<option value=${each} .selected=${live(each === layer.luminaire)}>${each}</option>`,
      )}
    </select>
    ${evidence === undefined ? nothing : html`<p class="hint">Its light is ${evidence}.</p>`}
    ${
      swap === undefined || swap.layer !== index || swap.arrangement !== app.arrangement
        ? nothing
        : beforeAndAfter(app, swap, layer.luminaire)
    }
  </div>`;
}

function beforeAndAfter(app: AppView, swap: Swap, now: string): TemplateResult {
  const after = app.light?.assessment;
  const row = (name: string, say: (assessment: ArrangementAssessment) => string): TemplateResult =>
    html`<tr><th scope="row">${name}</th><td>${say(swap.assessment)}</td><td>${after === undefined ? "…" : say(after)}</td></tr>`;
  const zone = (assessment: ArrangementAssessment, name: string) =>
    assessment.zones.find((each) => each.name === name)?.statistics;
  return html`<table class="before-after">
    <caption>Before and after the swap</caption>
    <thead><tr><td></td><th scope="col">${swap.luminaire}</th><th scope="col">${now}</th></tr></thead>
    <tbody>
      ${swap.assessment.zones.map(
        ({ name }) => html`
          ${row(`${name}, average`, (each) => lightText(app, zone(each, name)?.average ?? Number.NaN))}
          ${row(`${name}, evenness`, (each) => (zone(each, name)?.uniformity ?? Number.NaN).toFixed(2))}
        `,
      )}
      ${row("power", (each) => `${Math.round(each.energy.watts)} W`)}
    </tbody>
  </table>`;
}

/** How the places along a row are told: by the even bays, or by one of three lengths. */
const SPACINGS = [
  { value: "bays", words: "equal bays" },
  { value: "gap", words: "gap between rims" },
  { value: "spacing", words: "centre to centre" },
  { value: "end", words: "rim to end of top" },
] as const;

function rowFields(app: AppView, layer: RawLayer, path: Path): TemplateResult {
  const row = layer.row as NonNullable<RawLayer["row"]>;
  const kind =
    row.gap !== undefined
      ? "gap"
      : row.spacing !== undefined
        ? "spacing"
        : row.end !== undefined
          ? "end"
          : "bays";
  const id = `spacing-${path.join("-")}`;
  return html`<div class="fields">
    ${numberField(app, {
      label: "Count",
      path: [...path, "row", "count"],
      change: `${layer.name} count`,
      from: 1,
      to: 200,
      whole: true,
    })}
    ${lengthField(app, {
      label: "Clearance",
      path: [...path, "row", "clearance"],
      change: "clearance",
    })}
    <div class="field">
      <label for=${id}>Spread by</label>
      <select id=${id} @change=${(event: Event) => {
        const chosen = (event.target as HTMLSelectElement).value;
        const { gap: _gap, spacing: _spacing, end: _end, ...rest } = row;
        const start = chosen === "bays" ? {} : { [chosen]: startOf(app, layer, chosen, path) };
        app.edit({
          name: `${layer.name} by ${SPACINGS.find((each) => each.value === chosen)?.words}`,
          edits: [{ path: [...path, "row"], value: { ...rest, ...start } as unknown as Json }],
        });
      }}>
        ${SPACINGS.map(
          (each) =>
            html`<option value=${each.value} .selected=${live(each.value === kind)}>${each.words}</option>`,
        )}
      </select>
    </div>
    ${
      kind === "bays"
        ? nothing
        : lengthField(app, {
            label: kind === "gap" ? "Gap" : kind === "spacing" ? "Spacing" : "Rim to end",
            path: [...path, "row", kind],
            change: kind === "end" ? "rim to end" : kind,
          })
    }
  </div>`;
}

/** The length that leaves the row where it is when it comes to be told another way. */
function startOf(app: AppView, layer: RawLayer, kind: string, path: Path): number {
  const placed = app.light?.scene.layers[Number(path[3])]?.luminaires ?? [];
  const width = metresOf(app.study.luminaires?.[layer.luminaire]?.body?.diameter) ?? 0;
  const [a, b] = [placed[0]?.frame.origin, placed[1]?.frame.origin];
  const spacing = a !== undefined && b !== undefined ? Math.hypot(a[0] - b[0], a[1] - b[1]) : 0.8;
  const length = app.light?.scene.island?.length ?? 2.4;
  const value =
    kind === "spacing"
      ? spacing
      : kind === "gap"
        ? spacing - width
        : (length - spacing * (placed.length - 1) - width) / 2;
  return Math.max(kind === "spacing" ? 0.01 : 0, Math.round(value * 1000) / 1000);
}

function gridFields(app: AppView, layer: RawLayer, path: Path): TemplateResult {
  const count = (key: "columns" | "rows", label: string): TemplateResult =>
    numberField(app, {
      label,
      path: [...path, "grid", key],
      change: `${layer.name} ${key}`,
      from: 1,
      to: 100,
      whole: true,
    });
  return html`<div class="fields">
    ${count("columns", "Columns along the room")} ${count("rows", "Rows across the room")}
    ${lengthField(app, {
      label: "Wall to the outer ones",
      path: [...path, "grid", "margin"],
      change: "margin",
      optional: true,
      hint: "Empty: half a spacing.",
    })}
  </div>`;
}

function freePlaces(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const placed = app.light?.scene.layers[index]?.luminaires ?? [];
  return html`<div class="field">
    <p>${placed.length} at free places.</p>
    <ol class="places">
      ${placed.map(
        ({ frame }, i) => html`<li>
          <button type="button" @click=${() => app.select([{ layer: index, index: i }])}>
            ${lengthText(app, frame.origin[0])}, ${lengthText(app, frame.origin[1])}, up ${lengthText(app, frame.origin[2])}
          </button>
        </li>`,
      )}
    </ol>
    ${
      layer.role === "pendant"
        ? html`<button type="button" @click=${() => {
            const clearance = app.clearanceOf(index) ?? 0.85;
            app.edit(makeRow(app.study, app.arrangement, index, clearance));
          }}>Make it a row</button>`
        : nothing
    }
  </div>`;
}

function addLayer(app: AppView): void {
  const { layers } = app.study.arrangements[app.arrangement];
  const luminaire = Object.keys(app.study.luminaires ?? {})[0];
  if (luminaire === undefined) {
    app.say("A layer needs a luminaire: read a photometric file first.");
    return;
  }
  const name = freshName(
    "more pendants",
    layers.map((each) => each.name),
  );
  const layer: RawLayer = {
    name,
    role: "pendant",
    luminaire,
    dim: 1,
    ...(app.study.island === undefined
      ? { at: [{ position: [1, 1, 2] as const }] }
      : { row: { count: 1, clearance: 0.85 } }),
  };
  app.edit({
    name: `add layer ${name}`,
    edits: [
      { path: ["arrangements", app.arrangement, "layers", layers.length], value: layer as unknown as Json },
    ],
  });
}
