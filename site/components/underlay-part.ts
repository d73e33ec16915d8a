/** The drawing underneath the floor plan: brought, scaled by two points and a length, turned, moved, faded, kept, removed. */

import { html, nothing, type TemplateResult } from "lit";
import {
  FILE_LIMITS,
  megabytes,
  metresOf,
  type Outcome,
  PDF_UNDERLAY,
  scaledBy,
  turnedAbout,
  turnOntoAxis,
  type UnderlayImage,
  type UnderlayPlacement,
  underlayFile,
} from "../../src/app.ts";
import type { FieldChangeDetail, UnderlayMoveDetail, UnderlayPointsDetail } from "../../src/elements.ts";
import "../../src/elements/length-field/length-field.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import type { StudySession } from "../session.ts";
import { askForFiles } from "../storage/ask-for-files.ts";
import { embed } from "../storage/embed.ts";
import { keepPicture, pictureBytes, type ShownPicture, shownPicture } from "../storage/underlay-images.ts";
import type { Json } from "../store/pointer.ts";
import { numberField } from "./fields.ts";

type Vec2 = readonly [number, number];
type Placed = NonNullable<RawStudy["underlay"]>;
type Tool = "move" | "points";

/** What is on screen of it, beside the study. */
class UnderlayScreen {
  tool: Tool | undefined;
  points: readonly [Vec2, Vec2] | undefined;
  /** Of the study shown last: its picture, or why there is none. */
  #name: string | undefined;
  #embedded: unknown;
  picture: ShownPicture | undefined;
  isMissing = false;

