/** The papers of a hand-over as a drawer: everything at once, each paper by its picture, and the files beside them. Pictures are kept with the
 * study on screen until what they show changes. */

import { html, nothing, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";
import { PAPER_NAMES, type PaperName } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { isPictureEarlier, pictureOfRoom } from "../../store/room-pictures.ts";
import { EXPORTS, type Export, paperChoice, setPaperChoice } from "../exports.ts";
import type { SheetPictures } from "./paper-previews.ts";

interface Drawer {
  /** What the pictures show: study, option, people, paper, revision, note, rooms. */
  key: readonly unknown[];
  pictures?: SheetPictures;
  isRunning: boolean;
  problem?: string;
  /** How many options have a picture of their room on the sheets. */
  rooms?: number;
  /** What the PDFs cannot write. */
  unwritten?: string | undefined;
  /** The paper that is looked at. */
  shown?: Export;
}

const drawers = new WeakMap<AppView["lighting"], Drawer>();

export function paperDrawer(app: AppView, save: (each: Export) => void): TemplateResult {
  const drawer = drawers.get(app.lighting) ?? { key: [], isRunning: false };
  drawers.set(app.lighting, drawer);
  void lay(app, drawer);
  const [everything, ...rest] = EXPORTS;
  const papers = rest.filter(({ pdf }) => pdf !== undefined);
  const files = rest.filter(({ pdf }) => pdf === undefined);
  return html`
    <div class="fields">
      <div class="field">
        <label for="paper-size">Paper</label>
        <select id="paper-size" @change=${(event: Event) => {
          setPaperChoice({ paper: (event.target as HTMLSelectElement).value as PaperName });
          app.redraw();
        }}>
          ${PAPER_NAMES.map((name) => html`<option ?selected=${name === paperChoice(app).paper}>${name}</option>`)}
        </select>
      </div>
      <div class="field">
        <label for="paper-revision">Revision</label>
        <input id="paper-revision" type="text" maxlength="10" .value=${paperChoice(app).revision} @change=${(
          event: Event,
        ) => {
          setPaperChoice({ revision: (event.target as HTMLInputElement).value.trim() || "A" });
          app.redraw();
        }}>
      </div>
      <div class="field wide">
        <label for="paper-note">What is new</label>
        <input id="paper-note" type="text" maxlength="300" .value=${paperChoice(app).note ?? ""} @change=${(
          event: Event,
        ) => {
          setPaperChoice({ note: (event.target as HTMLInputElement).value.trim() });
          app.redraw();
        }}>
      </div>
    </div>
    <p class="row-of-actions">
      <button type="button" class="primary everything" @click=${() => save(everything)}>${everything.name}</button>
    </p>
    <p class="hint">${everything.words}</p>
    ${drawer.problem === undefined ? nothing : html`<p class="problem">✕ ${drawer.problem}</p>`}
    ${drawer.unwritten === undefined ? nothing : html`<p class="problem">! ${drawer.unwritten}</p>`}
    ${earlierPictures(app)}
    <ul class="plain drawer" aria-label="Papers" data-rooms=${drawer.rooms ?? 0}>
      ${papers.map((each) => paperItem(app, drawer, each, save))}
    </ul>
    <h3>As files</h3>
    <ul class="plain exports">
      ${files.map(
        (each) => html`<li>
          <button type="button" class="text" @click=${() => save(each)}>${each.name}</button>
          <p class="hint">${each.words}</p>
        </li>`,
      )}
    </ul>
    ${drawer.shown === undefined ? nothing : largePaper(app, drawer, drawer.shown, save)}
  `;
}

/** Rooms that were pictured before a change, each with the way to a new picture. */
function earlierPictures(app: AppView): TemplateResult[] {
  return app.study.arrangements.flatMap(({ name }, i) => {
    if (!isPictureEarlier(app, i)) return [];
    const showRoom = (): void => {
      if (i !== app.arrangement) app.showArrangement(i);
      app.showOnSheet("room");
    };
    return [
      html`<p class="problem">! The picture of ${name} was made before the last change: it is not on the client's sheet.
        <button type="button" class="text" @click=${showRoom}>Look at Room once more</button></p>`,
    ];
  });
}

function paperItem(app: AppView, drawer: Drawer, each: Export, save: (each: Export) => void): TemplateResult {
  const [first] = drawer.pictures?.get(each.pdf ?? "") ?? [];
  const show = (): void => {
    drawer.shown = each;
    app.redraw();
  };
  return html`<li>
    <button type="button" class="picture" ?disabled=${first === undefined} @click=${show}>
      <span class="visually-hidden">Look at ${each.name}</span>
      ${
        first === undefined
          ? html`<span class="hint">${drawer.problem === undefined ? "Being laid out…" : "No picture"}</span>`
          : html`<img src=${first} alt="">`
      }
    </button>
    <button type="button" class="text" title=${each.words} @click=${() => save(each)}>${each.name}</button>
  </li>`;
}

function largePaper(
  app: AppView,
  drawer: Drawer,
  paper: Export,
  save: (each: Export) => void,
): TemplateResult {
  const show = (element: Element | undefined): void => {
    if (element instanceof HTMLDialogElement && !element.open)
      queueMicrotask(() => element.isConnected && element.showModal());
  };
  const close = (): void => {
    drawer.shown = undefined;
    app.redraw();
  };
  return html`<dialog class="paper" aria-labelledby="paper-heading" ${ref(show)} @close=${close}>
    <h2 id="paper-heading">${paper.name}</h2>
    <p class="hint">${paper.words} Its sheets are numbered among all of the set, which the ZIP holds.</p>
    ${(drawer.pictures?.get(paper.pdf ?? "") ?? []).map(
      (address, i) => html`<img src=${address} alt="Sheet ${i + 1} of ${paper.name}">`,
    )}
    <p class="row-of-actions">
      <button type="button" class="primary" @click=${() => save(paper)}>Save</button>
      <button type="button" @click=${close}>Close</button>
    </p>
  </dialog>`;
}

/** Lays the papers out when the light is judged and anything they show is another. */
async function lay(app: AppView, drawer: Drawer): Promise<void> {
  const choice = paperChoice(app);
  const pictured = app.study.arrangements.flatMap((_, i) => (pictureOfRoom(app, i) === undefined ? [] : [i]));
  const key = [
    app.study,
    app.arrangement,
    app.withPeople,
    choice.paper,
    choice.revision,
    choice.note,
    pictured.join(),
    app.study.arrangements.map((_, i) => isPictureEarlier(app, i)).join(),
  ];
  const isSame = drawer.key.length > 0 && key.every((part, i) => part === drawer.key[i]);
  if (isSame || drawer.isRunning || app.lighting.shown?.quality !== "judged" || app.lighting.isBehind) return;
  drawer.isRunning = true;
  drawer.key = key;
  drawer.problem = undefined;
  try {
    const { sheetPictures } = await import("./paper-previews.ts");
    const { pictures, unwritten } = await sheetPictures(app, choice, drawer.pictures);
    drawer.pictures = pictures;
    drawer.unwritten = unwritten;
    drawer.rooms = pictured.length;
  } catch (error) {
    drawer.problem = error instanceof Error ? error.message : String(error);
  }
  drawer.isRunning = false;
  app.redraw();
}
