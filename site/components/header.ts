/** The head of the page: title, changes, units, day or evening. */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import { EXAMPLE_NOTE } from "../example-note.ts";
import type { PaperScale } from "../light/print-scale.ts";
import type { StudySession } from "../session.ts";
import { typedValue } from "./typed-value.ts";

export interface HeaderState {
  readonly paper: PaperScale | undefined;
  readonly isEvening: boolean;
  showStudy(): void;
  startKitchen(): void;
  turnMode(): void;
}

export function header(desk: StudySession, state: HeaderState): TemplateResult {
  const { done, undone } = desk.history;
  return html`<header>
    <h1>Candlespan</h1>
    ${titleField(desk)}
    ${
      desk.study.note === EXAMPLE_NOTE
        ? html`<p class="example"><span>Worked example, not your kitchen.</span>
            <button type="button" class="primary" @click=${() => state.startKitchen()}>Start my own kitchen</button></p>`
        : nothing
    }
    ${
      state.paper === undefined
        ? nothing
        : html`<p class="paper-scale">1 : ${state.paper.ratio} when printed at 100 %: the line is 100 mm long</p>
            <p class="paper-option">
              Option ${String.fromCharCode(65 + (desk.arrangement % 26))} ${desk.study.arrangements[desk.arrangement].name},
              ${new Date().toLocaleDateString("en-CA")}
            </p>`
    }
    <button type="button" @click=${() => state.showStudy()}>Study</button>
    <div class="tools" role="group" aria-label="Changes and units">
      <button type="button" ?disabled=${done.length === 0} title=${done.at(-1)?.name ?? ""} @click=${() => desk.undo()}>
        Undo${done.length === 0 ? nothing : html` <span class="what">${done.at(-1)?.name}</span>`}
      </button>
      <button type="button" ?disabled=${undone.length === 0} title=${undone.at(-1)?.name ?? ""} @click=${() => desk.redo()}>Redo</button>
      ${unitChoice(desk, "length", "Lengths in", ["mm", "m", "ft-in"])}
      ${unitChoice(desk, "illuminance", "Illuminance in", ["lx", "fc"])}
      <button type="button" @click=${() => state.turnMode()}>${state.isEvening ? "Day" : "Evening"}</button>
    </div>
  </header>`;
}

function titleField(desk: StudySession): TemplateResult {
  return html`<label class="title"><span class="visually-hidden">Title of the study</span>
    <input
      type="text"
      autocomplete="off"
      .value=${typedValue(desk.study.title ?? "Untitled kitchen")}
      @change=${(event: Event) => {
        const title = (event.target as HTMLInputElement).value.trim().slice(0, 200);
        desk.edit({
          name: title === "" ? "no title" : `title ${title}`,
          edits: [{ path: ["title"], value: title === "" ? undefined : title }],
        });
      }}
    >
  </label>`;
}

function unitChoice(
  desk: StudySession,
  key: "length" | "illuminance",
  words: string,
  units: readonly string[],
): TemplateResult {
  return html`<label><span class="visually-hidden">${words}</span>
    <select @change=${(event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      desk.edit({ name: `show ${value}`, edits: [{ path: ["display", key], value }] });
    }}>
      ${units.map(
        (unit) => html`<option value=${unit} .selected=${live(unit === desk.display[key])}>${unit}</option>`,
      )}
    </select>
  </label>`;
}