  /** Brings the study's picture where it is another than that shown. */
  follow(session: StudySession): void {
    const { underlay, embedded } = session.study;
    const own = underlay === undefined ? undefined : embedded?.[underlay.image];
    if (underlay?.image === this.#name && (own === this.#embedded || own === undefined)) return;
    this.show(undefined);
    this.#name = underlay?.image;
    this.#embedded = own;
    this.tool = undefined;
    if (underlay !== undefined) void this.#bring(session, underlay.image);
  }

  show(picture: ShownPicture | undefined): void {
    if (this.picture !== undefined) URL.revokeObjectURL(this.picture.href);
    this.picture = picture;
    this.isMissing = false;
  }

  async #bring(session: StudySession, name: string): Promise<void> {
    const bytes = await pictureBytes(session.study, name);
    const picture = bytes === undefined ? undefined : await shownPicture(bytes, name);
    if (this.#name !== name) return;
    if (picture?.ok) this.show(picture.value);
    else this.isMissing = true;
    if (picture !== undefined && !picture.ok) session.refuse(`${name} is not shown.`, picture.issues);
    session.redraw();
  }
}

const screens = new WeakMap<StudySession, UnderlayScreen>();

function screenOf(session: StudySession): UnderlayScreen {
  let screen = screens.get(session);
  if (screen === undefined) {
    screen = new UnderlayScreen();
    screens.set(session, screen);
  }
  return screen;
}

function placementOf({ scale = 0.01, turn = 0, origin = [0, 0] }: Placed): UnderlayPlacement {
  return { scale, turn, origin: [metresOf(origin[0]) ?? 0, metresOf(origin[1]) ?? 0] };
}

/** What the floor plan draws underneath, and what the hand does to it. */
export function underlayOf(session: StudySession): {
  readonly image: UnderlayImage | undefined;
  readonly tool: Tool | undefined;
  readonly points: readonly [Vec2, Vec2] | undefined;
} {
  const screen = screenOf(session);
  screen.follow(session);
  const { underlay } = session.study;
  const { picture, tool, points } = screen;
  if (underlay === undefined || picture === undefined)
    return { image: undefined, tool: undefined, points: undefined };
  return { image: { ...placementOf(underlay), ...picture, opacity: underlay.opacity ?? 0.5 }, tool, points };
}

export function putPoints(session: StudySession, { points }: UnderlayPointsDetail): void {
  screenOf(session).points = points;
  session.redraw();
}

export function moveUnderlay(session: StudySession, { by }: UnderlayMoveDetail): void {
  const { underlay } = session.study;
  if (underlay === undefined) return;
  const { origin } = placementOf(underlay);
  change(session, "move the drawing underneath", {
    ...underlay,
    origin: [rounded(origin[0] + by[0]), rounded(origin[1] + by[1])],
  });
}

/** Brings a picture from a file; what is there stays where it is refused. */
export async function bringUnderlay(session: StudySession, file: File): Promise<void> {
  const given = new Uint8Array(await file.arrayBuffer());
  const read = underlayFile(given, file.name);
  const isPdf = !read.ok && read.issues.some(({ code }) => code === PDF_UNDERLAY);
  const page = isPdf ? await pageOf(session, given, file.name) : undefined;
  const bytes = page?.ok === true ? page.value : given;
  let name = page?.ok === true ? file.name.replace(/\.pdf$/i, "").concat(", page 1.png") : file.name;
  const picture = page?.ok === false ? page : await shownPicture(bytes, name);
  if (!picture.ok) {
    session.refuse(`${file.name} was not laid under the plan.`, picture.issues);
    return;
  }
  URL.revokeObjectURL(picture.value.href);
  try {
    name = await keepPicture(name, bytes);
  } catch {
    session.refuse("This browser keeps no pictures: keep it in the study file.", []);
  }
  const { length, width } = roomOf(session);
  const scale = Math.max(length / picture.value.width, width / picture.value.height);
  if (session.sheetContent !== "floor plan") session.showOnSheet("floor plan");
  change(session, `lay ${name} underneath`, { image: name, scale: significant(scale), origin: [0, 0] });
  session.say(`${name} lies under the floor plan. Scale it by two points and the length between them.`);
}

/** The first page of a PDF as a picture; what draws it loads when it is first asked for. */
async function pageOf(
  session: StudySession,
  bytes: Uint8Array<ArrayBuffer>,
  name: string,
): Promise<Outcome<Uint8Array<ArrayBuffer>>> {
  session.say(`Drawing the first page of ${name}…`);
  const { firstPage } = await import("../storage/pdf-page.ts");
  return firstPage(bytes, name);
}

function change(session: StudySession, name: string, underlay: Placed): void {
  session.edit({ name, edits: [{ path: ["underlay"], value: underlay as unknown as Json }] });
}

/** A tenth of a millimetre is finer than any line drawn. */
const rounded = (metres: number): number => Math.round(metres * 1e4) / 1e4;
/** A scale holds to a pixel over ten thousand of them. */
const significant = (value: number): number => Number(value.toPrecision(8));

export function underlayPart(session: StudySession): TemplateResult {
  const { underlay } = session.study;
  if (underlay === undefined)
    return html`<p class="row-of-actions">
      <button type="button" @click=${() => askForPicture(session)}>Lay a drawing underneath</button>
      <span class="hint">A plan to trace, as PNG, JPEG, SVG or the first page of a PDF. It stays on this machine.</span>
    </p>`;
  const screen = screenOf(session);
  const { picture, isMissing } = screen;
  return html`<section class="underlay" aria-label="Drawing underneath">
    <p class="row-of-actions">
      <strong>${underlay.image}</strong>
      ${picture === undefined ? nothing : toolChoice(session, screen)}
      <button type="button" @click=${() => askForPicture(session)}>Another drawing</button>
      <button type="button" @click=${() => remove(session, underlay)}>Remove the drawing underneath</button>
    </p>
    ${
      isMissing
        ? html`<p class="problem">✕ ${underlay.image} is neither in the study nor in this browser: lay it underneath again.</p>`
        : nothing
    }
    ${picture === undefined ? nothing : toolPart(session, screen, underlay, picture)}
  </section>`;
}

function toolChoice(session: StudySession, screen: UnderlayScreen): TemplateResult {
  const choose = (tool: Tool): void => {
    screen.tool = screen.tool === tool ? undefined : tool;
    if (screen.tool === "points") screen.points ??= firstPoints(session);
    session.redraw();
  };
  const button = (tool: Tool, name: string): TemplateResult => html`<button type="button"
    aria-pressed=${screen.tool === tool ? "true" : "false"} @click=${() => choose(tool)}>${name}</button>`;
  return html`${button("points", "Scale by two points")} ${button("move", "Move")}`;
}

/** What belongs to the tool in the hand; without one, how the drawing looks and where it is kept. */
function toolPart(
  session: StudySession,
  screen: UnderlayScreen,
  underlay: Placed,
  picture: ShownPicture,
): TemplateResult {
  if (screen.tool === "points" && screen.points !== undefined)
    return pointsPart(session, screen, underlay, screen.points);
  if (screen.tool === "move")
    return html`<p class="hint">Drag it, or move it with the arrow keys; with Shift, finely.</p>`;
  return html`<div class="in-a-row">
    ${numberField(session, {
      label: "Turn",
      path: ["underlay", "turn"],
      change: "turn the drawing underneath",
      from: -360,
      to: 360,
      unit: "°",
      fallback: 0,
      edits: (turn) => [
        { path: ["underlay"], value: turnedTo(session, underlay, Number(turn ?? 0)) as unknown as Json },
      ],
    })}
    ${numberField(session, {
      label: "Strength",
      path: ["underlay", "opacity"],
      change: "strength of the drawing underneath",
      from: 0,
      to: 1,
      times: 100,
      unit: " %",
      fallback: 0.5,
    })}
    ${keeping(session, underlay, picture)}
  </div>`;
}

/** Turned about the middle of the room, so that what is seen of it stays in sight. */
function turnedTo(session: StudySession, underlay: Placed, turn: number): Placed {
  const { length, width } = roomOf(session);
  const before = placementOf(underlay);
  return written(underlay, turnedAbout(before, [length / 2, width / 2], turn - before.turn));
}

function roomOf(session: StudySession): { readonly length: number; readonly width: number } {
  return session.light?.scene.room ?? { length: 4, width: 4 };
}

/** Within the room, wherever the picture reaches. */
function firstPoints(session: StudySession): readonly [Vec2, Vec2] {
  const { length, width } = roomOf(session);
  return [
    [0.25 * length, width / 2],
    [0.75 * length, width / 2],
  ];
}

function pointsPart(
  session: StudySession,
  screen: UnderlayScreen,
  underlay: Placed,
  points: readonly [Vec2, Vec2],
): TemplateResult {
  const [a, b] = points;
  const apart = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const setLength = ({ value, words }: FieldChangeDetail): void => {
    const placed = scaledBy(placementOf(underlay), points, value);
    if (placed === undefined) return;
    const k = value / apart;
    screen.points = [a, [a[0] + k * (b[0] - a[0]), a[1] + k * (b[1] - a[1])]];
    place(session, underlay, placed, `scale the drawing underneath, ${words}`);
  };
  const layLevel = (): void => {
    const by = turnOntoAxis(points);
    const [c, s] = [Math.cos((by * Math.PI) / 180), Math.sin((by * Math.PI) / 180)];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    screen.points = [a, [a[0] + c * dx - s * dy, a[1] + s * dx + c * dy]];
    place(session, underlay, turnedAbout(placementOf(underlay), a, by), "turn the drawing underneath");
  };
  return html`<div class="in-a-row">
    <candlespan-length-field
      class="field"
      label="Length between the points"
      .display=${session.display}
      .least=${0.01}
      .most=${1000}
      .value=${apart}
      @field-change=${(event: CustomEvent<FieldChangeDetail>) => setLength(event.detail)}
    ></candlespan-length-field>
    <button type="button" @click=${layLevel}>Turn the line level or upright</button>
    <p class="hint">
      Put both points where a length is known: press in the plan, drag them, or move them with the arrow keys. Then type that length.
    </p>
  </div>`;
}

function place(session: StudySession, underlay: Placed, placement: UnderlayPlacement, name: string): void {
  change(session, name, written(underlay, placement));
}

/** As the study holds it. */
function written(underlay: Placed, { scale, turn, origin }: UnderlayPlacement): Placed {
  return {
    ...underlay,
    scale: significant(scale),
    turn: Math.round(turn * 1e4) / 1e4,
    origin: [rounded(origin[0]), rounded(origin[1])],
  };
}

/** Whether the study's file carries the picture, or this browser alone has it. */
function keeping(session: StudySession, { image }: Placed, { bytes }: ShownPicture): TemplateResult {
  const isInside = session.study.embedded?.[image] !== undefined;
  const size = megabytes(bytes);
  if (!isInside && bytes > FILE_LIMITS.underlayInStudy)
    return html`<p class="hint">
      It stays in this browser: with ${size} it is too large for the study file, which takes at most ${megabytes(FILE_LIMITS.underlayInStudy)}.
    </p>`;
  return html`<label class="hint"><input type="checkbox" .checked=${isInside}
      @change=${(event: Event) => void keepInside(session, image, (event.target as HTMLInputElement).checked)} />
      Keep it in the study file (${size} of at most ${megabytes(FILE_LIMITS.underlayInStudy)})${isInside ? nothing : "; until then in this browser alone"}</label>`;
}

async function keepInside(session: StudySession, image: string, inside: boolean): Promise<void> {
  const bytes = await pictureBytes(session.study, image);
  if (bytes === undefined) return;
  if (!inside) await keepPicture(image, bytes).catch(() => undefined);
  session.edit({
    name: inside ? `keep ${image} in the study` : `keep ${image} beside the study`,
    edits: [{ path: ["embedded", image], value: inside ? embed(bytes) : undefined }],
  });
}

function remove(session: StudySession, { image }: Placed): void {
  const isInside = session.study.embedded?.[image] !== undefined;
  session.edit({
    name: "remove the drawing underneath",
    edits: [
      { path: ["underlay"], value: undefined },
      ...(isInside ? [{ path: ["embedded", image], value: undefined }] : []),
    ],
  });
}

function askForPicture(session: StudySession): void {
  const asked = { accept: [".png", ".jpg", ".jpeg", ".svg", ".pdf"], multiple: false };
  askForFiles((files) => {
    if (files.length > 0) void bringUnderlay(session, files[0]);
  }, asked);
}
