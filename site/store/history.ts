/**
 * The study document as the single truth, and the named changes that led to it.
 *
 * Documents share what did not change, so a history of whole documents costs little and every inverse is exact:
 * undoing restores the very document that was there.
 */

import { type Json, type Path, read, write } from "./pointer.ts";

export interface Change {
  /** Said in the undo list: `move pendant 2`, `clearance 33 in`. */
  readonly name: string;
  readonly before: Json;
  readonly after: Json;
  /** Changes of one hand movement are one change. */
  readonly gesture?: string;
}

export interface Edit {
  readonly path: Path;
  /** Undefined removes. */
  readonly value: Json | undefined;
}

/** Changes kept; older ones fall off the far end. */
const KEPT = 500;

export class StudyHistory extends EventTarget {
  #document: Json;
  #done: Change[] = [];
  #undone: Change[] = [];

  constructor(document: Json) {
    super();
    this.#document = document;
  }

  get document(): Json {
    return this.#document;
  }

  /** Oldest first. */
  get done(): readonly Change[] {
    return this.#done;
  }

  /** Next to redo last. */
  get undone(): readonly Change[] {
    return this.#undone;
  }

  read(path: Path): Json | undefined {
    return read(this.#document, path);
  }

  /** Makes several edits one named change. With `gesture`, joins the change of the same movement before it. */
  change(name: string, edits: readonly Edit[], gesture?: string): void {
    let after = this.#document;
    for (const edit of edits) {
      if (read(after, edit.path) !== edit.value) after = write(after, edit.path, edit.value);
    }
    if (after === this.#document) return;
    const last = this.#done.at(-1);
    if (gesture !== undefined && last?.gesture === gesture) {
      this.#done[this.#done.length - 1] = { ...last, name, after };
    } else {
      this.#push({ name, before: this.#document, after, gesture });
    }
    this.#undone = [];
    this.#become(after);
  }

  /** Takes back the movement the hand is still making, as if it had never begun. */
  abandon(gesture: string): void {
    const last = this.#done.at(-1);
    if (last?.gesture !== gesture) return;
    this.#done.pop();
    this.#become(last.before);
  }

  /** The name of what was undone, or undefined when there is nothing. */
  undo(): string | undefined {
    const change = this.#done.pop();
    if (change === undefined) return undefined;
    this.#undone.push(change);
    this.#become(change.before);
    return change.name;
  }

  redo(): string | undefined {
    const change = this.#undone.pop();
    if (change === undefined) return undefined;
    this.#done.push(change);
    this.#become(change.after);
    return change.name;
  }

  /** Puts another document in place, as a change that can be undone. */
  replace(name: string, document: Json): void {
    this.#push({ name, before: this.#document, after: document });
    this.#undone = [];
    this.#become(document);
  }

  /** Starts from a document kept earlier, with the changes that led to it. */
  restore(document: Json, done: readonly Change[] = [], undone: readonly Change[] = []): void {
    this.#done = done.slice(-KEPT);
    this.#undone = undone.slice(-KEPT);
    this.#become(document);
  }

  #push(change: Change): void {
    this.#done.push(change);
    if (this.#done.length > KEPT) this.#done.shift();
  }

  #become(document: Json): void {
    this.#document = document;
    this.dispatchEvent(new Event("change"));
  }
}
