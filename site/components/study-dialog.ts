/** The study as a document: open, save, share, print, earlier versions, studies kept in this browser. */

import { html, type LitElement, nothing, type TemplateResult } from "lit";
import type { StudySession } from "../session.ts";
import type { Autosave } from "../storage/autosave.ts";
import { downloadStudy, linkOf, type StudyLink } from "../storage/export-study.ts";
import type { KeptVersion } from "../storage/study-database.ts";
import type { Json } from "../store/pointer.ts";
import { KeptStudies, when } from "./kept-studies.ts";

export class StudyDialog {
  /** Knows what this browser keeps, once it is loaded. */
  autosave: Autosave | undefined;
  readonly #session: StudySession;
  /** Where the dialog is drawn. */
  readonly #page: LitElement;
  #keptStudies: KeptStudies | undefined;
  #earlier: readonly KeptVersion[] = [];
  #link: StudyLink | undefined;
  #isCopied = false;

  readonly #start: () => void;

  constructor(session: StudySession, page: LitElement, start: () => void) {
    this.#session = session;
    this.#page = page;
    this.#start = start;
  }

  async show(): Promise<void> {
    this.#link = undefined;
    this.#session.redraw();
    await this.#page.updateComplete;
    this.#dialog?.showModal();
    const { autosave } = this;
    if (autosave === undefined) return;
    await autosave.save();
    const database = await autosave.database();
    // The newest version is what is on screen.
    this.#earlier = (await autosave.versions(autosave.id)).slice(1);
    if (database !== undefined) {
      this.#keptStudies ??= new KeptStudies(this.#session, database, autosave, () => this.close());
      await this.#keptStudies.list();
    }
    this.#session.redraw();
  }

  get #dialog(): HTMLDialogElement | null {
    return this.#page.querySelector("dialog.study");
  }

  close(): void {
    this.#dialog?.close();
  }

  render(): TemplateResult {
    const session = this.#session;
    const { done, undone } = session.history;
    return html`<dialog class="study" aria-labelledby="study-heading">
      <h2 id="study-heading">Study</h2>
      <p class="row-of-actions">
        <button type="button" class="primary" @click=${() => {
          this.close();
          this.#start();
        }}>Start my own kitchen</button>
        <button type="button" @click=${() => {
          this.close();
          session.openFile();
        }}>Open a file</button>
        <button type="button" @click=${() => downloadStudy(session.study)}>Save to a file</button>
        <button type="button" @click=${() => this.#share()}>Share by link</button>
        <button type="button" @click=${() => {
          this.close();
          session.printToScale();
        }}>Print</button>
        <button type="button" @click=${async () => {
          const { workedExample } = await import("../example.ts");
          this.close();
          await session.open((await workedExample()) as unknown as Json, "open the worked example");
        }}>Worked example</button>
      </p>
      ${this.#link === undefined ? nothing : this.#linkPart(this.#link)}
      <details ?open=${done.length + undone.length > 0}>
        <summary>Changes (${done.length} done, ${undone.length} undone)</summary>
        <ol class="changes">
          ${done.map(
            (change, index) =>
              html`<li><button type="button" @click=${() => this.#backTo(done.length - 1 - index)}>${change.name}</button></li>`,
          )}
          ${[...undone].reverse().map((change) => html`<li class="undone">${change.name} (undone)</li>`)}
        </ol>
      </details>
      ${this.#earlier.length === 0 ? nothing : this.#versionList()}
      ${this.#keptStudies?.render() ?? nothing}
      <p class="row-of-actions"><button type="button" @click=${() => this.close()}>Close</button></p>
    </dialog>`;
  }

  #versionList(): TemplateResult {
    return html`<details>
      <summary>Earlier versions (${this.#earlier.length})</summary>
      <ul class="plain">
        ${this.#earlier.map(
          (version) => html`<li>
            <button type="button" @click=${() => {
              this.close();
              this.#session.history.replace(`version of ${when(version.saved)}`, version.document);
            }}>${when(version.saved)}, after ${version.change}</button>
          </li>`,
        )}
      </ul>
    </details>`;
  }

  /** Undoes the newest `count` changes, and so can be redone. */
  #backTo(count: number): void {
    for (let i = 0; i < count; i++) this.#session.history.undo();
    this.#session.redraw();
  }

  #linkPart({ link, isLong, excess }: StudyLink): TemplateResult {
    if (excess > 0) {
      return html`<div role="status">
        <p>The study is ${excess.toLocaleString()} characters too long for a link, mostly by its photometric files.</p>
        <p class="row-of-actions"><button type="button" @click=${() => downloadStudy(this.#session.study)}>Save it to a file to send</button></p>
      </div>`;
    }
    return html`<div class="field">
        <label for="study-link">Link: the whole study is in it, no server keeps it</label>
        <input id="study-link" type="text" readonly .value=${link} @focus=${(event: Event) => (event.target as HTMLInputElement).select()}>
      </div>
      ${isLong ? html`<p class="hint">It is long: some mail programs cut it, and then it says so when it is opened.</p>` : nothing}
      <p class="row-of-actions" role="status">
        <button type="button" @click=${() => this.#copy(link)}>Copy the link</button> ${this.#isCopied ? "Copied." : nothing}
      </p>`;
  }

  async #copy(link: string): Promise<void> {
    try {
      await navigator.clipboard.writeText(link);
      this.#isCopied = true;
    } catch {
      // Without leave to write the clipboard the link stands selected, for the person's own copy.
      this.#page.querySelector<HTMLInputElement>("#study-link")?.select();
    }
    this.#session.redraw();
  }

  async #share(): Promise<void> {
    this.#isCopied = false;
    this.#link = await linkOf(this.#session.study);
    this.#session.redraw();
    await this.#page.updateComplete;
    this.#page.querySelector<HTMLInputElement>("#study-link")?.select();
  }
}
