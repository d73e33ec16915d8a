/** The island: size, place, shape of its top, levels, overhang, hob, sink and seats. */

import { html, nothing, type TemplateResult } from "lit";
import { metresOf } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { choiceField, lengthField, numberField } from "../../components/fields.ts";
import { capital } from "../../components/words.ts";
import type { RawLength } from "../../edits/raw-study.ts";
import { topSize } from "../../edits/room-contents.ts";
import { shapeTop, sizeTop, type TopShape, topShape } from "../../edits/top-shape.ts";
import type { Json, Path } from "../../store/pointer.ts";
import { part } from "./part.ts";
import { strips } from "./strips.ts";
import { LEFT_WALL, NEAR_WALL } from "./walls.ts";

const FINISHES = ["matt", "satin", "polished"].map((value) => ({ value, words: value }));
const SIDES = [
  { value: "y-", words: "near side" },
  { value: "y+", words: "far side" },
  { value: "x-", words: "left end" },
  { value: "x+", words: "right end" },
];

export function islandPart(app: AppView): TemplateResult {
  if (app.study.island === undefined) {
    return part(
      "island",
      "Island",
      html`<button type="button" @click=${() => {
        const value = { length: 2.4, width: 1, height: 0.92 };
        app.edit({ name: "add an island", edits: [{ path: ["island"], value }] });
      }}>Add an island</button>`,
    );
  }
  const size = topSize(app.study);
  const top = (axis: 0 | 1, label: string): TemplateResult =>
    lengthField(app, {
      label,
      path: ["island", axis === 0 ? "length" : "width"],
      change: `island ${label.toLowerCase()}`,
      derived: size[axis],
      edits: (value) => sizeTop(app.study, axis, value as RawLength),
    });
  return part(
    "island",
    "Island",
    html`<div class="fields">
        ${top(0, "Length")} ${top(1, "Width")}
        ${lengthField(app, { label: "Height", path: ["island", "height"], change: "island height" })}
        ${choiceField(app, {
          label: "Finish of the top",
          path: ["island", "finish"],
          change: "top",
          choices: FINISHES,
          fallback: "matt",
        })}
      </div>
      ${strips(app)}
      <details>
        <summary>Place, shape, overhang, levels</summary>
        <div class="fields">
          ${lengthField(app, { label: `Middle, from ${LEFT_WALL}`, path: ["island", "centre", 0], change: "island from the left wall" })}
          ${lengthField(app, { label: `Middle, from ${NEAR_WALL}`, path: ["island", "centre", 1], change: "island from the near wall" })}
          ${numberField(app, {
            label: "Turned by",
            path: ["island", "turn"],
            change: "island turned by",
            from: -360,
            to: 360,
            unit: "°",
            fallback: 0,
            hint: "Counter-clockwise on the plan.",
          })}
          ${shapeField(app)} ${overhangFields(app)}
        </div>
        ${corners(app)} ${levels(app)}
      </details>
      <details>
        <summary>Hob, sink, seats</summary>
        ${fitting(app, "hob", "hob", [0.6, 0.52])} ${fitting(app, "sink", "sink", [0.6, 0.4])} ${seatFields(app)}
      </details>`,
  );
}

function shapeField(app: AppView): TemplateResult {
  const now = topShape(app.study);
  const shapes: readonly (TopShape | "other")[] = [
    "rectangle",
    "L",
    "T",
    "U",
    ...(now === "other" ? (["other"] as const) : []),
  ];
  return html`<div class="field">
    <label for="field-island-shape">Shape of the top</label>
    <select id="field-island-shape" @change=${(event: Event) => {
      const shape = (event.target as HTMLSelectElement).value;
      if (shape !== "other") app.edit(shapeTop(app.study, shape as TopShape));
    }}>
      ${shapes.map((shape) => html`<option value=${shape} ?selected=${shape === now}>${shape === "other" ? "by its corners" : shape}</option>`)}
    </select>
  </div>`;
}

function overhangFields(app: AppView): TemplateResult {
  const overhang = app.study.island?.overhang;
  return html`${lengthField(app, {
    label: "Overhang",
    path: ["island", "overhang", "depth"],
    change: "overhang",
    derived: metresOf(overhang?.depth) ?? 0,
    edits: (depth) => [
      {
        path: ["island", "overhang"],
        value: metresOf(depth) === 0 ? undefined : { side: overhang?.side ?? "y-", depth: depth as Json },
      },
    ],
  })}
  ${
    overhang === undefined
      ? nothing
      : choiceField(app, {
          label: "Overhang on the",
          path: ["island", "overhang", "side"],
          change: "overhang on the",
          choices: SIDES,
          fallback: "y-",
        })
  }`;
}

