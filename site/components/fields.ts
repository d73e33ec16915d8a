/**
 * Fields of the study: a label, a value in the units on screen, and beneath it what is wrong, if anything is.
 *
 * A text that cannot be read stays in its field with the reason and changes nothing. Escape puts back what the
 * study holds.
 */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import { formatIlluminanceValue, formatLength, readIlluminance, readLength } from "../../src/app.ts";
import type { FieldsView } from "../app-view.ts";
import { metresOf } from "../edits/raw-study.ts";
import type { Edit } from "../store/history.ts";
import { formatPointer, type Json, type Path } from "../store/pointer.ts";
import { typedValue } from "./typed-value.ts";
import { withUnit } from "./words.ts";

export interface FieldOptions {
  readonly label: string;
  readonly path: Path;
  /** Named in the undo list before the new value: `clearance` gives `clearance 850 mm`. */
  readonly change: string;
  /** Shown when the study says nothing. */
  readonly fallback?: number;
  readonly hint?: string;
  /** An emptied field removes the value, so that its default applies again. */
  readonly optional?: boolean;
  /** What a new value changes, where that is more than the value at the path. */
  edits?(value: Json | undefined): readonly Edit[];
}

/** A text read into a value, or what is wrong with it. */
type Read = { readonly value: Json | undefined; readonly words: string } | { readonly problem: string };

