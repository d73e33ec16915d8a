/**
 * Saves the study as it changes, and finds it again.
 *
 * Saving waits a moment so that a drag is one save. Until then each edit is in the browser's synchronous store, from which the next visit takes
 * what the database has not got: a page may be put away or killed at any moment.
 */

import type { RawStudy } from "../edits/raw-study.ts";
import type { StudySession, StudyStorage } from "../session.ts";
import type { Json } from "../store/pointer.ts";
import type { KeptStudy, StudyDatabase } from "./study-database.ts";

const LAST = "candlespan-last";
const LATE = "candlespan-late";
const PAUSE = 250;

interface Late {
  readonly id: string;
  readonly at: number;
  readonly change: string;
  readonly document: Json;
  /** Before the change, where the study had never been saved. */
  readonly before?: Json;
}

export class Autosave implements StudyStorage {
  readonly #session: StudySession;
  #database: Promise<StudyDatabase | undefined> | undefined;
  #id: string = crypto.randomUUID();
  #seen = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #dirty = false;
  /** The study before the last edit; the same in all steps of a drag. */
  #before: Json | undefined;

  constructor(session: StudySession) {
    this.#session = session;
    session.addEventListener("edit", () => this.#later());
    session.setStorage(this);
    const putAway = (): void => {
      if (document.visibilityState === "hidden") this.#late();
    };
    addEventListener("visibilitychange", putAway);
    addEventListener("pagehide", () => {
      commitTyped();
      this.#late();
    });
  }

  get id(): string {
    return this.#id;
  }

  database(): Promise<StudyDatabase | undefined> {
    this.#database ??= import("./study-database.ts")
      .then(({ StudyDatabase }) => StudyDatabase.open())
      .catch(() => {
        this.#session.say(
          "This browser keeps nothing for this page, or a newer version of it does: save the study to a file.",
        );
        return undefined;
      });
    return this.#database;
  }

  /** The study of the last visit, if it can be had. */
  async earlier(): Promise<KeptStudy | undefined> {
    const id = sessionStored("study") ?? stored(LAST);
    if (id === null) return undefined;
    const kept = await (await this.database())?.get(id);
    const late = takeLate(id);
    if (late === undefined || (kept !== undefined && kept.saved >= late.at)) return kept;
    const { change: name, document: after } = late;
    const title = (after as unknown as RawStudy).title ?? "Untitled kitchen";
    if (kept === undefined) {
      const { before } = late;
      const done = before === undefined ? [] : [{ name, before, after }];
      return { id, title, saved: 0, writer: "", document: after, done, undone: [] };
    }
    const done = [...kept.done, { name, before: kept.document, after }];
    return { ...kept, title, document: after, done, undone: [] };
  }

  /** Goes on with a kept study. */
  resume(kept: KeptStudy): void {
    this.#id = kept.id;
    this.#seen = kept.saved;
    this.#remember();
    this.#session.resume(kept.document as unknown as RawStudy, kept.done, kept.undone);
  }

  /** Keeps the study on screen as it is; what comes next is another one. */
  async begin(): Promise<void> {
    await this.save();
    this.#id = crypto.randomUUID();
    this.#seen = 0;
    this.#dirty = true;
  }

  #later(): void {
    const before = this.#session.history.done.at(-1)?.before;
    const isAnother = before !== this.#before;
    const isBehind = this.#dirty && isAnother;
    this.#before = before;
    this.#dirty = true;
    clearTimeout(this.#timer);
    // A page that is killed loses the last edit at most: each is in the synchronous store before the next, and where that is too small for it,
    // the second takes the first along to the database.
    if (isAnother) this.#keepLate();
    if (isBehind) void this.save();
    else this.#timer = setTimeout(() => void this.save(), PAUSE);
  }

  async save(): Promise<void> {
    clearTimeout(this.#timer);
    const database = await this.database();
    if (database === undefined || !this.#dirty) return;
    this.#dirty = false;
    const { history, study } = this.#session;
    const { done, undone, document } = history;
    const title = study.title ?? "Untitled kitchen";
    try {
      const { id, saved } = await database.save(
        { id: this.#id, title, document, done, undone },
        done.at(-1)?.name ?? "opened",
        this.#seen,
      );
      if (id !== this.#id)
        this.#session.say("Another page saved this study meanwhile: this one is kept beside it.");
      this.#id = id;
      this.#seen = saved;
      this.#remember();
    } catch (error) {
      this.#dirty = true;
      const why = error instanceof Error ? error.message : String(error);
      this.#session.say(`The study could not be kept in this browser (${why}). Save it to a file.`);
    }
  }

  #remember(): void {
    try {
      localStorage.setItem(LAST, this.#id);
      sessionStorage.setItem("study", this.#id);
    } catch {
      // A browser that keeps nothing was announced when the database did not open.
    }
  }

  #late(): void {
    if (!this.#dirty) return;
    this.#keepLate();
    void this.save();
  }

  #keepLate(): void {
    try {
      const { document, done } = this.#session.history;
      const last = done.at(-1);
      const late: Late = {
        id: this.#id,
        at: Date.now(),
        change: last?.name ?? "opened",
        document,
        ...(this.#seen === 0 && last !== undefined ? { before: last.before } : {}),
      };
      localStorage.setItem(LATE, JSON.stringify(late));
      this.#remember();
    } catch {
      // Too large for the synchronous store: the database save is still under way.
    }
  }
}

/** What stands typed in a field and was not yet entered is entered, as leaving the field would. */
function commitTyped(): void {
  const field = document.activeElement;
  if (field instanceof HTMLInputElement && field.type === "text")
    field.dispatchEvent(new Event("change", { bubbles: true }));
}

function takeLate(id: string): Late | undefined {
  const text = stored(LATE);
  if (text === null) return undefined;
  try {
    const late = JSON.parse(text) as Late;
    if (late.id !== id) return undefined;
    return late;
  } catch {
    return undefined;
  }
}

function stored(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function sessionStored(key: string): string | null {
  try {
    return sessionStorage.getItem(key);
  } catch {
    return null;
  }
}
