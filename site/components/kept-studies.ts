/** The studies this browser keeps, side by side: opened, named, duplicated, removed and put back. */

import { html, nothing, type TemplateResult } from "lit";
import type { StudySession } from "../session.ts";
import type { Autosave } from "../storage/autosave.ts";
import { isWhole } from "../storage/sound-study.ts";
import type { KeptStudy, RemovedStudy, StudyDatabase } from "../storage/study-database.ts";
import { typedValue } from "./typed-value.ts";

export class KeptStudies {
  readonly #session: StudySession;
  readonly #database: StudyDatabase;
  readonly #autosave: Autosave;
  readonly #close: () => void;
  #kept: readonly KeptStudy[] = [];
  /** Removed while the dialog was open, newest last. */
  #removed: readonly RemovedStudy[] = [];

  constructor(session: StudySession, database: StudyDatabase, autosave: Autosave, close: () => void) {
    this.#session = session;
    this.#database = database;
    this.#autosave = autosave;
    this.#close = close;
  }

  async list(): Promise<void> {
    this.#kept = await this.#database.list();
    this.#session.redraw();
  }

  render(): TemplateResult {
    const removed = this.#removed.at(-1);
    return html`<section aria-labelledby="kept-heading">
      <h3 id="kept-heading">Studies kept in this browser</h3>
      <ul class="plain kept">${this.#kept.map((kept) => this.#item(kept))}</ul>
      ${
        removed === undefined
          ? nothing
          : html`<p class="row-of-actions" role="status">
              Removed ${removed.study.title}.
              <button type="button" @click=${() => this.#putBack(removed)}>Undo the removal</button>
            </p>`
      }
    </section>`;
  }

  #item(kept: KeptStudy): TemplateResult {
    const isOnScreen = kept.id === this.#autosave.id;
    const options = (kept.document as { arrangements?: unknown } | null)?.arrangements;
    const count = Array.isArray(options) ? options.length : 0;
    const facts = [
      isOnScreen ? "on screen" : when(kept.saved),
      ...(isWhole(kept.document) ? [] : ["damaged"]),
      `${count} ${count === 1 ? "option" : "options"}`,
      `${kept.done.length} ${kept.done.length === 1 ? "change" : "changes"} to undo`,
    ];
    return html`<li>
      <label><span class="visually-hidden">Title of ${kept.title}</span>
        <input type="text" autocomplete="off" .value=${typedValue(kept.title)} @change=${(event: Event) =>
          this.#rename(kept, (event.target as HTMLInputElement).value.trim().slice(0, 200))}>
      </label>
      <p class="hint">${facts.join(", ")}</p>
      <p class="row-of-actions">
        <button type="button" ?disabled=${isOnScreen || !isWhole(kept.document)} aria-label="Open ${kept.title}, ${when(kept.saved)}" @click=${() => {
          this.#close();
          this.#autosave.resume(kept);
        }}>Open</button>
        <button type="button" aria-label="Duplicate ${kept.title}" @click=${async () => {
          await this.#database.duplicate(kept.id);
          await this.list();
        }}>Duplicate</button>
        <button type="button" ?disabled=${isOnScreen} aria-label="Remove ${kept.title}, ${when(kept.saved)}" @click=${() => this.#remove(kept)}>Remove</button>
      </p>
    </li>`;
  }

  async #rename(kept: KeptStudy, title: string): Promise<void> {
    if (title === "" || title === kept.title) return this.list();
    if (kept.id === this.#autosave.id) {
      this.#session.edit({ name: `title ${title}`, edits: [{ path: ["title"], value: title }] });
      await this.#autosave.save();
    } else await this.#database.rename(kept.id, title);
    await this.list();
  }

  async #remove(kept: KeptStudy): Promise<void> {
    const removed = await this.#database.remove(kept.id);
    if (removed !== undefined) this.#removed = [...this.#removed, removed];
    await this.list();
  }

  async #putBack(removed: RemovedStudy): Promise<void> {
    await this.#database.putBack(removed);
    this.#removed = this.#removed.filter((each) => each !== removed);
    await this.list();
  }
}

export function when(time: number): string {
  return new Date(time).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}
