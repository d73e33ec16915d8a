/** The room as it will be lit: the option on screen, and another beside it if wanted. The last picture of each, and the scene in
 * direct light, are kept until the next of another document or option is there. */

import { html, nothing, render, type TemplateResult } from "lit";
import { arrangementLetters, EVIDENCE } from "../../src/app.ts";
import { CandlespanPreview } from "../../src/preview/preview.ts";
import type { Progress } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import { atLevelsOf, isSameLight, pictureWords, type ShownRoom } from "../light/room-light-state.ts";
import type { RoomTask } from "../light/room-task.ts";
import type { StudySession } from "../session.ts";
import type { Json } from "../store/pointer.ts";
import { keepPictureOfRoom } from "../store/room-pictures.ts";
import { taskPart } from "./task-part.ts";

let beside: number | undefined;
/** What the picture shows: the room's light, or before it is there the scene in its direct light. */
type Side = Pick<ShownRoom, "scene"> & Partial<ShownRoom>;

/** Of which option of which document it is. */
interface KnownSide {
  readonly document: Json;
  readonly arrangement: number;
  readonly side: Side;
}

/** The last picture of each option, which stays while the next is computed: whoever walks about in it keeps their place. */
const last = new Map<number, KnownSide>();

/** The picture stays made while something else stands on the sheet, out of the page: a return to it compiles and lights nothing. */
const place = document.createElement("div");
place.className = "kept-picture";

/** What the luminaires' light rests on, in words. */
function inputsOf({ scene }: Side): string {
  const words = scene.layers.map(({ name, luminaires }) => {
    const [first] = luminaires;
    return first === undefined ? "" : `${name}: ${EVIDENCE[first.luminaire.evidence].words}`;
  });
  return words.filter((each) => each !== "").join(", ");
}

function valueIn(task: RoomTask | undefined): ShownRoom | undefined {
  return task?.state.status === "complete" ? task.state.value : undefined;
}

/** A line that says what is computed and how far it is, with the way out. */
function progressLine(
  words: string,
  progress: Progress | undefined,
  way: string,
  out: () => void,
): TemplateResult {
  return html`<p slot="progress" class="waiting-line">
    ${words} <progress max="1" value=${progress?.fraction ?? nothing} aria-label=${words}></progress>
    ${progress?.stage ?? ""} <button type="button" @click=${out}>${way}</button>
  </p>`;
}

/** How far the light on the surfaces is; undefined once it is there. */
function stateLine(app: AppView, task: RoomTask | undefined, words: string): TemplateResult | undefined {
  const { state, refining, isStopped = false } = task ?? {};
  if (state?.status === "error")
    return html`<div slot="progress">${taskPart(app, task, "", () => html``)}</div>`;
  if (refining !== undefined)
    return progressLine(
      "A sketch; the light in full is being computed",
      refining.progress,
      "Stop here",
      () => {
        task?.stop();
        app.redraw();
      },
    );
  if (isStopped)
    return html`<p slot="progress" class="waiting-line">A sketch. <button type="button" @click=${() => task?.goOn()}>Compute in full</button></p>`;
  if (state?.status === "complete") return undefined;
  const progress = state?.status === "pending" ? state.progress : undefined;
  return progressLine(words, progress, "Back to the drawings", () => app.showOnSheet("drawings"));
}

function choiceOfOther(app: AppView): TemplateResult | typeof nothing {
  const { results } = app;
  const { arrangements } = app.study;
  if (arrangements.length < 2) return nothing;
  const letters = arrangementLetters(arrangements);
  return html`<label slot="controls">Beside it
    <select @change=${(event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      beside = value === "" ? undefined : Number(value);
      if (beside === undefined) results?.release("otherRoom");
      else results?.need("otherRoom", beside);
      app.redraw();
    }}>
      <option value="" ?selected=${beside === undefined}>nothing</option>
      ${arrangements.map((each, i) =>
        i === app.arrangement
          ? nothing
          : html`<option value=${i} ?selected=${i === beside}>${letters[i]} ${each.name}</option>`,
      )}
    </select>
  </label>`;
}

let lastBeside: KnownSide | undefined;

/** The option beside it, which stays while what changes its light in nothing, such as a dimmer, has it asked for anew. */
function besideNow({ results, history: { document } }: AppView): Side | undefined {
  if (beside === undefined) return undefined;
  const side = valueIn(results?.otherRoom);
  if (side !== undefined) lastBeside = { document, arrangement: beside, side };
  const isKnown = lastBeside?.arrangement === beside && isSameLight(lastBeside.document, document);
  return isKnown ? lastBeside?.side : undefined;
}

let direct: KnownSide | undefined;

/** The scene that the drawings show, one and the same however often its light is refined. Programs are compiled for it while the
 * light on the surfaces is computed. */
