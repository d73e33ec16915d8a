/**
 * Saves the study as it changes, and finds it again.
 *
 * Saving waits a moment so that a drag is one save. Until then each edit is in the browser's synchronous store where it fits, of a movement its first step
 * and its end, from which the next visit takes what the database has not got: a page may be put away or killed at any moment.
 */

import { isTypedIn } from "../components/typed-value.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import type { StudySession, StudyStorage } from "../session.ts";
import type { Json } from "../store/pointer.ts";
import { freshId } from "./fresh-id.ts";
import type { KeptStudy, KeptVersion, StudyDatabase } from "./study-database.ts";

const LAST = "candlespan-last";
const LATE = "candlespan-late";
const OPTION = "candlespan-option";
const PAUSE = 250;
/** After which a database that did not answer is asked again (ms). */
const ASK_AGAIN = 30_000;

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
  #id: string = freshId();
  #seen = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #dirty = false;
  /** When the last edit went into the synchronous store, and whether it did. */
  #lateAt = 0;
  #isLateKept = false;
  /** One save after the other: a second that does not know what the first has written would take it for another page's. */
  #saving: Promise<void> = Promise.resolve();
  /** What was said when the last save failed. */
  #unkept: string | undefined;
  /** The study before the last edit; the same in all steps of a drag. */
  #before: Json | undefined;

  constructor(session: StudySession) {
    this.#session = session;
    session.addEventListener("edit", () => this.#later());
    // A movement ends mostly where its last step was, without another edit.
    session.addEventListener("rest", () => {
      if (this.#dirty) this.#keepLate();
    });
    session.setStorage(this);
    // What was edited before this was loaded.
    if (session.history.done.length > 0) this.#later();
    const putAway = (): void => {
      if (document.visibilityState !== "hidden") return;
      this.#late();
      this.#rememberOption();
    };
    addEventListener("visibilitychange", putAway);
    addEventListener("pagehide", () => {
      commitTyped();
      this.#late();
      this.#rememberOption();
    });
    addEventListener("beforeunload", (event) => {
      if (this.#dirty && this.#unkept !== undefined && !this.#isLateKept) event.preventDefault();
    });
  }

  get id(): string {
    return this.#id;
  }

  /** Undefined where the browser keeps nothing, which is said; asked again the next time. */
  database(): Promise<StudyDatabase | undefined> {
    this.#database ??= import("./study-database.ts")
      .then(({ StudyDatabase }) => StudyDatabase.open())
      .catch((error) => {
        this.#database = undefined;
        this.#sayUnkept(error);
        return undefined;
      });
    return this.#database;
  }

  /** The study of the last visit, if it can be had. @param without settles where nobody waits for the database any longer */
  async earlier(without?: Promise<undefined>): Promise<KeptStudy | undefined> {
    const id = sessionStored("study") ?? stored(LAST);
    if (id === null) return undefined;
    const question = this.database().then((database) => database?.get(id));
    const answer = question.catch((error) => this.#sayUnkept(error));
    const kept = await (without === undefined ? answer : Promise.race([answer, without]));
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

  /** Index of the option of a study that was on screen last; 0 where that is not known. */
  shownOption(id: string): number {
    const [study, index] = (sessionStored("option") ?? stored(OPTION) ?? "").split(" ");
    return study === id ? Number(index) || 0 : 0;
  }

  /** Newest first; none where they cannot be had, which is said. */
  async versions(id: string): Promise<readonly KeptVersion[]> {
    return (await (await this.database())?.versions(id).catch((error) => this.#sayUnkept(error))) ?? [];
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
    this.#id = freshId();
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
    // A page that is killed loses the movement being made at most, but for its first step: what came before is in the synchronous store, and where
    // that is too small for it, the second edit takes the first along to the database.
    if (isAnother || !this.#session.isMoving) this.#keepLate();
    if (isBehind) void this.save();
    else this.#timer = setTimeout(() => void this.save(), PAUSE);
  }

  save(): Promise<void> {
    clearTimeout(this.#timer);
    this.#saving = this.#saving.then(() => this.#save());
    return this.#saving;
  }

  async #save(): Promise<void> {
    if (!this.#dirty) return;
    const database = await this.database();
    if (database === undefined) return;
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
      this.#sayKept();
    } catch (error) {
      this.#dirty = true;
      this.#sayUnkept(error);
    }
  }

  /** The first time above the sheet until it is dismissed or over, then in the line at the foot. */
  #sayUnkept(error: unknown): undefined {
    if (nameOf(error) === "TimeoutError") this.#askAgain();
    const words = `The study is not kept in this browser: ${whyNotKept(error)}.`;
    if (words === this.#unkept) this.#session.say(`${words} Save it to a file.`);
    else {
      const save = async (): Promise<void> =>
        (await import("./export-study.ts")).downloadStudy(this.#session.study);
      this.#session.screen.setRefusal({
        words,
        issues: [],
        heading: "Not kept",
        act: ["Save to a file", save],
      });
    }
    this.#unkept = words;
  }

  #askAgain(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(async () => {
      const database = await this.database();
      if (database === undefined) return;
      if (this.#dirty) await this.save();
      else this.#sayKept("This browser's storage answers again: Study lists what it keeps.");
    }, ASK_AGAIN);
  }

  #sayKept(words = "The study is kept in this browser again."): void {
    if (this.#unkept === undefined) return;
    const { screen } = this.#session;
    if (screen.refusal?.words === this.#unkept) screen.setRefusal(undefined);
    this.#unkept = undefined;
    this.#session.say(words);
  }

  #remember(): void {
    try {
      localStorage.setItem(LAST, this.#id);
      sessionStorage.setItem("study", this.#id);
    } catch {
      // A browser that keeps nothing was announced when the database did not open.
    }
  }

  #rememberOption(): void {
    try {
      const option = `${this.#id} ${this.#session.arrangement}`;
      localStorage.setItem(OPTION, option);
      sessionStorage.setItem("option", option);
    } catch {
      // As above: the next visit begins with the first option.
    }
  }

  #late(): void {
    if (!this.#dirty) return;
    this.#keepLate();
    void this.save();
  }

  #keepLate(): void {
    this.#isLateKept = false;
    // Later than what is kept, whatever the clock says.
    this.#lateAt = Math.max(Date.now(), this.#seen + 1, this.#lateAt + 1);
    try {
      const { document, done } = this.#session.history;
      const last = done.at(-1);
      const late: Late = {
        id: this.#id,
        at: this.#lateAt,
        change: last?.name ?? "opened",
        document,
        ...(this.#seen === 0 && last !== undefined ? { before: last.before } : {}),
      };
      localStorage.setItem(LATE, JSON.stringify(late));
      this.#isLateKept = true;
      this.#remember();
    } catch {
      // Too large for the synchronous store: the database save is still under way.
    }
  }
}

const nameOf = (error: unknown): string =>
  error instanceof Error || error instanceof DOMException ? error.name : "";

/** Why a browser's storage refused, in words. */
function whyNotKept(error: unknown): string {
  const name = nameOf(error);
  const reasons: Readonly<Record<string, string>> = {
    QuotaExceededError: "its storage is full",
    SecurityError: "it gives this page no storage, as in a private window",
    TimeoutError: "its storage does not answer",
    VersionError: "a newer version of this page keeps its studies; reload the page",
    InvalidStateError: "a newer version of this page has taken over its studies; reload the page",
  };
  if (name in reasons) return reasons[name];
  if (typeof indexedDB === "undefined") return reasons.SecurityError;
  const message = error instanceof Error ? error.message : String(error);
  if (/module/.test(message)) return "a part of this page could not be loaded; reload the page";
  return message.replace(/\.$/, "");
}

/** What stands typed in a field and was not yet entered is entered, as leaving the field would. */
function commitTyped(): void {
  const field = document.activeElement;
  if (field instanceof HTMLInputElement && isTypedIn(field))
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