/** A length in any unit; a bare number is in the unit on screen (inches when that is feet and inches). */
export function lengthField(app: FieldsView, options: FieldOptions): TemplateResult {
  const unit = app.display.length;
  const metres = metresOf(app.read(options.path)) ?? options.fallback;
  const shown = metres === undefined ? "" : formatLength(metres, unit);
  return field(app, options, shown, (text) => {
    const whole = withUnit(text, unit);
    const read = readLength(whole);
    if (!read.ok) return { problem: `${read.problem}. Expected ${read.expected}.` };
    // Metric is kept as metres; inches and feet as they were written, to the fraction.
    const written = /["'”″′]|in|ft|foot|feet|inch/.test(whole) ? whole : Math.round(read.metres * 1e6) / 1e6;
    return { value: written, words: formatLength(read.metres, unit) };
  });
}

export function illuminanceField(app: FieldsView, options: FieldOptions): TemplateResult {
  const unit = app.display.illuminance;
  const lux = app.read(options.path) ?? options.fallback;
  const shown = typeof lux === "number" ? `${formatIlluminanceValue(lux, unit)} ${unit}` : String(lux ?? "");
  return field(app, options, shown, (text) => {
    const read = readIlluminance(/^[\d.,]+$/.test(text) ? `${text} ${unit}` : text);
    if (!read.ok) return { problem: `${read.problem}. Expected ${read.expected}.` };
    return {
      value: Math.round(read.lux * 100) / 100,
      words: `${formatIlluminanceValue(read.lux, unit)} ${unit}`,
    };
  });
}

export interface NumberOptions extends FieldOptions {
  readonly from: number;
  readonly to: number;
  readonly whole?: boolean;
  /** The study's value times this is what is shown, e.g. 100 for per cent. */
  readonly times?: number;
  readonly unit?: string;
}

export function numberField(app: FieldsView, options: NumberOptions): TemplateResult {
  const { from, to, whole = false, times = 1, unit = "" } = options;
  const value = app.read(options.path) ?? options.fallback;
  const say = (number: number): string => `${Math.round(number * times * 1000) / 1000}${unit}`;
  return field(app, options, typeof value === "number" ? say(value) : "", (text) => {
    const plain = (unit === "" ? text : text.replace(unit.trim(), "")).replace(",", ".").trim();
    const number = plain === "" ? Number.NaN : Number(plain) / times;
    const expected = `a${whole ? " whole" : ""} number from ${say(from)} to ${say(to)}`;
    if (!Number.isFinite(number) || number < from || number > to || (whole && !Number.isInteger(number))) {
      return { problem: `Expected ${expected}, found ${JSON.stringify(text)}.` };
    }
    return { value: number, words: say(number) };
  });
}

export interface TextOptions extends FieldOptions {
  /** Shown instead of what stands at the path. */
  readonly shown?: string;
  /** What is wrong with a text, if anything. */
  problem?(text: string): string | undefined;
}

export function textField(app: FieldsView, options: TextOptions): TemplateResult {
  return field(app, options, options.shown ?? String(app.read(options.path) ?? ""), (text) => {
    const problem =
      text === "" || text.length > 200 ? "Expected a name of 1 to 200 characters." : options.problem?.(text);
    return problem === undefined ? { value: text, words: text } : { problem };
  });
}

function field(
  app: FieldsView,
  options: FieldOptions,
  shown: string,
  read: (text: string) => Read,
): TemplateResult {
  const id = idOf(options.path);
  const draft = app.drafts.get(id);
  const problem = draft?.problem ?? app.issueAt(options.path);
  const hint = options.hint;
  const described = [problem === undefined ? "" : `${id}-problem`, hint === undefined ? "" : `${id}-hint`]
    .join(" ")
    .trim();

  const commit = (input: HTMLInputElement): void => {
    const text = input.value.trim();
    if (text === shown && draft === undefined) return;
    if (text === "" && options.optional === true) {
      app.dropDraft(id);
      app.edit({
        name: `${options.change} by default`,
        edits: options.edits?.(undefined) ?? [{ path: options.path, value: undefined }],
      });
      return;
    }
    const outcome = read(text);
    if ("problem" in outcome) {
      app.keepDraft(id, { text: input.value, problem: outcome.problem });
      return;
    }
    app.dropDraft(id);
    app.edit({
      name: `${options.change} ${outcome.words}`,
      edits: options.edits?.(outcome.value) ?? [{ path: options.path, value: outcome.value }],
    });
  };

  return html`<div class="field">
    <label for=${id}>${options.label}</label>
    <input
      id=${id}
      type="text"
      autocomplete="off"
      spellcheck="false"
      .value=${typedValue(draft?.text ?? shown)}
      aria-invalid=${problem === undefined ? nothing : "true"}
      aria-describedby=${described === "" ? nothing : described}
      @change=${(event: Event) => commit(event.target as HTMLInputElement)}
      @keydown=${(event: KeyboardEvent) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        (event.target as HTMLInputElement).value = shown;
        app.dropDraft(id);
      }}
    >
    ${hint === undefined ? nothing : html`<p class="hint" id="${id}-hint">${hint}</p>`}
    ${problem === undefined ? nothing : html`<p class="problem" id="${id}-problem">✕ ${problem}</p>`}
  </div>`;
}

export interface ChoiceOptions {
  readonly label: string;
  readonly path: Path;
  readonly change: string;
  readonly choices: readonly { readonly value: string; readonly words: string }[];
  readonly fallback: string;
  readonly optional?: boolean;
  /** What a new value changes, where that is more than the value at the path. */
  edits?(value: Json | undefined): readonly Edit[];
}

export function choiceField(app: FieldsView, options: ChoiceOptions): TemplateResult {
  const id = idOf(options.path);
  const value = String(app.read(options.path) ?? options.fallback);
  const problem = app.issueAt(options.path);
  return html`<div class="field">
    <label for=${id}>${options.label}</label>
    <select
      id=${id}
      aria-invalid=${problem === undefined ? nothing : "true"}
      aria-describedby=${problem === undefined ? nothing : `${id}-problem`}
      @change=${(event: Event) => {
        const chosen = (event.target as HTMLSelectElement).value;
        const words = options.choices.find((each) => each.value === chosen)?.words ?? chosen;
        const value = options.optional === true && chosen === options.fallback ? undefined : chosen;
        app.edit({
          name: `${options.change} ${words}`,
          edits: options.edits?.(value) ?? [{ path: options.path, value }],
        });
      }}
    >
      ${options.choices.map(
        (each) =>
          html`<option value=${each.value} .selected=${live(each.value === value)}>${each.words}</option>`,
      )}
    </select>
    ${problem === undefined ? nothing : html`<p class="problem" id="${id}-problem">✕ ${problem}</p>`}
  </div>`;
}

export interface SliderOptions {
  readonly label: string;
  readonly path: Path;
  readonly change: string;
  readonly fallback: number;
  /** In hundredths. */
  readonly from?: number;
  readonly to?: number;
  readonly hint?: string;
}

/** A share from 0 to 1 in per cent, by slider; the light follows while it moves. */
export function shareSlider(app: FieldsView, options: SliderOptions): TemplateResult {
  const id = idOf(options.path);
  const raw = app.read(options.path);
  const value = typeof raw === "number" ? raw : options.fallback;
  const change = (event: Event, moving: boolean): void => {
    const share = Number((event.target as HTMLInputElement).value) / 100;
    app.edit(
      {
        name: `${options.change} ${Math.round(share * 100)} %`,
        edits: [{ path: options.path, value: share }],
      },
      { hand: id, moving },
    );
  };
  return html`<div class="field slider">
    <label for=${id}>${options.label}</label>
    <output for=${id}>${Math.round(value * 100)} %</output>
    <input
      id=${id}
      type="range"
      min=${options.from ?? 0}
      max=${options.to ?? 100}
      step="1"
      aria-valuetext="${Math.round(value * 100)} per cent"
      .value=${live(String(Math.round(value * 100)))}
      @input=${(event: Event) => change(event, true)}
      @change=${(event: Event) => change(event, false)}
    >
    ${options.hint === undefined ? nothing : html`<p class="hint">${options.hint}</p>`}
  </div>`;
}

/** An id for a field, unique by what it edits. */
export function idOf(path: Path): string {
  return `field${formatPointer(path).replace(/[^a-zA-Z0-9]+/g, "-")}`;
}
