/**
 * The session: one study with its changes, the option on screen, and the light asked for whenever either changes. It
 * draws, saves and reads nothing: it fires `change` when something on screen is another, `edit` when the study is,
 * `files` and `print` when somebody asks for them, `light-asked` with the number of the document.
 */

import { type Issue, readLength, type ReadLength } from "../src/app.ts";
import type { LuminaireMoveDetail } from "../src/elements.ts";
import { type FileReading, type LightAnswer, spawn } from "../src/workers/browser.ts";
import type { AppView, Display, Draft, EditOptions, Swap } from "./app-view.ts";
import { issueWordsAt } from "./components/issue-words.ts";
import { withUnit } from "./components/words.ts";
import type { DragEdit } from "./edits/drag-edit.ts";
import type * as LuminaireEdits from "./edits/luminaires.ts";
import type { LuminaireKey } from "./edits/luminaires.ts";
import type { NamedEdit } from "./edits/named-edit.ts";
import type { RawStudy } from "./edits/raw-study.ts";
import { Lighting, type LightState } from "./light/lighting.ts";
import { clearanceIn, evidenceIn } from "./light/scene-queries.ts";
import type { SecondaryResults } from "./light/secondary-results.ts";
import { filesIn } from "./storage/embedded.ts";
import { askForFiles, GivenFiles } from "./storage/given-files.ts";
import { type Change, StudyHistory } from "./store/history.ts";
import type { Json, Path } from "./store/pointer.ts";

/** Something given that was not taken, and why. */
export interface Refusal {
  readonly words: string;
  readonly issues: readonly Issue[];
}

/** Where studies are saved. */
export interface StudyStorage {
  /** Saves the study on screen; what comes next is another one. */
  begin(): Promise<void>;
}

/** How long a moving hand waits for its light before the rest is drawn without it (ms). */
const LATE = 50;

export class StudySession extends EventTarget implements AppView {
  readonly history = new StudyHistory(null);
  #becomeLit: () => void = () => {};
  /** Kept when the first light is on the plan, or when there can be none. */
  readonly lit = new Promise<void>((kept) => {
    this.#becomeLit = kept;
  });
  readonly lighting = new Lighting({ spawn, afterFirst: (go) => void this.lit.then(go) });
  readonly drafts = new Map<string, Draft>();
  arrangement = 0;
  selection: readonly LuminaireKey[] = [];
  lastSwap: Swap | undefined;
  readonly given = new GivenFiles();
  withPeople: boolean | undefined;
  /** What people take from the light, while it is asked to be shown. */
  showPeople = false;
  refusal: Refusal | undefined;
  /** The last line said. */
  line = "";

  /** What is asked beside the light; loaded after the first. */
  results: SecondaryResults | undefined;
  /** Loaded after the first light: nobody moves what is not yet drawn. */
  #edits: typeof LuminaireEdits | undefined;
  #hand: DragEdit | undefined;
  #storage: StudyStorage | undefined;
  #begun = false;
  #late: ReturnType<typeof setTimeout> | undefined;
  #embedded: RawStudy["embedded"];
  /** The study without its files, as the workers take it. */
  #document: Json = null;

