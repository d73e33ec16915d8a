/**
 * The session: a study with its history, its light and what is on screen, each a store that says when it is another,
 * and what links them: light is asked for whenever the study or the option is another. It draws, saves and reads nothing: it fires `change` when something on screen is another, `edit` when the study is,
 * `rest` when a movement ends with nothing more to change,
 * `files` and `print` when somebody asks for them, `light-asked` with the number of the document.
 */

import type { Issue } from "../src/app.ts";
import type { ItemMoveDetail, LuminaireMoveDetail } from "../src/elements.ts";
import type { LightAnswer } from "../src/workers/browser.ts";
import type { AppView, Display, EditOptions, Swap } from "./app-view.ts";
import type * as IssueWords from "./components/issue-words.ts";
import type { DefaultValue, defaultAt } from "./edits/defaults.ts";
import type { DragEdit, ItemEditOf } from "./edits/drag-edit.ts";
import type * as LuminaireEdits from "./edits/luminaires.ts";
import type { LuminaireKey } from "./edits/luminaires.ts";
import type { NamedEdit } from "./edits/named-edit.ts";
import type { RawStudy } from "./edits/raw-study.ts";
import type { Lighting, LightState } from "./light/lighting.ts";
import type { SecondaryResults } from "./light/secondary-results.ts";
import type { askForFiles } from "./storage/ask-for-files.ts";
import { type GivenAt, GivenFiles } from "./storage/given-files.ts";
import { type Change, StudyHistory } from "./store/history.ts";
import { LightStore } from "./store/light-store.ts";
import type { Json, Path } from "./store/pointer.ts";
import { type Draft, ScreenStore, type SheetContent } from "./store/screen-store.ts";

/** Where studies are saved. */
export interface StudyStorage {
  /** Saves the study on screen; what comes next is another one. */
  begin(): Promise<void>;
}

/** How long a moving hand waits for its light before the rest is drawn without it (ms). */
const LATE = 50;

export class StudySession extends EventTarget implements AppView {
  readonly history = new StudyHistory(null);
  readonly lights = new LightStore();
  readonly screen = new ScreenStore();
  lastSwap: Swap | undefined;
  readonly given = new GivenFiles();

  /** Loaded after the first light: nobody moves what is not yet drawn. */
  #edits: typeof LuminaireEdits | undefined;
  #issueWords: typeof IssueWords | undefined;
  #drag: DragEdit | undefined;
  #defaultAt: typeof defaultAt | undefined;
  #askForFiles: typeof askForFiles | undefined;
  #storage: StudyStorage | undefined;
  #begun = false;
  #late: ReturnType<typeof setTimeout> | undefined;

