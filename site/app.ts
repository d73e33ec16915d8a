/**
 * The app: the aligned sheet with the light on it, the view's controls beside it, both drawn from one session.
 */

import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { alignedSheet } from "./components/aligned-sheet.ts";
import type * as BelowTheSheet from "./components/below-the-sheet.ts";
import type { clientBar } from "./components/client-bar.ts";
import { footer } from "./components/footer.ts";
import { header } from "./components/header.ts";
import type { keyOnPage } from "./components/keys.ts";
import type * as Notices from "./components/notices.ts";
import { type ControlsHeight, side } from "./components/side.ts";
import type { StartDialog } from "./components/start-dialog.ts";
import type { StudyDialog } from "./components/study-dialog.ts";
import type { typedValue } from "./components/typed-value.ts";
import { QUALITIES } from "./light/lighting.ts";
import type { PaperScale } from "./light/print-scale.ts";
import { StudySession } from "./session.ts";
import type { Autosave } from "./storage/autosave.ts";
import { keepMode, keptMode, type Mode } from "./storage/preferences.ts";
import type { Path } from "./store/pointer.ts";
import type { View } from "./views/view.ts";
import { VIEWS, viewInAddress } from "./views/views.ts";

export class CandlespanApp extends LitElement {
  readonly session = new StudySession();
  /** Saves the study as it changes; loaded after the first light. */
  autosave: Autosave | undefined;

  #view = viewInAddress();
  readonly #views = new Map<string, View>();
  #below: typeof BelowTheSheet | undefined;
  #readFiles: ((session: StudySession) => unknown) | undefined;
  #notices: typeof Notices | undefined;
  #clientBar: typeof clientBar | undefined;
  #keyOnPage: typeof keyOnPage | undefined;
  #typedValue: typeof typedValue | undefined;
  #dialog: StudyDialog | undefined;
  #start: StartDialog | undefined;
  #dropping = false;
  #paper: PaperScale | undefined;
  #mode: Mode = keptMode();
  #height: ControlsHeight = "usual";
  #narrow = false;
  #sheetHeight: number | undefined;
  readonly #narrowQuery = matchMedia("(max-width: 699px)");
  readonly #sizes = new ResizeObserver(([entry]) => this.#sized(entry));
  /** The light drawn last, as one number. */
  #marked = 0;

