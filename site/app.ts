/**
 * The app: the aligned sheet with the light on it, the place's controls beside it, and what keeps them true to
 * one study document.
 */

import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import type { GuidelineCard } from "../src/assessment/guideline-card.ts";
import { formatIssue, type Issue } from "../src/diagnostics/issue.ts";
import { EVIDENCE } from "../src/luminaire/evidence.ts";
import type {
  LuminaireMoveDetail,
  LuminaireRemoveDetail,
  LuminaireSelectDetail,
} from "../src/presentation/elements/shared/contract.ts";
import type { FindingsSection } from "../src/presentation/report/findings-sections.ts";
import "../src/presentation/elements/sheet/sheet.ts";
import type { ResolvedStudy } from "../src/scene/resolved-study.ts";
import { type ReadLength, readLength } from "../src/units/length-text.ts";
import { type FileReading, type LightAnswer, spawn } from "../src/workers/browser.ts";
import type { AppView, Display, Draft, EditOptions, Swap } from "./app-view.ts";
import type * as LuminaireEdits from "./edits/luminaires.ts";
import type { LuminaireKey, Vec3 } from "./edits/luminaires.ts";
import type { NamedEdit } from "./edits/named-edit.ts";
import type { RawStudy } from "./edits/raw-study.ts";
import { filesIn } from "./keep/embedded.ts";
import type { Keeper } from "./keep/keeper.ts";
import { Lighting, type LightState } from "./light/lighting.ts";
import { OnRequest } from "./light/on-request.ts";
import { type PaperScale, paperScale } from "./light/paper.ts";
import type { StudyDialog } from "./parts/study-dialog.ts";
import { typedValue } from "./parts/typed-value.ts";
import { lengthText, withUnit } from "./parts/words.ts";
import { PLACES, type Place } from "./places/place.ts";
import { type Change, StudyHistory } from "./store/history.ts";
import { formatPointer, type Json, type Path } from "./store/pointer.ts";

/** What the hand holds while it drags: the study and scene it took hold of. */
interface Hold {
  readonly mark: string;
  readonly study: RawStudy;
  readonly scene: LightAnswer["scene"];
}

type Mode = "day" | "evening" | "auto";

export class CandlespanApp extends LitElement implements AppView {
  readonly history: StudyHistory;
  readonly lighting = new Lighting({ spawn });
  readonly drafts = new Map<string, Draft>();
  arrangement = 0;
  selection: readonly LuminaireKey[] = [];
  lastSwap: Swap | undefined;
  readings: readonly FileReading[] = [];
  withPeople: boolean | undefined;
  /** Called after every change that is worth keeping. */
  keep: () => void = () => {};
  keeper: Keeper | undefined;