function corners(app: AppView): TemplateResult | typeof nothing {
  const outline = app.study.island?.outline;
  if (outline === undefined) return nothing;
  return html`<p class="hint">Corners of the top, from its near left:</p>
    <div class="fields">
      ${outline.flatMap((_, index) =>
        (["along", "across"] as const).map((words, axis) =>
          lengthField(app, {
            label: `Corner ${index + 1}, ${words}`,
            path: ["island", "outline", index, axis],
            change: `corner ${index + 1} ${words}`,
          }),
        ),
      )}
    </div>`;
}

function levels(app: AppView): TemplateResult {
  const list = app.study.island?.levels ?? [];
  const field = (index: number, path: Path, label: string): TemplateResult =>
    lengthField(app, {
      label,
      path: ["island", "levels", index, ...path],
      change: `level ${index + 1} ${label.toLowerCase()}`,
    });
  return html`${list.map(
    (_, index) => html`<p class="hint">Level ${index + 1}</p>
      <div class="fields">
        ${field(index, ["height"], "Height above the floor")} ${field(index, ["from", 0], "From the left end")}
        ${field(index, ["from", 1], "From the near side")} ${field(index, ["size", 0], "Length")}
        ${field(index, ["size", 1], "Width")}
      </div>
      <p class="row-of-actions"><button type="button" @click=${() =>
        app.edit({
          name: `remove level ${index + 1}`,
          edits: [{ path: ["island", "levels", index], value: undefined }],
        })}>Remove level ${index + 1}</button></p>`,
  )}
  <p class="row-of-actions"><button type="button" @click=${() => {
    const [length, width] = topSize(app.study);
    const height = (app.light?.scene.island?.height ?? 0.92) + 0.15;
    const depth = Math.min(0.38, width / 2);
    const level = {
      height: round(height),
      from: [0, round(width - depth)],
      size: [round(length), round(depth)],
    };
    app.edit({
      name: "add a level",
      edits: [{ path: ["island", "levels"], value: [...list, level] as unknown as Json }],
    });
  }}>Add a raised level</button></p>`;
}

function fitting(
  app: AppView,
  key: "hob" | "sink",
  words: string,
  size: readonly [number, number],
): TemplateResult {
  const path: Path = ["island", key];
  if (app.study.island?.[key] === undefined) {
    return html`<p class="row-of-actions"><button type="button" @click=${() => {
      const [length, width] = topSize(app.study);
      const from = [
        round(length * (key === "hob" ? 0.75 : 0.25) - size[0] / 2),
        round((width - size[1]) / 2),
      ];
      app.edit({ name: `add a ${words}`, edits: [{ path, value: { from, size } }] });
    }}>Add a ${words}</button></p>`;
  }
  const field = (at: Path, label: string): TemplateResult =>
    lengthField(app, { label, path: [...path, ...at], change: `${words} ${label.toLowerCase()}` });
  return html`<div class="fields">
      ${field(["from", 0], `${capital(words)}, from the left end`)} ${field(["from", 1], `${capital(words)}, from the near side`)}
      ${field(["size", 0], `${capital(words)} length`)} ${field(["size", 1], `${capital(words)} width`)}
    </div>
    <p class="row-of-actions"><button type="button" @click=${() =>
      app.edit({
        name: `remove the ${words}`,
        edits: [{ path, value: undefined }],
      })}>Remove the ${words}</button></p>`;
}

function seatFields(app: AppView): TemplateResult {
  const seats = app.study.island?.seats;
  return html`<div class="fields">
    ${numberField(app, {
      label: "Seats",
      path: ["island", "seats", "count"],
      change: "seats",
      from: 0,
      to: 40,
      whole: true,
      derived: seats === undefined ? 0 : (seats.count ?? 1),
      edits: (count) => [
        {
          path: ["island", "seats"],
          value: count === 0 ? undefined : { side: "y+", ...seats, count: count as number },
        },
      ],
    })}
    ${
      seats === undefined
        ? nothing
        : choiceField(app, {
            label: "Seats on the",
            path: ["island", "seats", "side"],
            change: "seats on the",
            choices: SIDES,
            fallback: "y+",
          })
    }
  </div>`;
}

function round(metres: number): number {
  return Math.round(metres * 1000) / 1000;
}
