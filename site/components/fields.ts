/**
 * Fields of the study: a label, a value in the units on screen, and beneath it what is wrong, if anything is.
 *
 * A text that cannot be read stays in its field with the reason and changes nothing. Escape puts back what the
 * study holds.
 */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import {
  formatIlluminanceValue,
  formatLength,
  metresOf,
  readIlluminance,
  readTypedLength,
} from "../../src/app.ts";
import type { Display, FieldsView } from "../app-view.ts";
import { type DefaultValue, editsAt } from "../edits/defaults.ts";
import type { Edit } from "../store/history.ts";
import { holdVisit } from "../store/hold-visit.ts";
import type { Json, Path } from "../store/pointer.ts";
import type { Draft } from "../store/screen-store.ts";
import { idOf } from "./field-id.ts";
import { typedValue } from "./typed-value.ts";
import { usualLengths } from "./usual-lengths.ts";

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
  /** One mark for several fields says that they are a default. */
  readonly isMarkedApart?: boolean;
  /** A number that is not at the path itself but follows from the study; with `edits`. */
  readonly derived?: number;
  /** What a new value changes, where that is more than the value at the path. */
  edits?(value: Json | undefined): readonly Edit[];
}

/** What a field shows: the study's own value, else its default, else what the field falls back to. */
export function shownValue(app: FieldsView, { path, derived, fallback }: FieldOptions): unknown {
  return derived ?? app.read(path) ?? app.defaultAt(path)?.value ?? fallback;
}

/** Why a default stands, on a page that shows it in its own units: practice without a source may be told in others. */
export function defaultWords(why: string): string {
  return why.endsWith("not given; common practice, no source")
    ? "Not set: usual in practice, no published source."
    : `Default: ${why}.`;
}

/** Marks a value that is a default, with why, and sets it by one click. */
export function defaultMark(
  app: FieldsView,
  {
    path,
    label,
    change,
    derived,
    what = "",
  }: Pick<FieldOptions, "path" | "label" | "change" | "derived"> & {
    /** What is set at once, where it is more than one field. */
    readonly what?: string;
  },
): TemplateResult | typeof nothing {
  const standard = derived === undefined ? app.defaultAt(path) : undefined;
  if (standard === undefined) return nothing;
  return html`<p class="hint default" id="${idOf(path)}-default">
    ${defaultWords(standard.why)}
    ${takeDefault(app, standard, change, what, `Set ${label.toLowerCase()} as it is`)}
  </p>`;
}

/** Makes a default the study's own by one click. */
export function takeDefault(
  app: Pick<FieldsView, "edit">,
  standard: DefaultValue,
  change: string,
  what: string,
  label?: string,
): TemplateResult {
  return html`<button type="button" class="text" aria-label=${label ?? nothing} @click=${() =>
    app.edit({ name: `set ${change}`, edits: [standard.edit] })}>Set ${what}</button>`;
}

function editsOf(app: FieldsView, { path, edits }: FieldOptions, value: Json | undefined): readonly Edit[] {
  return edits?.(value) ?? editsAt(app.defaultAt(path), path, value);
}

/**
 * Marks what the papers wait for, and what they hold for what it says, while who came from what is on hold is here.
 *
 * @param isStated what is stated counts before its answer is there
 * @param more after what is needed
 */
export function askedMark(
  app: FieldsView,
  path: Path,
  isStated = app.read(path) !== undefined,
  more = "",
): TemplateResult | typeof nothing {
  const visit = holdVisit(app);
  if (visit?.isAsked(path) !== true) return nothing;
  const wrong = visit.wrongWith(path);
  const unless = visit.isUnlessSwitched(path) ? ", unless a switch is enough" : more;
  const words =
    wrong !== undefined
      ? `○ On HOLD: ${wrong}`
      : isStated
        ? "✓ Stated."
        : visit.isOpen(path)
          ? `○ Needed for the sheet${unless}.`
          : "– Not needed any more.";
  return html`<p class="hint asked" id="${idOf(path)}-asked">${words}</p>`;
}

/** A text read into a value, or what is wrong with it. */
type Read = Reading | { readonly problem: string };

interface Reading {
  readonly value: Json | undefined;
  readonly words: string;
  /** What was read, where it was not in the unit on screen, and what it could mean instead. */
  readonly taken?: string;
  readonly otherwise?: Reading;
}

/** A length in any unit; a bare number is in the unit on screen unless that is absurd, which is said. */
export function lengthField(app: FieldsView, options: FieldOptions): TemplateResult {
  const unit = app.display.length;
  const metres = metresOf(shownValue(app, options)) ?? options.fallback;
  const lengthText = metres === undefined ? "" : formatLength(metres, unit);
  return field(app, options, lengthText, (text) => {
    const read = readTypedLength(text, unit, metres, usualLengths(app.study, options.path));
    if (!read.ok) return { problem: `${read.problem}. Expected ${read.expected}.` };
    const { otherwise, isInOtherUnit } = read;
    return {
      ...lengthReading(read, unit),
      ...(isInOtherUnit ? { taken: read.text } : {}),
      ...(otherwise ? { otherwise: { ...lengthReading(otherwise, unit), words: otherwise.text } } : {}),
    };
  });
}