  constructor() {
    super();
    this.history.addEventListener("change", () => this.#changed());
    this.lights.addEventListener("change", () => this.redraw());
    this.screen.addEventListener("change", () => this.redraw());
  }

  /** Asks for the first light. */
  begin(): void {
    this.#begun = true;
    this.#ask(false);
  }

  /** The first light is drawn, or there can be none. */
  drawn(): void {
    this.lights.setDrawn();
  }

  /** Brings what moving, swapping and asking need. */
  async bringTheRest(): Promise<void> {
    const [edits, { DragEdit }, { defaultAt }, issueWords, { askForFiles }] = await Promise.all([
      import("./edits/luminaires.ts"),
      import("./edits/drag-edit.ts"),
      import("./edits/defaults.ts"),
      import("./components/issue-words.ts"),
      import("./storage/ask-for-files.ts"),
      this.lights.loadResults(),
    ]);
    if (this.showPeople) this.results?.need("people");
    if (this.sheetContent === "room") this.results?.need("room");
    this.#edits = edits;
    this.#issueWords = issueWords;
    this.#defaultAt = defaultAt;
    this.#askForFiles = askForFiles;
    this.#drag = new DragEdit(this, () => {
      this.#ask(false);
      this.dispatchEvent(new Event("rest"));
    });
  }

  /** Whether the hand is still making the change. */
  get isMoving(): boolean {
    return this.#drag?.isMoving === true;
  }

  close(): void {
    this.#begun = false;
    this.lights.close();
  }

  get study(): RawStudy {
    return this.history.document as unknown as RawStudy;
  }

  get display(): Display {
    const { length = "mm", illuminance = "lx" } = this.study.display ?? {};
    return { length, illuminance };
  }

  get arrangement(): number {
    return this.screen.arrangement;
  }

  get setting(): string | undefined {
    const { setting } = this.screen;
    const { settings } = this.study.arrangements[this.arrangement];
    return settings?.some(({ name }) => name === setting) ? setting : undefined;
  }

  get selection(): readonly LuminaireKey[] {
    return this.screen.selection;
  }

  get drafts(): ReadonlyMap<string, Draft> {
    return this.screen.drafts;
  }

  get showPeople(): boolean {
    return this.screen.showPeople;
  }

  get shownLuminaire(): string | undefined {
    return this.screen.luminaire;
  }

  get sheetContent(): SheetContent {
    return this.screen.sheetContent;
  }

  get withPeople(): boolean | undefined {
    return this.lights.withPeople;
  }

  get lighting(): Lighting {
    return this.lights.lighting;
  }

  get results(): SecondaryResults | undefined {
    return this.lights.results;
  }

  get light(): LightAnswer | undefined {
    return this.lights.answer;
  }

  get lightState(): LightState {
    return this.lighting.state;
  }

  read(path: Path): Json | undefined {
    return this.history.read(path);
  }

  defaultAt(path: Path): DefaultValue | undefined {
    return this.read(path) === undefined
      ? this.#defaultAt?.(this.light?.defaults ?? [], this.history.document, path)
      : undefined;
  }

  issueAt(path: Path): string | undefined {
    const { state } = this.lighting;
    return state.kind === "issues" ? this.#issueWords?.issueWordsAt(state.issues, path, this) : undefined;
  }

  edit(edit: NamedEdit, options: EditOptions = {}): void {
    // What was said last is over.
    this.screen.line = "";
    if (this.#drag === undefined) this.history.change(edit.name, edit.edits);
    else this.#drag.edit(edit, options);
  }

  /** Follows luminaires moved on the sheet. */
  move(detail: LuminaireMoveDetail): void {
    if (this.#edits !== undefined) this.#drag?.move(detail, this.#edits);
  }

  /** Follows things of the room moved and sized on the floor plan. */
  moveItem(detail: ItemMoveDetail, editOf: ItemEditOf): void {
    this.#drag?.moveItem(detail, editOf);
  }

  /** Removes luminaires of the option on screen. */
  remove(luminaires: readonly LuminaireKey[]): void {
    const { light } = this;
    if (this.#edits === undefined || light === undefined) return;
    this.edit(this.#edits.removeLuminaires(this.study, this.arrangement, light.scene, luminaires));
    this.select([]);
  }

  keepDraft(id: string, draft: Draft): void {
    this.screen.setDraft(id, draft);
  }

  dropDraft(id: string): void {
    this.screen.removeDraft(id);
  }

  showArrangement(index: number, edit?: NamedEdit): void {
    this.screen.arrangement = index;
    this.screen.selection = [];
    if (edit !== undefined) this.edit(edit);
    else this.#ask(false);
    this.redraw();
  }

  showSetting(name: string | undefined): void {
    this.screen.setting = name;
    this.#ask(false);
    this.redraw();
  }

  standPeople(stand: boolean): void {
    this.lights.withPeople = stand ? true : undefined;
    this.#ask(false);
    this.redraw();
  }

  /** Shows or hides the shadows of people and the images they see in the top. */
  turnPeople(show: boolean): void {
    this.screen.showPeople = show;
    if (show) this.results?.need("people");
    else this.results?.release("people");
    this.redraw();
  }

  showOnSheet(content: SheetContent): void {
    this.screen.sheetContent = content;
    if (content === "room") this.results?.need("room");
    else this.results?.release("room");
    this.redraw();
  }

  select(keys: readonly LuminaireKey[]): void {
    this.screen.setSelection(keys);
  }

  say(line: string): void {
    this.screen.setLine(line);
  }

  redraw(): void {
    this.dispatchEvent(new Event("change"));
  }

  openFile(at?: GivenAt): void {
    this.#askForFiles?.((files) => this.takeFiles(files, at));
  }

  takeFiles(files: readonly File[], at: GivenAt = "page"): void {
    this.dispatchEvent(new CustomEvent("files", { detail: { files, at } }));
  }

  /** The sheet alone, its options on one key each, until it is ended. */
  showClient(isForClient: boolean): void {
    this.screen.isForClient = isForClient;
    if (isForClient) this.select([]);
    this.redraw();
  }

  /** Asks for the field of a path to be shown, with the option it belongs to. */
  showField(path: Path): void {
    const [list, index] = path;
    if (list === "arrangements" && Number(index) !== this.arrangement) this.showArrangement(Number(index));
    if (list === "luminaires") this.showLuminaire(String(index));
    this.dispatchEvent(new CustomEvent("field", { detail: path }));
  }

  showLuminaire(name: string | undefined): void {
    this.screen.luminaire = name;
    this.redraw();
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
    this.screen.clear();
    this.given.clear();
  }

  /** Says that something given was not taken, and why, until it is dismissed. */
  refuse(words: string, issues: readonly Issue[], document?: unknown): void {
    this.screen.setRefusal({ words, issues, document });
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
    const { screen } = this;
    if (screen.arrangement >= count) screen.arrangement = count - 1;
    const { layers } = this.study.arrangements[screen.arrangement];
    screen.selection = screen.selection.filter((key) => layers[key.layer]);
    this.#followSetting();
    if (!this.#begun) return;
    const { isMoving } = this;
    this.#ask(isMoving);
    this.dispatchEvent(new Event("edit"));
    // While the hand moves, what is drawn is drawn once, with its light.
    if (isMoving) this.#redrawIfLate();
    else this.redraw();
  }

  /** Names of the settings of the option on screen, in order, as they were. */
  #settings: readonly string[] = [];

  /** A setting on screen stays there under another name. */
  #followSetting(): void {
    const before = this.#settings;
    const names = this.#settingNames();
    const { screen } = this;
    const at = before.indexOf(screen.setting as string);
    if (at >= 0 && names.length === before.length && !names.includes(before[at])) screen.setting = names[at];
    this.#settings = names;
  }

  #settingNames(): string[] {
    return (this.study.arrangements[this.arrangement].settings ?? []).map(({ name }) => name);
  }

  /** Redraws when the light takes so long that the hand would seem to hold nothing. */
  #redrawIfLate(): void {
    this.#late ??= setTimeout(() => {
      this.#late = undefined;
      if (this.lighting.isBehind) this.redraw();
    }, LATE);
  }

  #ask(moving: boolean): void {
    this.#settings = this.#settingNames();
    const sequence = this.lights.ask(this.study, this.arrangement, moving, this.setting);
    this.dispatchEvent(new CustomEvent("light-asked", { detail: { sequence } }));
  }
}