  readonly #contents = new Map<string, Uint8Array>();
  #dialog: StudyDialog | undefined;
  #readingsPart: ((app: CandlespanApp) => unknown) | undefined;
  /** What people take from the light, while it is asked to be shown. */
  showPeople = false;
  readonly #people = new OnRequest((document, arrangement) =>
    this.lighting.connection.call("people", { document, arrangement }),
  );
  readonly #rules = new OnRequest((document, arrangement) =>
    this.lighting.connection.call("rules", { document, arrangement }),
  );
  readonly #beside = new OnRequest((document, arrangement) =>
    this.lighting.connection.call("beside", { document, arrangement }),
  );
  #below: ((app: AppView, study: ResolvedStudy, light: LightAnswer) => unknown) | undefined;
  #refusal: { readonly words: string; readonly issues: readonly Issue[] } | undefined;

  #place = "lights";
  readonly #places = new Map<string, Place>();
  #hold: Hold | undefined;
  /** Loaded after the first light: nobody moves what is not yet drawn. */
  #edits: typeof LuminaireEdits | undefined;
  #holds = 0;
  #line = "";
  #dropping = false;
  #paper: PaperScale | undefined;
  #mode: Mode = "auto";
  #controlsOpen = true;
  #narrow = false;
  #sheetHeight: number | undefined;
  readonly #narrowQuery = matchMedia("(max-width: 699px)");
  readonly #sizes = new ResizeObserver(([entry]) => this.#sized(entry));
  #drawn: { answer: LightAnswer; study: ResolvedStudy } | undefined;

  constructor() {
    super();
    this.history = new StudyHistory(null);
    this.history.addEventListener("change", () => this.#changed());
    this.lighting.addEventListener("light", () => this.requestUpdate());
    this.lighting.addEventListener("state", () => this.requestUpdate());
    this.#people.addEventListener("answer", () => this.requestUpdate());
    this.#rules.addEventListener("answer", () => this.requestUpdate());
    this.#beside.addEventListener("answer", () => this.requestUpdate());
  }

  /** The whole page is the app's own: no shadow, one stylesheet, one print layout. */
  protected override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#ask(false);
    addEventListener("keydown", this.#key);
    this.#narrow = this.#narrowQuery.matches;
    this.#narrowQuery.addEventListener("change", this.#turned);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener("keydown", this.#key);
    this.#narrowQuery.removeEventListener("change", this.#turned);
    this.#sizes.disconnect();
    this.lighting.close();
  }

  readonly #turned = (): void => {
    this.#narrow = this.#narrowQuery.matches;
    this.requestUpdate();
  };

  protected override firstUpdated(): void {
    const sheet = this.querySelector(".sheet");
    if (sheet !== null) this.#sizes.observe(sheet);
  }

  /** Beside its controls the sheet is as large as its pane can show. */
  #sized(entry: ResizeObserverEntry): void {
    const pane = entry.target;
    const scrolls = getComputedStyle(pane).overflowY === "auto" && !this.#narrow;
    // Elevation and plan fill the pane; the profile may lie a little below its edge.
    const height = scrolls ? Math.round(entry.contentRect.height * 1.12) : undefined;
    if (height === this.#sheetHeight) return;
    this.#sheetHeight = height;
    this.requestUpdate();
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

  read(path: Path): Json | undefined {
    return this.history.read(path);
  }

  issueAt(path: Path): string | undefined {
    const { state } = this.lighting;
    if (state.kind !== "issues") return undefined;
    const pointer = formatPointer(path);
    const found = state.issues.find((issue) => issue.where.path === pointer);
    if (found === undefined) return undefined;
    const expected = found.expected === undefined ? "" : ` Expected ${found.expected}`;
    const received =
      found.received === undefined ? "" : `${expected === "" ? " Found" : ", found"} ${found.received}`;
    return `${found.message}${expected}${received}${expected + received === "" ? "" : "."}`;
  }

  edit(edit: NamedEdit, options: EditOptions = {}): void {
    this.#moving = options.moving === true;
    const before = this.history.document;
    this.history.change(
      edit.name,
      edit.edits,
      options.hand === undefined ? undefined : this.#markOf(options),
    );
    // The end of a movement may change nothing more, but it is time to refine.
    if (before === this.history.document && !this.#moving) this.#ask(false);
    this.#moving = false;
  }

  #moving = false;
  #mark: { readonly hand: string; readonly mark: string } | undefined;

  /** One mark from the first to the last edit of a movement; the next movement of the same slider gets another. */
  #markOf({ hand = "", moving = false }: EditOptions): string {
    if (this.#mark?.hand !== hand) this.#mark = { hand, mark: `${hand} ${++this.#holds}` };
    const { mark } = this.#mark;
    if (!moving) this.#mark = undefined;
    return mark;
  }

  keepDraft(id: string, draft: Draft): void {
    this.drafts.set(id, draft);
    this.requestUpdate();
  }

  dropDraft(id: string): void {
    this.drafts.delete(id);
    this.requestUpdate();
  }

  readLength(text: string): ReadLength {
    return readLength(withUnit(text, this.display.length));
  }

  evidenceOf(luminaire: string): string | undefined {
    for (const layer of this.light?.scene.layers ?? []) {
      const found = layer.luminaires.find((each) => each.luminaire.name === luminaire);
      if (found !== undefined) return EVIDENCE[found.luminaire.evidence].words;
    }
    return undefined;
  }

  clearanceOf(layer: number): number | undefined {
    const scene = this.light?.scene;
    const placed = scene?.layers[layer]?.luminaires[0];
    if (scene?.island === undefined || placed === undefined) return undefined;
    const { body, emission } = placed.luminaire;
    const opening = emission.opening.height / 2;
    const centred = body !== undefined && ["globe", "bowl", "disc", "box"].includes(body.profile);
    const lowest = Math.max(opening, centred ? body.height / 2 - body.offset : 0);
    return placed.frame.origin[2] - lowest - scene.island.height;
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
    this.requestUpdate();
  }

  standPeople(stand: boolean): void {
    this.withPeople = stand ? true : undefined;
    this.#ask(false);
    this.requestUpdate();
  }

  /** Shows or hides the shadows of people and the images they see in the top. */
  turnPeople(show: boolean): void {
    this.showPeople = show;
    if (!show) this.#people.stop();
    this.requestUpdate();
  }

  /** The published rules held against the option on screen; undefined while they are computed. */
  get rules(): readonly GuidelineCard[] | undefined {
    return this.#atRest ? this.#rules.of(this.#document, this.arrangement) : undefined;
  }

  /** What there is to say beside the verdict of the option on screen; undefined while it is worked out. */
  get beside(): readonly FindingsSection[] | undefined {
    return this.#atRest ? this.#beside.of(this.#document, this.arrangement) : undefined;
  }

  /** Only a light that stands is worth the side questions. */
  get #atRest(): boolean {
    const { shown } = this.lighting;
    return shown !== undefined && !this.lighting.isBehind && shown.quality === "judged";
  }

  select(keys: readonly LuminaireKey[]): void {
    this.selection = keys;
    this.requestUpdate();
  }

  say(line: string): void {
    this.#line = line;
    this.requestUpdate();
  }

  redraw(): void {
    this.requestUpdate();
  }

  /** Files are held over the page. */
  set dropping(over: boolean) {
    this.#dropping = over;
    this.requestUpdate();
  }

  openFile(): void {
    const input = document.createElement("input");
    input.type = "file";
    input.multiple = true;
    input.accept = ".json,.ies,.ldt,.eul,.xml,.gldf";
    input.addEventListener("change", () => void this.takeFiles([...(input.files ?? [])]));
    input.click();
  }

  async takeFiles(files: readonly File[]): Promise<void> {
    const { takeFiles } = await import("./keep/take-files.ts");
    await takeFiles(this, files);
  }

  /** Begins with a study, before the app is on the page. */
  start(study: RawStudy): void {
    this.history.restore(study as unknown as Json);
  }

  /** Puts another study in place, kept beside the one before, which is a change that can be undone. */
  async open(document: Json, name: string): Promise<void> {
    await this.keeper?.begin();
    this.#settle();
    this.history.replace(name, document);
  }

  /** Goes on with a study kept earlier, and with the changes that led to it. */
  resume(study: RawStudy, done: readonly Change[], undone: readonly Change[]): void {
    this.#settle();
    this.history.restore(study as unknown as Json, done, undone);
  }

  #settle(): void {
    this.arrangement = 0;
    this.selection = [];
    this.drafts.clear();
    this.readings = [];
    this.#refusal = undefined;
  }

  /** Says that something given was not taken, and why, until it is dismissed. */
  refuse(words: string, issues: readonly Issue[]): void {
    this.#refusal = { words, issues };
    this.say(words);
  }

  /** Shows what was read from files, and where it may be used. */
  async offer(readings: readonly FileReading[], contents: ReadonlyMap<string, Uint8Array>): Promise<void> {
    for (const [path, bytes] of contents) this.#contents.set(path, bytes);
    this.readings = [...readings, ...this.readings];
    this.#readingsPart ??= (await import("./parts/readings.ts")).readingsPart as never;
    this.requestUpdate();
  }

  contentOf(path: string): Uint8Array | undefined {
    return this.#contents.get(path);
  }

  dismiss(path: string): void {
    this.readings = this.readings.filter((reading) => reading.path !== path);
    this.#contents.delete(path);
    this.requestUpdate();
  }

  async #showStudy(): Promise<void> {
    const { StudyDialog } = await import("./parts/study-dialog.ts");
    this.#dialog ??= new StudyDialog(this);
    await this.#dialog.show();
  }

  /** Prints the sheet at a usual scale: laid out for paper first, so that a metre is a metre on it. */
  async printToScale(): Promise<void> {
    const scene = this.light?.scene;
    if (scene === undefined) return;
    this.#paper = paperScale(
      scene.island?.length ?? scene.room.length,
      scene.island?.width ?? scene.room.width,
    );
    document.documentElement.classList.add("on-paper");
    this.requestUpdate();
    await this.updateComplete;
    // The drawings measure their width when the browser has laid the page out.
    for (let i = 0; i < 3; i++) await new Promise((done) => requestAnimationFrame(done));
    print();
    document.documentElement.classList.remove("on-paper");
    this.#paper = undefined;
    this.requestUpdate();
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
    if (!this.isConnected) return;
    this.#ask(this.#moving || this.#hold !== undefined);
    this.keep();
    this.requestUpdate();
  }

  #embedded: RawStudy["embedded"];
  /** The study without its files, as the workers take it. */
  #document: Json = null;

  #ask(moving: boolean): void {
    const { embedded, ...study } = this.study;
    if (embedded !== this.#embedded) {
      this.#embedded = embedded;
      this.lighting.give(filesIn(this.study));
    }
    this.#document = study as unknown as Json;
    const sequence = this.lighting.ask(this.#document, this.arrangement, moving, this.withPeople);
    this.dispatchEvent(new CustomEvent("light-asked", { detail: { sequence } }));
  }

  async #enter(id: string): Promise<void> {
    const entry = PLACES.find((each) => each.id === id);
    if (entry === undefined) return;
    if (this.#place !== id) this.#places.get(this.#place)?.left?.();
    this.#place = id;
    this.requestUpdate();
    if (!this.#places.has(id)) {
      this.#places.set(id, await entry.load());
      this.requestUpdate();
    }
  }

  readonly #key = (event: KeyboardEvent): void => {
    const typing = event.composedPath()[0] instanceof HTMLInputElement;
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key === "p") {
      event.preventDefault();
      void this.printToScale();
      return;
    }
    // A field being typed in has an undo of its own.
    if (typing && (key === "z" || key === "y")) {
      const input = event.composedPath()[0] as HTMLInputElement;
      if (input.type === "text") return;
    }
    if (key === "z") {
      event.preventDefault();
      if (event.shiftKey) this.redo();
      else this.undo();
    } else if (key === "y") {
      event.preventDefault();
      this.redo();
    }
  };

  readonly #move = (event: CustomEvent<LuminaireMoveDetail>): void => {
    const { detail } = event;
    const scene = this.light?.scene;
    if (scene === undefined || this.#edits === undefined) return;
    if (detail.phase === "cancel") {
      if (this.#hold !== undefined) this.history.abandon(this.#hold.mark);
      this.#hold = undefined;
      this.#ask(false);
      return;
    }
    this.#hold ??= { mark: `hand ${++this.#holds}`, study: this.study, scene };
    const hold = this.#hold;
    const by = detail.position.map((value, axis) => value - detail.from[axis]) as unknown as Vec3;
    const edit = this.#edits.moveLuminaires(hold.study, this.arrangement, hold.scene, detail.moves, by);
    if (detail.phase === "commit") this.#hold = undefined;
    this.#moving = detail.phase === "drag";
    const before = this.history.document;
    this.history.change(this.#nameOf(edit, detail, hold), edit.edits, hold.mark);
    if (before === this.history.document && detail.phase === "commit") this.#ask(false);
    this.#moving = false;
    if (detail.phase === "commit" && detail.by === "keyboard") {
      this.say(`${this.history.done.at(-1)?.name ?? detail.name}.`);
    }
  };

  readonly #selected = (event: CustomEvent<LuminaireSelectDetail>): void =>
    this.select(event.detail.selection);

  #nameOf(edit: NamedEdit, detail: LuminaireMoveDetail, hold: Hold): string {
    const row = hold.study.arrangements[this.arrangement].layers[detail.layer].row;
    const lift = detail.position[2] - detail.from[2];
    if (row?.clearance !== undefined && lift !== 0) {
      const now = edit.edits[0]?.value as unknown as RawStudy["arrangements"][number]["layers"];
      const clearance = now?.[detail.layer]?.row?.clearance;
      if (typeof clearance === "number") return `clearance ${lengthText(this, clearance)}`;
    }
    const why = detail.reasons.length > 0 ? `, ${detail.reasons.join(", ")}` : "";
    return edit.name + why;
  }

  /** The answer as the elements take it: a study of the one scene it holds. */
  #resolved(answer: LightAnswer): ResolvedStudy {
    if (this.#drawn?.answer !== answer) {
      const study: ResolvedStudy = {
        title: answer.title,
        display: this.display,
        scenes: [answer.scene],
        luminaires: new Map(
          answer.scene.layers.flatMap((layer) =>
            layer.luminaires.map(({ luminaire }) => [luminaire.name, luminaire] as const),
          ),
        ),
        targets: answer.targets,
        options: answer.options,
        defaults: answer.defaults,
        warnings: answer.warnings,
      };
      this.#drawn = { answer, study };
    }
    return this.#drawn.study;
  }

  protected override updated(_changed: PropertyValues): void {
    if (this.light !== undefined) this.#markLight();
    const title = this.study.title ?? "Untitled kitchen";
    document.title = `${title} · Candlespan`;
  }

  #marked = 0;

  /** For measuring: the mark `first light`, then `light-drawn` for every answer once it is on the plan. */
  async #markLight(): Promise<void> {
    const { shown } = this.lighting;
    if (shown === undefined) return;
    const number = 4 * shown.sequence + ["first", "quick", "full", "judged"].indexOf(shown.quality);
    if (number === this.#marked) return;
    const first = this.#marked === 0;
    this.#marked = number;
    const sheet = this.querySelector("candlespan-sheet");
    await sheet?.updateComplete;
    await sheet?.shadowRoot?.querySelector("candlespan-plan")?.updateComplete;
    if (first) {
      performance.mark("first light");
      // The controls load after what they control is seen.
      void this.#enter(this.#place);
      this.#edits = await import("./edits/luminaires.ts");
      this.#below = (await import("./parts/below-the-sheet.ts")).belowTheSheet;
      this.requestUpdate();
    }
    const { quality, sequence } = shown;
    this.dispatchEvent(new CustomEvent("light-drawn", { detail: { quality, sequence } }));
  }

  protected override render(): TemplateResult {
    const place = this.#places.get(this.#place);
    const own = place?.sheet?.(this);
    return html`
      ${this.#header()}
      <main class=${own === undefined ? "with-sheet" : "whole"} id="sheet-and-controls">
        <div class="sheet">${this.#refusalPart()} ${own ?? this.#sheet()}</div>
        <div class="side" ?data-closed=${!this.#controlsOpen}>
          <nav aria-label="Places">
            ${PLACES.map(
              (entry) => html`<button
                type="button"
                aria-current=${entry.id === this.#place ? "page" : nothing}
                @click=${() => {
                  this.#controlsOpen = true;
                  void this.#enter(entry.id);
                }}
              >${entry.name}</button>`,
            )}
            <button
              type="button"
              class="fold"
              aria-expanded=${this.#controlsOpen ? "true" : "false"}
              aria-controls="controls"
              @click=${() => {
                this.#controlsOpen = !this.#controlsOpen;
                this.requestUpdate();
              }}
            >${this.#controlsOpen ? "Fold" : "Unfold"}</button>
          </nav>
          <div id="controls" class="controls" tabindex="-1">
            ${this.readings.length > 0 ? this.#readingsPart?.(this) : nothing}
            ${place === undefined ? html`<p class="hint">Loading…</p>` : place.controls(this)}
          </div>
        </div>
      </main>
      ${this.#footer()} ${this.#dialog?.render() ?? nothing}
      ${this.#dropping ? html`<div class="dropping">Drop a photometric file or a study anywhere.</div>` : nothing}
    `;
  }

  #header(): TemplateResult {
    const { done, undone } = this.history;
    const set = (key: "length" | "illuminance", value: string): void =>
      this.edit({ name: `show ${value}`, edits: [{ path: ["display", key], value }] });
    return html`<header>
      <h1>Candlespan</h1>
      <label class="title"><span class="visually-hidden">Title of the study</span>
        <input
          type="text"
          autocomplete="off"
          .value=${typedValue(this.study.title ?? "Untitled kitchen")}
          @change=${(event: Event) => {
            const title = (event.target as HTMLInputElement).value.trim().slice(0, 200);
            this.edit({
              name: title === "" ? "no title" : `title ${title}`,
              edits: [{ path: ["title"], value: title === "" ? undefined : title }],
            });
          }}
        >
      </label>
      ${
        this.#paper === undefined
          ? nothing
          : html`<p class="paper-scale">1 : ${this.#paper.ratio} when printed at 100 %: the line is 100 mm long</p>`
      }
      <button type="button" @click=${() => void this.#showStudy()}>Study</button>
      <div class="tools" role="group" aria-label="Changes and units">
        <button type="button" ?disabled=${done.length === 0} title=${done.at(-1)?.name ?? ""} @click=${() => this.undo()}>
          Undo${done.length === 0 ? nothing : html` <span class="what">${done.at(-1)?.name}</span>`}
        </button>
        <button type="button" ?disabled=${undone.length === 0} title=${undone.at(-1)?.name ?? ""} @click=${() => this.redo()}>Redo</button>
        <label><span class="visually-hidden">Lengths in</span>
          <select @change=${(event: Event) => set("length", (event.target as HTMLSelectElement).value)}>
            ${["mm", "m", "ft-in"].map(
              (unit) =>
                html`<option value=${unit} .selected=${live(unit === this.display.length)}>${unit}</option>`,
            )}
          </select>
        </label>
        <label><span class="visually-hidden">Illuminance in</span>
          <select @change=${(event: Event) => set("illuminance", (event.target as HTMLSelectElement).value)}>
            ${["lx", "fc"].map(
              (unit) =>
                html`<option value=${unit} .selected=${live(unit === this.display.illuminance)}>${unit}</option>`,
            )}
          </select>
        </label>
        <button type="button" @click=${() => this.#turnMode()}>${this.#isEvening ? "Day" : "Evening"}</button>
      </div>
    </header>`;
  }

  get #isEvening(): boolean {
    return (
      this.#mode === "evening" ||
      (this.#mode === "auto" && matchMedia("(prefers-color-scheme: dark)").matches)
    );
  }

  #turnMode(): void {
    this.#mode = this.#isEvening ? "day" : "evening";
    document.documentElement.dataset.mode = this.#mode;
    this.requestUpdate();
  }

  #sheet(): TemplateResult {
    const { light } = this;
    if (light === undefined) {
      return html`${this.#issuesPart()}<p class="waiting" role="status">${this.#stateWords()}</p>`;
    }
    const study = this.#resolved(light);
    const people =
      this.showPeople && this.#atRest ? this.#people.of(this.#document, this.arrangement) : undefined;
    return html`
      ${this.#issuesPart()}
      <candlespan-sheet
        .availableHeight=${this.#sheetHeight}
        .perMetre=${this.#paper?.perMetre}
        .hide=${this.#narrow && this.#paper === undefined ? "elevation" : ""}
        .study=${study}
        .assessment=${light.assessment}
        .display=${this.display}
        .selection=${this.selection}
        .shadows=${people?.shadows ?? []}
        .images=${people?.images ?? []}
        @luminaire-move=${this.#move}
        @luminaire-select=${this.#selected}
        @luminaire-remove=${(event: CustomEvent<LuminaireRemoveDetail>) => {
          const { luminaires } = event.detail;
          if (this.#edits === undefined) return;
          this.edit(this.#edits.removeLuminaires(this.study, this.arrangement, light.scene, luminaires));
          this.select([]);
        }}
      ></candlespan-sheet>
      ${
        this.#narrow && this.#paper === undefined
          ? html`<candlespan-elevation
              .study=${study}
              .assessment=${light.assessment}
              .display=${this.display}
              .selection=${this.selection}
              @luminaire-move=${this.#move}
              @luminaire-select=${this.#selected}
            ></candlespan-elevation>`
          : nothing
      }
      ${this.#below?.(this, study, light)}
    `;
  }

  #refusalPart(): TemplateResult | typeof nothing {
    const refusal = this.#refusal;
    if (refusal === undefined) return nothing;
    return html`<section class="refusal" aria-label="Not opened">
      <p>✕ ${refusal.words}</p>
      <ul class="plain">
        ${refusal.issues.slice(0, 8).map((issue) => html`<li>${formatIssue(issue)}</li>`)}
      </ul>
      <button type="button" @click=${() => {
        this.#refusal = undefined;
        this.requestUpdate();
      }}>Dismiss</button>
    </section>`;
  }

  #issuesPart(): TemplateResult | typeof nothing {
    const { state } = this.lighting;
    if (state.kind !== "issues") return nothing;
    return html`<section class="refusal" aria-label="What is wrong in the study">
      <p>
        The study cannot be computed as it
        stands${this.light === undefined ? "." : "; the light shown is the last that could be."}
      </p>
      <ul class="plain problems">${state.issues.slice(0, 8).map((issue) => html`<li>✕ ${formatIssue(issue)}</li>`)}</ul>
    </section>`;
  }

  #stateWords(): string {
    const { state } = this.lighting;
    switch (state.kind) {
      case "first":
        return "Computing the light…";
      case "refined":
        return this.lighting.shown?.quality === "judged"
          ? "Refined: direct and interreflected light, in the dark, without daylight; bands from what each input may be off."
          : "Refined: direct and interreflected light, in the dark, without daylight. Weighing the doubt…";
      case "issues":
        return "Not computed: see what is wrong above the sheet.";
      case "fault":
        return `The calculation stopped: ${state.message} Undo the last change or reload; nothing is lost.`;
      default: {
        const { progress } = state;
        if (progress !== undefined && this.lighting.isBehind) {
          return `The light of the last change is being computed: ${progress.stage}, ${Math.round(progress.fraction * 100)} %.`;
        }
        const stands = (this.light?.assessment.planes ?? []).some((plane) =>
          plane.layers.some((layer) => layer.interreflected.some((lux) => lux > 0)),
        );
        const what = stands ? "direct light as moved, interreflected light as before" : "direct light only";
        return progress === undefined
          ? `Coarse: ${what}; refining when the hand rests.`
          : `Coarse: ${what}. Refining: ${progress.stage}, ${Math.round(progress.fraction * 100)} %.`;
      }
    }
  }

  #footer(): TemplateResult {
    const { shown } = this.lighting;
    return html`<footer>
      <p class="light-state" data-quality=${shown?.quality ?? "none"} data-sequence=${shown?.sequence ?? 0}>
        ${this.#stateWords()}
      </p>
      <p role="status" aria-live="polite" class="line">${this.#line}</p>
      <p class="caution">
        Predictions with a band, not a guarantee; night only. Wiring, box support, weight, heat above a hob and
        hanging glass: licensed people and local codes decide.
      </p>
    </footer>`;
  }
}

customElements.define("candlespan-app", CandlespanApp);