function directOf({ light, lighting, history: { document }, arrangement }: AppView): KnownSide | undefined {
  const isKnown = direct?.arrangement === arrangement && isSameLight(direct.document, document);
  if (light !== undefined && !lighting.isBehind && !isKnown)
    direct = { document, arrangement, side: { scene: light.scene, sketched: true } };
  return direct?.arrangement === arrangement ? direct : undefined;
}

let dimmed: { readonly side: Side; readonly shown: Side } | undefined;

/** With the layers dimmed as in the drawings, which know it before the room's own answer is there. */
function dimmedAsDrawn({ lighting: { shown: drawn } }: AppView, known: KnownSide): Side {
  const { document, arrangement, side } = known;
  const before = dimmed?.side === side ? dimmed.shown : side;
  // What is drawn may be of a document before the newest: while it moves on, the picture moves with it.
  const { embedded: _, ...asked } = document as { readonly [key: string]: Json };
  const isSame = drawn?.arrangement === arrangement && isSameLight(asked, drawn.document);
  if (!isSame) return before;
  const scene = atLevelsOf(before.scene, drawn.answer.scene);
  dimmed = { side, shown: scene === before.scene ? before : { ...side, scene } };
  return dimmed.shown;
}

/** Time for a frame to be drawn and a walk to end before the picture is kept (ms). */
const AT_REST = 600;
let waiting: ReturnType<typeof setTimeout> | undefined;

/** Keeps the picture of the option on screen once its light is complete and nobody moves. */
function keepAtRest(app: AppView): void {
  clearTimeout(waiting);
  const { arrangement, study } = app;
  const task = app.results?.room;
  if (beside !== undefined || valueIn(task) === undefined || task?.refining !== undefined) return;
  waiting = setTimeout(() => {
    const element = document.querySelector("candlespan-preview");
    if (element === null || app.arrangement !== arrangement || app.study !== study) return;
    // A picture that cannot be coded is left out of the sheet.
    void element.picture().then(
      (png) => keepPictureOfRoom(app, png),
      () => undefined,
    );
  }, AT_REST);
}

/** What is above and in the picture has its height within so long (ms). */
const SETTLED = 1500;

/** In a low window the picture comes up whole from under the verdict, while what is above it takes its height. */
function inView(element: Element | null): void {
  if (!(element instanceof CandlespanPreview) || !matchMedia("(max-height: 559px)").matches) return;
  const area = element.closest(".sheet-area");
  const up = new ResizeObserver(() =>
    element.shadowRoot?.querySelector(".stage")?.scrollIntoView({ block: "start" }),
  );
  for (const each of [element, ...(area?.children ?? [])]) up.observe(each);
  setTimeout(() => up.disconnect(), SETTLED);
}

export function roomPicture(app: StudySession): TemplateResult {
  const { arrangements } = app.study;
  if (beside === app.arrangement || (beside !== undefined && arrangements[beside] === undefined))
    beside = undefined;
  const { results } = app;
  const current = valueIn(results?.room);
  const { arrangement, history } = app;
  if (current !== undefined && current !== last.get(arrangement)?.side)
    last.set(arrangement, { document: history.document, arrangement, side: current });
  const picture = last.get(arrangement) ?? directOf(app);
  const room = picture === undefined ? undefined : dimmedAsDrawn(app, picture);
  const other = besideNow(app);
  const isEarlier = picture !== undefined && !isSameLight(picture.document, history.document);
  const words = pictureWords(isEarlier, room?.surfaces !== undefined);
  const state = stateLine(app, results?.room, words);
  if (room === undefined) return state ?? html``;
  // One line at a time: of what is beside it once this is there.
  const line =
    state ?? (beside === undefined ? undefined : stateLine(app, results?.otherRoom, "The light beside it"));
  const { people = false } = room;
  keepAtRest(app);
  const isBack = !place.isConnected;
  // By direct light alone the eye would be used to a dark room: white tops under a black ceiling.
  const isUnlit = room.surfaces === undefined && results?.room.state.status !== "error";
  const parts = html`
    <candlespan-preview
      kept
      ?plain=${app.screen.isForClient}
      ?data-unlit=${isUnlit}
      .side=${room}
      .other=${other}
      .unit=${app.display.illuminance}
      ?people=${people}
      ?data-earlier=${isEarlier}
      .date=${new Date().toISOString().slice(0, 10)}
      .inputs=${inputsOf(room)}
      @pointerup=${() => keepAtRest(app)}
      @keyup=${() => keepAtRest(app)}
    >${choiceOfOther(app)}${line ?? nothing}</candlespan-preview>
  `;
  render(parts, place);
  if (isBack) queueMicrotask(() => inView(place.firstElementChild));
  return html`${place}`;
}
