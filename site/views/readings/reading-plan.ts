/** The top with its grid of places: a place is tapped, the number typed, and the difference stands there at once. */

import { html, nothing, svg, type TemplateResult } from "lit";
import { keyed } from "lit/directives/keyed.js";
import { formatIlluminanceValue, readIlluminance } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { typedValue } from "../../components/typed-value.ts";
import { lengthText, lightText } from "../../components/words.ts";
import {
  type LightAge,
  predictedAt,
  type ReadingPlan,
  type ReadingPoint,
} from "../../light/reading-points.ts";

/** Of a place (mm): as wide as a fingertip on a phone; and the room left for it beyond the edge. */
const RADIUS = 165;
const PAD = 80;

export interface ReadingPlanOptions {
  readonly plan: ReadingPlan;
  readonly age: LightAge;
  readonly lit: string;
  /** Number of the place that is tapped. */
  readonly chosen: number;
  /** 95 % band of meter and repetition, relative; undefined where only ratios count. */
  readonly band: number | undefined;
  /** What was read at each place (lx). */
  readonly read: readonly (number | undefined)[];
  choose(index: number): void;
  take(index: number, lux: number | undefined): void;
}

export function readingPlanPart(app: AppView, options: ReadingPlanOptions): TemplateResult {
  const { plan, chosen } = options;
  const point = plan.points[chosen];
  return html`<div class="reading-plan">
    ${drawing(app, options)} ${point === undefined ? nothing : entry(app, options, point)}
  </div>`;
}

/** Millimetres are the drawing's unit; across grows upwards, as on the sheet. */
function drawing(
  app: AppView,
  { plan, read, chosen, choose, band, ...rest }: ReadingPlanOptions,
): TemplateResult {
  const [length, width] = [plan.length * 1000, plan.width * 1000];
  const light = app.light as NonNullable<AppView["light"]>;
  const unit = app.display.illuminance;
  const place = ({ along, across }: ReadingPoint) => [along * 1000, width - across * 1000] as const;
  return html`<svg viewBox="${-PAD} ${-PAD} ${length + 2 * PAD} ${width + 2 * PAD}" role="group" aria-label="Places on the top">
    <rect class="top" width=${length} height=${width}></rect>
    ${plan.points.map((point, i) => {
      const [x, y] = place(point);
      const predicted = predictedAt(light, plan.plane, point.index, rest.lit, rest.age);
      const lux = read[i];
      const state = lux === undefined ? "open" : isFar(lux, predicted, band) ? "far" : "near";
      const words = `${lengthText(app, point.along)} along, ${lengthText(app, point.across)} across`;
      const choosing = {
        press: () => choose(i),
        key: (event: KeyboardEvent) => {
          if (event.key !== "Enter" && event.key !== " ") return;
          event.preventDefault();
          choose(i);
        },
      };
      return svg`<g
        class="place ${state}"
        role="button"
        tabindex=${i === chosen ? 0 : -1}
        aria-pressed=${i === chosen ? "true" : "false"}
        aria-label="${words}: ${lux === undefined ? "not read" : lightText(app, lux)}, predicted ${lightText(app, predicted)}"
        @click=${choosing.press}
        @keydown=${choosing.key}
      >
        <circle cx=${x} cy=${y} r=${RADIUS}></circle>
        <text x=${x} y=${y + 28} text-anchor="middle">${formatIlluminanceValue(lux ?? predicted, unit)}</text>
      </g>`;
    })}
  </svg>`;
}

/** Whether a reading lies outside what the meter alone may be off. */
function isFar(lux: number, predicted: number, band: number | undefined): boolean {
  return band !== undefined && Math.abs(lux - predicted) > band * predicted;
}

function entry(app: AppView, options: ReadingPlanOptions, point: ReadingPoint): TemplateResult {
  const { chosen, plan, lit, age, read, take, choose } = options;
  const light = app.light as NonNullable<AppView["light"]>;
  const predicted = predictedAt(light, plan.plane, point.index, lit, age);
  const lux = read[chosen];
  const unit = app.display.illuminance;
  const id = `reading-${chosen}`;
  const draft = app.drafts.get(id);
  const commit = (input: HTMLInputElement): boolean => {
    const text = input.value.trim();
    if (text === "") {
      app.dropDraft(id);
      take(chosen, undefined);
      return true;
    }
    const typed = readIlluminance(/^[\d.,]+$/.test(text) ? `${text} ${unit}` : text);
    if (!typed.ok) {
      app.keepDraft(id, { text: input.value, problem: `${typed.problem}. Expected ${typed.expected}.` });
      return false;
    }
    app.dropDraft(id);
    take(chosen, typed.lux);
    return true;
  };
  return html`<div class="field reading-entry">
    <label for=${id}>
      ${lengthText(app, point.along)} along, ${lengthText(app, point.across)} across (${unit})
    </label>
    <div class="row-of-actions">
      ${keyed(
        chosen,
        html`<input
        id=${id}
        type="text"
        inputmode="decimal"
        enterkeyhint="next"
        autocomplete="off"
        size="7"
        .value=${typedValue(draft?.text ?? (lux === undefined ? "" : formatIlluminanceValue(lux, unit)))}
        aria-invalid=${draft === undefined ? nothing : "true"}
        @change=${(event: Event) => commit(event.target as HTMLInputElement)}
        @keydown=${(event: KeyboardEvent) => {
          if (event.key !== "Enter" || !commit(event.target as HTMLInputElement)) return;
          event.preventDefault();
          choose(next(read, chosen));
        }}
      >`,
      )}
      <output for=${id}>predicted ${lightText(app, predicted)}${lux === undefined ? "" : `, ${difference(lux, predicted)}`}</output>
    </div>
    ${draft === undefined ? nothing : html`<p class="problem">✕ ${draft.problem}</p>`}
  </div>`;
}

/** The next place that has not been read; the one after where all have. */
function next(read: readonly (number | undefined)[], chosen: number): number {
  const order = read.map((_, i) => (chosen + 1 + i) % read.length);
  return order.find((i) => i !== chosen && read[i] === undefined) ?? order[0];
}

/** Of figures as they are shown: what is typed from the sheet agrees with it. */
function difference(lux: number, predicted: number): string {
  if (Math.round(lux) === Math.round(predicted)) return "the same";
  if (!(predicted > 0)) return "nothing was predicted";
  const share = Math.round((100 * (lux - predicted)) / predicted);
  return `${share < 0 ? "−" : "+"}${Math.abs(share)} %`;
}
