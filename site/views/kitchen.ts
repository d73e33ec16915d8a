/** Kitchen: the brief and the room. Who works where, to which target, between which walls. */

import { html, nothing, type TemplateResult } from "lit";
import { PUBLISHED_TARGETS } from "../../src/app.ts";
import type { AppView } from "../app-view.ts";
import { choiceField, lengthField, numberField, shareSlider, textField } from "../components/fields.ts";
import { freshName, metresOf, type RawPerson, type RawZone } from "../edits/raw-study.ts";
import type { Json, Path } from "../store/pointer.ts";
import type { View } from "./view.ts";

export const kitchen: View = {
  controls: (app) => html`
    ${zonesPart(app)} ${peoplePart(app)} ${islandPart(app)} ${roomPart(app)} ${finishesPart(app)}
    ${defaultsPart(app)}
  `,
};

function part(id: string, heading: string, content: unknown): TemplateResult {
  return html`<section class="part" aria-labelledby="${id}-heading">
    <h2 id="${id}-heading">${heading}</h2>
    ${content}
  </section>`;
}

function roomPart(app: AppView): TemplateResult {
  return part(
    "room",
    "Room",
    html`<div class="fields">
      ${lengthField(app, { label: "Length", path: ["room", "length"], change: "room length" })}
      ${lengthField(app, { label: "Width", path: ["room", "width"], change: "room width" })}
      ${lengthField(app, { label: "Ceiling height", path: ["room", "ceilingHeight"], change: "ceiling height" })}
      ${numberField(app, {
        label: "Ceiling slope",
        path: ["room", "ceiling", "slope"],
        change: "ceiling slope",
        from: 0,
        to: 60,
        unit: "°",
        fallback: 0,
        optional: true,
      })}
    </div>`,
  );
}

const FINISHES = [
  { value: "matt", words: "matt" },
  { value: "satin", words: "satin" },
  { value: "polished", words: "polished" },
];

function islandPart(app: AppView): TemplateResult {
  const { island } = app.study;
  if (island === undefined) {
    return part(
      "island",
      "Island",
      html`<button type="button" @click=${() => {
        const x = metresOf(app.study.room.length) ?? 5;
        const y = metresOf(app.study.room.width) ?? 4;
        app.edit({
          name: "add an island",
          edits: [
            { path: ["island"], value: { centre: [x / 2, y / 2], length: 2.4, width: 1, height: 0.92 } },
          ],
        });
      }}>Add an island</button>`,
    );
  }
  const length = (key: string, label: string): TemplateResult =>
    lengthField(app, { label, path: ["island", key], change: `island ${label.toLowerCase()}` });
  return part(
    "island",
    "Island",
    html`<div class="fields">
      ${length("length", "Length")} ${length("width", "Width")} ${length("height", "Height")}
      ${lengthField(app, { label: "Middle from wall 3 (x)", path: ["island", "centre", 0], change: "island at x" })}
      ${lengthField(app, { label: "Middle from wall 0 (y)", path: ["island", "centre", 1], change: "island at y" })}
      ${choiceField(app, {
        label: "Finish of the top",
        path: ["island", "finish"],
        change: "top",
        choices: FINISHES,
        fallback: "matt",
      })}
    </div>`,
  );
}

function finishesPart(app: AppView): TemplateResult {
  const share = (label: string, path: Path, fallback: number): TemplateResult =>
    shareSlider(app, { label, path, change: `${label.toLowerCase()} reflect`, fallback });
  const walls = app.study.room.reflectance?.walls;
  return part(
    "finishes",
    "Finishes: light reflected",
    html`<div class="fields">
      ${share("Ceiling", ["room", "reflectance", "ceiling"], 0.7)}
      ${
        Array.isArray(walls)
          ? walls.map((_, i) => share(`Wall ${i}`, ["room", "reflectance", "walls", i], 0.5))
          : share("Walls", ["room", "reflectance", "walls"], 0.5)
      }
      ${share("Floor", ["room", "reflectance", "floor"], 0.2)}
      ${share("Island top", ["island", "reflectance", "top"], 0.4)}
      ${share("Island sides", ["island", "reflectance", "sides"], 0.4)}
      ${
        typeof app.study.maintenance === "object"
          ? nothing
          : shareSlider(app, {
              label: "Maintenance factor",
              path: ["maintenance"],
              change: "maintenance",
              fallback: 0.8,
              from: 1,
              hint: "What is left of the light when lamps and surfaces have aged.",
            })
      }
    </div>`,
  );
}

