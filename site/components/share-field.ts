/**
 * A share from 0 to 1, by slider or typed: the light follows while the slider moves. A reflectance or a maintenance factor is written as the
 * trade writes it, 0.62; a dimmer in per cent. Either may be typed: "62 %" or "0.62".
 */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import type { FieldsView } from "../app-view.ts";
import type { Path } from "../store/pointer.ts";
import { idOf } from "./field-id.ts";
import { defaultMark, shownValue } from "./fields.ts";
import { typedValue } from "./typed-value.ts";

export interface ShareOptions {
  readonly label: string;
  readonly path: Path;
  readonly change: string;
  /** Where the study, resolved, says nothing of it. */
  readonly fallback?: number;
  readonly as: "ratio" | "per cent";
  /** In hundredths. */
  readonly from?: number;
  readonly to?: number;
  readonly hint?: string;
}

export function shareField(app: FieldsView, options: ShareOptions): TemplateResult {
  const { label, path, change, as, from = 0, to = 100, hint } = options;
  const id = idOf(path);
  const raw = shownValue(app, options);
  const value = typeof raw === "number" ? raw : options.fallback;
  const link = value === undefined ? "" : shareText(value, as);
  const draft = app.drafts.get(id);
  const problem = draft?.problem ?? app.issueAt(path);
  const set = (share: number, gesture?: string, moving = false): void =>
    app.edit(
      { name: `${change} ${shareText(share, as)}`, edits: [{ path, value: share }] },
      gesture === undefined ? {} : { gesture, moving },
    );
  const typed = (input: HTMLInputElement): void => {
    const share = readShare(input.value, as);
    if (share === undefined || share < from / 100 || share > to / 100) {
      const expected = `${shareText(from / 100, as)} to ${shareText(to / 100, as)}`;
      app.keepDraft(id, {
        text: input.value,
        problem: `Expected ${expected}, found "${input.value.trim()}".`,
      });
      return;
    }
    app.dropDraft(id);
    if (share !== raw) set(share);
  };
  const slide = (event: Event, moving: boolean): void => {
    app.dropDraft(id);
    set(Number((event.target as HTMLInputElement).value) / 100, id, moving);
  };
  return html`<div class="field slider">
    <label for=${id}>${label}</label>
    <input
      id=${id}
      class="share"
      type="text"
      autocomplete="off"
      .value=${typedValue(draft?.text ?? link)}
      aria-invalid=${problem === undefined ? nothing : "true"}
      @change=${(event: Event) => typed(event.target as HTMLInputElement)}
      @keydown=${(event: KeyboardEvent) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        (event.target as HTMLInputElement).value = link;
        app.dropDraft(id);
      }}
    >
    <input
      type="range"
      min=${from}
      max=${to}
      step="1"
      aria-label="${label}, by slider"
      aria-valuetext=${link}
      .value=${live(String(Math.round((value ?? 0) * 100)))}
      @input=${(event: Event) => slide(event, true)}
      @change=${(event: Event) => slide(event, false)}
    >
    ${hint === undefined ? nothing : html`<p class="hint">${hint}</p>`} ${defaultMark(app, options)}
    ${problem === undefined ? nothing : html`<p class="problem">✕ ${problem}</p>`}
  </div>`;
}

/** `0.62`, `0.625`, `62 %`. */
export function shareText(share: number, as: ShareOptions["as"]): string {
  if (as === "per cent") return `${Math.round(share * 1000) / 10} %`;
  const text = String(Math.round(share * 1e4) / 1e4);
  return text.includes(".") && text.length < 4
    ? text.padEnd(4, "0")
    : text.includes(".")
      ? text
      : `${text}.00`;
}

/** A share as typed; a number without a sign is a ratio up to 1, and per cent where that is the field's unit. */
export function readShare(text: string, as: ShareOptions["as"]): number | undefined {
  const match = /^\s*(\d+(?:[.,]\d+)?|[.,]\d+)\s*(%?)\s*$/.exec(text);
  if (match === null) return undefined;
  const number = Number(match[1].replace(",", "."));
  const isPerCent = match[2] === "%" || as === "per cent" || number > 1;
  return Math.round((isPerCent ? number / 100 : number) * 1e6) / 1e6;
}