  constructor() {
    super();
    this.history.addEventListener("change", () => this.#changed());
    this.lighting.addEventListener("light", () => this.redraw());
    this.lighting.addEventListener("state", () => this.redraw());
  }

  /** Asks for the first light. */
  begin(): void {
    this.#begun = true;
    this.#ask(false);
  }

  /** The first light is drawn, or there can be none. */
  drawn(): void {
    this.#becomeLit();
  }

  /** Brings what moving, swapping and asking need. */
  async bringTheRest(): Promise<void> {
    const [edits, { DragEdit }, { SecondaryResults }] = await Promise.all([
      import("./edits/luminaires.ts"),
      import("./edits/drag-edit.ts"),
      import("./light/secondary-results.ts"),
    ]);
    this.results = new SecondaryResults(this.lighting);
    this.results.addEventListener("state", () => this.redraw());
    this.results.setOption(this.#document, this.arrangement);
    this.#edits = edits;
    this.#hand = new DragEdit(this, () => this.#ask(false));
  }

  close(): void {
    this.#begun = false;
    this.lighting.close();
  }

  get study(): RawStudy {
    return this.history.document as unknown as RawStudy;
  }

  get display(): Display {
    const { length = "mm", illuminance = "lx" } = this.study.display ?? {};
    return { length, illuminance };
  }

  get light(): LightAnswer | undefined {
    return this.lighting.shown?.answer;
  }

  get lightState(): LightState {
    return this.lighting.state;
  }

  get readings(): readonly FileReading[] {
    return this.given.readings;
  }

  read(path: Path): Json | undefined {
    return this.history.read(path);
  }

  issueAt(path: Path): string | undefined {
    const { state } = this.lighting;
    return state.kind === "issues" ? issueWordsAt(state.issues, path) : undefined;
  }

  edit(edit: NamedEdit, options: EditOptions = {}): void {
    if (this.#hand === undefined) this.history.change(edit.name, edit.edits);
    else this.#hand.edit(edit, options);
  }

  /** Follows luminaires moved on the sheet. */
  move(detail: LuminaireMoveDetail): void {
    if (this.#edits !== undefined) this.#hand?.move(detail, this.#edits);
  }

  /** Removes luminaires of the option on screen. */
  remove(luminaires: readonly LuminaireKey[]): void {
    const { light } = this;
    if (this.#edits === undefined || light === undefined) return;
    this.edit(this.#edits.removeLuminaires(this.study, this.arrangement, light.scene, luminaires));
    this.select([]);
  }

  keepDraft(id: string, draft: Draft): void {
    this.drafts.set(id, draft);
    this.redraw();
  }

  dropDraft(id: string): void {
    this.drafts.delete(id);
    this.redraw();
  }

  readLength(text: string): ReadLength {
    return readLength(withUnit(text, this.display.length));
  }

  evidenceOf(luminaire: string): string | undefined {
    return evidenceIn(this.light?.scene, luminaire);
  }

  clearanceOf(layer: number): number | undefined {
    return clearanceIn(this.light?.scene, layer);
  }

  swap(layer: number, luminaire: string): void {
    const shown = this.lighting.shown;
    const before = this.study.arrangements[this.arrangement].layers[layer].luminaire;
    if (this.#edits === undefined) return;
    this.edit(this.#edits.swapLuminaire(this.study, this.arrangement, layer, luminaire));
    if (shown === undefined) return;
    const { assessment } = shown.answer;
    this.lastSwap = { arrangement: this.arrangement, layer, luminaire: before, assessment };
  }

  showArrangement(index: number, edit?: NamedEdit): void {
    this.arrangement = index;
    this.selection = [];
    if (edit !== undefined) this.edit(edit);
    else this.#ask(false);
    this.redraw();
  }

  standPeople(stand: boolean): void {
    this.withPeople = stand ? true : undefined;
    this.#ask(false);
    this.redraw();
  }

  /** Shows or hides the shadows of people and the images they see in the top. */
  turnPeople(show: boolean): void {
    this.showPeople = show;
    if (show) this.results?.need("people");
    else this.results?.release("people");
    this.redraw();
  }

  /** What people take from the light, if it is to be shown and is there. */
  get people() {
    const state = this.results?.people.state;
    return state?.status === "complete" ? state.value : undefined;
  }

  select(keys: readonly LuminaireKey[]): void {
    this.selection = keys;
    this.redraw();
  }

  say(line: string): void {
    this.line = line;
    this.redraw();
  }

  redraw(): void {
    this.dispatchEvent(new Event("change"));
  }

  openFile(): void {
    askForFiles((files) => this.takeFiles(files));
  }

  takeFiles(files: readonly File[]): void {
    this.dispatchEvent(new CustomEvent("files", { detail: files }));
  }

  printToScale(): void {
    this.dispatchEvent(new Event("print"));
  }

  /** From now on a study is saved before another takes its place. */
  setStorage(storage: StudyStorage): void {
    this.#storage = storage;
  }

  /** Puts another study in place, kept beside the one before, which is a change that can be undone. */
  async open(document: Json, name: string): Promise<void> {
    await this.#storage?.begin();
    this.#clear();
    this.history.replace(name, document);
  }

  /** Begins with a study, or goes on with one kept earlier and the changes that led to it. */
  resume(study: RawStudy, done?: readonly Change[], undone?: readonly Change[]): void {
    this.#clear();
    this.history.restore(study as unknown as Json, done, undone);
  }

  #clear(): void {
    this.arrangement = 0;
    this.selection = [];
    this.drafts.clear();
    this.given.clear();
    this.refusal = undefined;
  }

  /** Says that something given was not taken, and why, until it is dismissed. */
  refuse(words: string, issues: readonly Issue[]): void {
    this.refusal = { words, issues };
    this.say(words);
  }

  undo(): void {
    const name = this.history.undo();
    this.say(name === undefined ? "Nothing to undo." : `Undone: ${name}.`);
  }

  redo(): void {
    const name = this.history.redo();
    this.say(name === undefined ? "Nothing to redo." : `Done again: ${name}.`);
  }

  #changed(): void {
    this.lastSwap = undefined;
    const count = this.study.arrangements.length;
    if (this.arrangement >= count) this.arrangement = count - 1;
    this.selection = this.selection.filter(
      (key) => this.study.arrangements[this.arrangement].layers[key.layer],
    );
    if (!this.#begun) return;
    const isMoving = this.#hand?.isMoving === true;
    this.#ask(isMoving);
    this.dispatchEvent(new Event("edit"));
    // While the hand moves, what is drawn is drawn once, with its light.
    if (isMoving) this.#redrawIfLate();
    else this.redraw();
  }

  /** Redraws when the light takes so long that the hand would seem to hold nothing. */
  #redrawIfLate(): void {
    this.#late ??= setTimeout(() => {
      this.#late = undefined;
      if (this.lighting.isBehind) this.redraw();
    }, LATE);
  }

  #ask(moving: boolean): void {
    const { embedded, ...study } = this.study;
    if (embedded !== this.#embedded) {
      this.#embedded = embedded;
      this.lighting.give(filesIn(this.study));
    }
    this.#document = study as unknown as Json;
    const sequence = this.lighting.ask(this.#document, this.arrangement, moving, this.withPeople);
    this.results?.setOption(this.#document, this.arrangement);
    this.dispatchEvent(new CustomEvent("light-asked", { detail: { sequence } }));
  }
}
