/** The head of the page: title, changes, units, a light or a dark page. */

import { html, nothing, type TemplateResult } from "lit";
import { EXAMPLE_NOTE } from "../example-note.ts";
import type { PaperScale } from "../light/print-scale.ts";
import type { StudySession } from "../session.ts";
import type { typedValue } from "./typed-value.ts";

export interface HeaderState {
  readonly paper: PaperScale | undefined;
  readonly isDark: boolean;
  /** Loaded after the first light: until then nobody types a title. */
  readonly typedValue: typeof typedValue | undefined;
  showStudy(): void;
  startKitchen(): void;
  turnMode(): void;
}

export function header(session: StudySession, state: HeaderState): TemplateResult {
  const { done, undone } = session.history;
  return html`<header>
    <h1>Candlespan</h1>
    ${titleField(session, state)}
    ${
      session.study.note === EXAMPLE_NOTE
        ? html`<p class="example"><span>Worked example, not your kitchen.</span>
            <button type="button" class="primary" @click=${() => state.startKitchen()}>Start my own kitchen</button></p>`
        : nothing
    }
    ${state.paper?.words}
    <button type="button" @click=${() => state.showStudy()}>Study</button>
    <div class="tools" role="group" aria-label="Changes and units">
      <span class="undo"><button type="button" ?disabled=${done.length === 0} title=${done.at(-1)?.name ?? ""} @click=${() => session.undo()}>
        Undo${done.length === 0 ? nothing : html` <span class="what">${done.at(-1)?.name}</span>`}
      </button></span>
      <button type="button" ?disabled=${undone.length === 0} title=${undone.at(-1)?.name ?? ""} @click=${() => session.redo()}>Redo</button>
      <button type="button" class="more" popovertarget="units" aria-haspopup="true">Units…</button>
      <div id="units" class="over" popover>
        ${unitChoice(session, "length", "Lengths in", ["mm", "m", "ft-in"])}
        ${unitChoice(session, "illuminance", "Illuminance in", ["lx", "fc"])}
        <button type="button" @click=${() => state.turnMode()}>${state.isDark ? "Light page" : "Dark page"}</button>
      </div>
    </div>
  </header>`;
}

function titleField(session: StudySession, { typedValue }: HeaderState): TemplateResult {
  const title = session.study.title ?? "Untitled kitchen";
  return html`<label class="title"><span class="visually-hidden">Title of the study</span>
    <input
      type="text"
      autocomplete="off"
      .value=${typedValue?.(title) ?? title}
      @change=${(event: Event) => {
        const title = (event.target as HTMLInputElement).value.trim().slice(0, 200);
        session.edit({
          name: title === "" ? "no title" : `title ${title}`,
          edits: [{ path: ["title"], value: title === "" ? undefined : title }],
        });
      }}
    >
  </label>`;
}

function unitChoice(
  session: StudySession,
  key: "length" | "illuminance",
  words: string,
  units: readonly string[],
): TemplateResult {
  return html`<label><span class="visually-hidden">${words}</span>
    <select @change=${(event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      session.edit({ name: `show ${value}`, edits: [{ path: ["display", key], value }] });
    }}>
      ${units.map(
        (unit) => html`<option value=${unit} .selected=${unit === session.display[key]}>${unit}</option>`,
      )}
    </select>
  </label>`;
}