/** Metric is kept as metres; inches and feet as they were written, to the fraction. */
function lengthReading(
  { metres, text }: { readonly metres: number; readonly text: string },
  unit: Display["length"],
): Reading {
  const written = /["'”″′]|in|ft|foot|feet|inch/.test(text) ? text : Math.round(metres * 1e6) / 1e6;
  return { value: written, words: formatLength(metres, unit) };
}

export function illuminanceField(app: FieldsView, options: FieldOptions): TemplateResult {
  const unit = app.display.illuminance;
  const lux = shownValue(app, options);
  const luxText =
    typeof lux === "number" ? `${formatIlluminanceValue(lux, unit)} ${unit}` : String(lux ?? "");
  return field(app, options, luxText, (text) => {
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
  const value = shownValue(app, options);
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
  return field(app, options, options.shown ?? String(shownValue(app, options) ?? ""), (text) => {
    const problem =
      text === "" || text.length > 200 ? "Expected a name of 1 to 200 characters." : options.problem?.(text);
    return problem === undefined ? { value: text, words: text } : { problem };
  });
}

function field(
  app: FieldsView,
  options: FieldOptions,
  content: string,
  read: (text: string) => Read,
): TemplateResult {
  const id = idOf(options.path);
  const draft = app.drafts.get(id);
  const problem = draft?.problem ?? app.issueAt(options.path);
  const hint = options.hint;
  const mark = options.isMarkedApart === true ? nothing : defaultMark(app, options);
  const asked = askedMark(app, options.path);
  const described = [
    problem === undefined ? "" : `${id}-problem`,
    asked === nothing ? "" : `${id}-asked`,
    hint === undefined ? "" : `${id}-hint`,
    mark === nothing ? "" : `${id}-default`,
  ]
    .join(" ")
    .trim();

  const commit = (input: HTMLInputElement): void => {
    const text = input.value.trim();
    if (text === content && draft === undefined) return;
    if (text === "" && options.optional === true) {
      app.dropDraft(id);
      app.edit({
        name: `${options.change} by default`,
        edits: editsOf(app, options, undefined),
      });
      return;
    }
    const outcome = read(text);
    if ("problem" in outcome) {
      app.keepDraft(id, { text: input.value, problem: outcome.problem });
      return;
    }
    const take = ({ value, words }: Reading): void => {
      app.dropDraft(id);
      app.edit({ name: `${options.change} ${words}`, edits: editsOf(app, options, value) });
    };
    take(outcome);
    const { words, taken, otherwise } = outcome;
    if (taken !== undefined)
      app.keepDraft(id, {
        remark: {
          shown: words,
          words: `Read as ${taken}.`,
          ...(otherwise ? { instead: { words: otherwise.words, take: () => take(otherwise) } } : {}),
        },
      });
  };

  return html`<div class="field">
    <label for=${id}>${options.label}</label>
    <input
      id=${id}
      type="text"
      autocomplete="off"
      spellcheck="false"
      .value=${typedValue(draft?.text ?? content)}
      aria-invalid=${problem === undefined ? nothing : "true"}
      aria-describedby=${described === "" ? nothing : described}
      @change=${(event: Event) => commit(event.target as HTMLInputElement)}
      @keydown=${(event: KeyboardEvent) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        (event.target as HTMLInputElement).value = content;
        app.dropDraft(id);
      }}
    >
    ${asked}
    ${hint === undefined ? nothing : html`<p class="hint" id="${id}-hint">${hint}</p>`} ${mark}
    ${problem === undefined ? nothing : html`<p class="problem" id="${id}-problem">✕ ${problem}</p>`}
    ${remarkPart(draft, content)}
  </div>`;
}

/** How a bare number was read, with the other reading, while the field shows it. */
export function remarkPart(draft: Draft | undefined, shown: string): TemplateResult | typeof nothing {
  const { remark } = draft ?? {};
  if (remark === undefined || remark.shown !== shown) return nothing;
  const { words, instead } = remark;
  const offer =
    instead === undefined
      ? nothing
      : html`<button type="button" class="text" @click=${() => instead.take()}>Make it ${instead.words}</button>`;
  return html`<p class="hint remark" role="status">${words} ${offer}</p>`;
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
  const value = String(app.read(options.path) ?? app.defaultAt(options.path)?.value ?? options.fallback);
  const problem = app.issueAt(options.path);
  const asked = askedMark(app, options.path);
  const described =
    `${problem === undefined ? "" : `${id}-problem`} ${asked === nothing ? "" : `${id}-asked`}`.trim();
  return html`<div class="field">
    <label for=${id}>${options.label}</label>
    <select
      id=${id}
      aria-invalid=${problem === undefined ? nothing : "true"}
      aria-describedby=${described === "" ? nothing : described}
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
    ${asked} ${defaultMark(app, options)}
    ${problem === undefined ? nothing : html`<p class="problem" id="${id}-problem">✕ ${problem}</p>`}
  </div>`;
}