  constructor() {
    super();
    if (this.#mode !== "auto") document.documentElement.dataset.mode = this.#mode;
    this.session.addEventListener("change", () => this.requestUpdate());
    this.session.addEventListener("print", () => void this.#printToScale());
    this.session.addEventListener(
      "field",
      (event) => void this.#showField((event as CustomEvent<Path>).detail),
    );
  }

  /** The whole page is the app's own: no shadow, one stylesheet, one print layout. */
  protected override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.session.begin();
    addEventListener("keydown", this.#key);
    addEventListener("popstate", this.#wentBack);
    this.#narrow = this.#narrowQuery.matches;
    this.#narrowQuery.addEventListener("change", this.#turned);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener("keydown", this.#key);
    removeEventListener("popstate", this.#wentBack);
    this.#narrowQuery.removeEventListener("change", this.#turned);
    this.#sizes.disconnect();
    this.session.close();
  }

  readonly #key = (event: KeyboardEvent): void => this.#keyOnPage?.(this.session, event);

  readonly #wentBack = (): void => void this.#enter(viewInAddress());

  /** Enters a view, from which Back returns. */
  #visit(id: string): Promise<void> {
    if (id !== this.#view) history.pushState(null, "", `#${id}`);
    return this.#enter(id);
  }

  readonly #turned = (): void => {
    this.#narrow = this.#narrowQuery.matches;
    this.requestUpdate();
  };

  /** Files are held over the page. */
  set dropping(over: boolean) {
    this.#dropping = over;
    this.requestUpdate();
  }

  protected override firstUpdated(): void {
    const sheet = this.querySelector(".sheet");
    if (sheet !== null) this.#sizes.observe(sheet);
  }

  /** Beside its controls the sheet is as large as its pane can show. */
  #sized(entry: ResizeObserverEntry): void {
    const pane = entry.target;
    const scrolls = getComputedStyle(pane).overflowY === "auto" && !this.#narrow;
    const height = scrolls ? Math.floor(entry.contentRect.height) : undefined;
    if (height === this.#sheetHeight) return;
    this.#sheetHeight = height;
    this.requestUpdate();
  }

  async #enter(id: string): Promise<void> {
    const entry = VIEWS.find((each) => each.id === id);
    if (entry === undefined) return;
    const isEntered = this.#view !== id || !this.#views.has(id);
    if (this.#view !== id) this.#views.get(this.#view)?.left?.();
    if (this.#view !== id) this.querySelector("#controls")?.scrollTo({ top: 0 });
    this.#view = id;
    this.requestUpdate();
    // With the first view come its keys, and what says that a part is missing, which may not be had any more when one is.
    if (!this.#views.has(id))
      this.#views.set(id, (await Promise.all([entry.load(), this.#bringNotices(), this.#bringKeys()]))[0]);
    if (isEntered && this.#view === id) this.#views.get(id)?.entered?.(this.session);
    this.requestUpdate();
  }

  /** Enters the view where a field is edited, unfolds it and gives it the focus. */
  async #showField(path: Path): Promise<void> {
    const { focusField, viewOf } = await import("./components/field-id.ts");
    if (this.#height === "folded") this.#height = "usual";
    await this.#visit(viewOf(path));
    await this.updateComplete;
    focusField(this, path);
  }

  async #startKitchen(): Promise<void> {
    const { StartDialog } = await import("./components/start-dialog.ts");
    this.#start ??= new StartDialog(this.session, this, () => void this.#visit("kitchen"));
    await this.#start.show();
  }

  async #showStudy(): Promise<void> {
    const { StudyDialog } = await import("./components/study-dialog.ts");
    this.#dialog ??= new StudyDialog(this.session, this, () => void this.#startKitchen());
    this.#dialog.autosave = this.autosave;
    await this.#dialog.show();
  }

  /** Prints the sheet at a usual scale: laid out for paper first, so that a metre is a metre on it. */
  async #printToScale(): Promise<void> {
    const { printToScale } = await import("./light/print-scale.ts");
    await printToScale(this.session, (paper) => {
      this.#paper = paper;
      this.requestUpdate();
      return this.updateComplete;
    });
  }

  readonly #skip = (event: Event): void => {
    event.preventDefault();
    this.querySelector<HTMLElement>("#controls")?.focus();
  };

  get #isDark(): boolean {
    return (
      this.#mode === "evening" ||
      (this.#mode === "auto" && matchMedia("(prefers-color-scheme: dark)").matches)
    );
  }

  #turnMode(): void {
    this.#mode = this.#isDark ? "day" : "evening";
    document.documentElement.dataset.mode = this.#mode;
    keepMode(this.#mode);
    this.requestUpdate();
  }

  protected override updated(_changed: PropertyValues): void {
    if (this.session.light !== undefined) void this.#markLight();
    else if (this.session.lightState.kind === "issues" || this.session.lightState.kind === "fault") {
      this.session.drawn();
      void this.#bringKeys();
    }
    const { lightState } = this.session;
    const { refusal } = this.session.screen;
    const isTroubled = refusal !== undefined || lightState.kind === "issues";
    if (isTroubled && this.#notices === undefined) void this.#bringNotices();
    if (this.session.screen.isForClient && this.#clientBar === undefined) void this.#bringClientBar();
    if (this.#isFileOverPage && this.#readFiles === undefined) void this.#bringReadFiles();
    document.title = `${this.session.study.title ?? "Untitled kitchen"} · Candlespan`;
  }

  async #bringKeys(): Promise<void> {
    if (this.#keyOnPage !== undefined) return;
    const [{ keyOnPage }, { typedValue }] = await Promise.all([
      import("./components/keys.ts"),
      import("./components/typed-value.ts"),
    ]);
    this.#keyOnPage = keyOnPage;
    this.#typedValue = typedValue;
    this.requestUpdate();
  }

  async #bringClientBar(): Promise<void> {
    this.#clientBar = (await import("./components/client-bar.ts")).clientBar;
    this.requestUpdate();
  }

  async #bringNotices(): Promise<void> {
    if (this.#notices !== undefined) return;
    this.#notices = await import("./components/notices.ts");
    this.requestUpdate();
  }

  /** Files that were read are answered over the page. */
  get #isFileOverPage(): boolean {
    const { readings, at } = this.session.given;
    return readings.length > 0 && at === "page";
  }

  async #bringReadFiles(): Promise<void> {
    this.#readFiles = (await import("./components/read-files.ts")).readFilesDialog;
    this.requestUpdate();
  }

  /** For measuring: the mark `first light`, then `light-drawn` for every answer once it is on the plan. */
  async #markLight(): Promise<void> {
    const { shown } = this.session.lighting;
    if (shown === undefined) return;
    const number = 4 * shown.sequence + QUALITIES.indexOf(shown.quality);
    if (number === this.#marked) return;
    const first = this.#marked === 0;
    this.#marked = number;
    const sheet = this.querySelector("candlespan-sheet");
    await sheet?.updateComplete;
    await sheet?.shadowRoot?.querySelector("candlespan-plan")?.updateComplete;
    if (first) {
      await painted();
      performance.mark("first light");
      this.session.drawn();
      // The controls load after what they control is seen.
      void this.#enter(this.#view);
      await this.session.bringTheRest();
      this.#below = await import("./components/below-the-sheet.ts");
      this.requestUpdate();
    }
    const { quality, sequence } = shown;
    this.dispatchEvent(new CustomEvent("light-drawn", { detail: { quality, sequence } }));
  }

  protected override render(): TemplateResult {
    const { session } = this;
    const own = this.#views.get(this.#view)?.sheet?.(session);
    const head = {
      paper: this.#paper,
      typedValue: this.#typedValue,
      isDark: this.#isDark,
      showStudy: () => void this.#showStudy(),
      startKitchen: () => void this.#startKitchen(),
      turnMode: () => this.#turnMode(),
    };
    const sheet = {
      paper: this.#paper,
      isNarrow: this.#narrow,
      height: this.#sheetHeight,
      below: session.screen.isForClient ? undefined : this.#below,
    };
    const { isForClient } = session.screen;
    const layout = isForClient ? "with-sheet for-client" : own === undefined ? "with-sheet" : "whole";
    return html`
      ${isForClient ? nothing : html`<a class="skip" href="#controls" @click=${this.#skip}>Skip to the controls</a>`}
      ${isForClient && this.#paper === undefined ? this.#clientBar?.(session) : header(session, head)}
      <main class=${layout} id="sheet-and-controls">
        <div class="sheet">
          ${this.#notices?.refusalPart(session)} ${own === undefined ? this.#notices?.issuesPart(session) : nothing}
          ${own ?? alignedSheet(session, sheet)}
        </div>
        ${isForClient ? nothing : this.#side()}
      </main>
      ${footer(session)} ${this.#dialog?.render() ?? nothing} ${this.#start?.render() ?? nothing}
      ${this.#isFileOverPage ? this.#readFiles?.(session) : nothing}
      ${this.#dropping ? html`<div class="dropping">Drop a photometric file or a study anywhere.</div>` : nothing}
    `;
  }

  /** A document the study's check refuses may hold anything: a view that cannot show it says so, and the ways out stay. */
  #controls(view: View): unknown {
    try {
      return view.controls(this.session);
    } catch (error) {
      void this.#bringNotices();
      return this.#notices?.damagedPart(this.session, error, () => void this.#showStudy());
    }
  }

  #side(): TemplateResult {
    const view = this.#views.get(this.#view);
    return side({
      view: this.#view,
      height: this.#height,
      controls: view === undefined ? html`<p class="hint">Loading…</p>` : this.#controls(view),
      visit: (id) => void this.#visit(id),
      setHeight: (height) => this.#setHeight(height),
    });
  }

  #setHeight(height: ControlsHeight): void {
    this.#height = height;
    this.requestUpdate();
  }
}

/** Until what has been drawn is on the screen; a page nobody sees waits only a little. */
function painted(): Promise<void> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done();
    requestAnimationFrame(() => port2.postMessage(undefined));
    setTimeout(done, 200);
  });
}

customElements.define("candlespan-app", CandlespanApp);