function zonesPart(app: AppView): TemplateResult {
  const zones = app.study.island?.zones ?? [];
  const targets = [
    ...Object.keys(app.study.targets ?? {}).map((value) => ({ value, words: value })),
    ...PUBLISHED_TARGETS.map(({ id, name }) => ({ value: id, words: name })),
  ];
  const set = (name: string, value: readonly RawZone[]): void =>
    app.edit({ name, edits: [{ path: ["island", "zones"], value: value as unknown as Json }] });
  return part(
    "zones",
    "Zones on the top",
    html`${zones.map((zone, index) => {
      const path: Path = ["island", "zones", index];
      return html`<details class="item" name="zone" ?open=${index === 0}>
          <summary>${zone.name}</summary>
          <div class="fields">
            ${textField(app, { label: "Name", path: [...path, "name"], change: "rename zone" })}
            ${choiceField(app, {
              label: "Target",
              path: [...path, "target"],
              change: `${zone.name} target`,
              choices: [{ value: "", words: "none" }, ...targets],
              fallback: "",
              optional: true,
            })}
            ${
              zone.polygon === undefined
                ? html`${lengthField(app, { label: "From the end", path: [...path, "from", 0], change: `${zone.name} from` })}
                  ${lengthField(app, { label: "From the side", path: [...path, "from", 1], change: `${zone.name} across from` })}
                  ${lengthField(app, { label: "Length", path: [...path, "size", 0], change: `${zone.name} length` })}
                  ${lengthField(app, { label: "Width", path: [...path, "size", 1], change: `${zone.name} width` })}`
                : nothing
            }
          </div>
          <p class="row-of-actions">
            <button type="button" @click=${() =>
              set(
                `remove zone ${zone.name}`,
                zones.filter((_, i) => i !== index),
              )}>Remove zone</button>
          </p>
        </details>`;
    })}
    ${
      app.study.island === undefined
        ? html`<p class="hint">Zones need an island.</p>`
        : html`<p class="row-of-actions"><button type="button" @click=${() => {
            const name = freshName(
              "zone",
              zones.map((each) => each.name),
            );
            const size = [
              metresOf(app.study.island?.length) ?? 1,
              metresOf(app.study.island?.width) ?? 1,
            ] as const;
            set(`add ${name}`, [...zones, { name, from: [0, 0], size }]);
          }}>Add a zone</button></p>`
    }`,
  );
}

const POSTURES = [
  { value: "standing", words: "standing" },
  { value: "leaning", words: "leaning over the top" },
  { value: "seated", words: "seated" },
];

function peoplePart(app: AppView): TemplateResult {
  const people = app.study.people ?? [];
  const set = (name: string, value: readonly RawPerson[]): void =>
    app.edit({ name, edits: [{ path: ["people"], value: value as unknown as Json }] });
  return part(
    "people",
    "People",
    html`${people.map((person, index) => {
      const path: Path = ["people", index];
      return html`<details class="item" name="person">
          <summary>${person.name}</summary>
          <div class="fields">
            ${textField(app, { label: "Name", path: [...path, "name"], change: "rename" })}
            ${lengthField(app, { label: "Height", path: [...path, "stature"], change: `${person.name} height`, fallback: 1.7 })}
            ${lengthField(app, { label: "Feet at x", path: [...path, "at", 0], change: `${person.name} at x` })}
            ${lengthField(app, { label: "Feet at y", path: [...path, "at", 1], change: `${person.name} at y` })}
            ${numberField(app, {
              label: "Facing",
              path: [...path, "facing"],
              change: `${person.name} facing`,
              from: -360,
              to: 360,
              unit: "°",
              fallback: 0,
              hint: "0° along the room's length, 90° across it.",
            })}
            ${choiceField(app, {
              label: "Posture",
              path: [...path, "posture"],
              change: `${person.name}`,
              choices: POSTURES,
              fallback: "standing",
            })}
            ${numberField(app, {
              label: "Age",
              path: [...path, "age"],
              change: `${person.name} age`,
              from: 0,
              to: 130,
              optional: true,
            })}
          </div>
          <p class="row-of-actions">
            <button type="button" @click=${() =>
              set(
                `remove ${person.name}`,
                people.filter((_, i) => i !== index),
              )}>Remove ${person.name}</button>
          </p>
        </details>`;
    })}
    <label class="check"><input type="checkbox" .checked=${app.withPeople === true} @change=${(
      event: Event,
    ) =>
      app.standPeople(
        (event.target as HTMLInputElement).checked,
      )}> They stand in the light: every figure with them there</label>
    <label class="check"><input type="checkbox" .checked=${app.showPeople} @change=${(event: Event) =>
      app.turnPeople(
        (event.target as HTMLInputElement).checked,
      )}> Show on the plan what their bodies shade, and what they see mirrored in the top</label>
    <p class="row-of-actions"><button type="button" @click=${() => {
      const name = freshName(
        "cook",
        people.map((each) => each.name),
      );
      const island = app.light?.scene.island;
      const at: [number, number] =
        island === undefined ? [1, 1] : [island.centre[0], island.centre[1] + island.width / 2 + 0.2];
      set(`add ${name}`, [
        ...people,
        {
          name,
          stature: 1.7,
          at: [Math.round(at[0] * 1000) / 1000, Math.round(at[1] * 1000) / 1000],
          facing: 270,
          posture: "standing",
        },
      ]);
    }}>Add a person</button></p>`,
  );
}

function defaultsPart(app: AppView): TemplateResult | typeof nothing {
  const defaults = app.light?.defaults ?? [];
  if (defaults.length === 0) return nothing;
  return html`<section class="part">
    <details>
      <summary>${defaults.length} values are defaults</summary>
      <ul class="plain">
        ${defaults.map(
          (each) =>
            html`<li><code>${each.path}</code> ${JSON.stringify(each.value)}<br /><span class="hint">${each.why}</span></li>`,
        )}
      </ul>
    </details>
  </section>`;
}
