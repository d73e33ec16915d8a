/**
 * The hand on the sheet: one movement, however many steps it takes, is one change of the study with one name, and
 * Escape leaves the study as the hand found it.
 */

import type { LuminaireMoveDetail } from "../../src/elements.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { AppView, EditOptions } from "../app-view.ts";
import { lengthText } from "../components/words.ts";
import type * as LuminaireEdits from "./luminaires.ts";
import type { Vec3 } from "./luminaires.ts";
import type { NamedEdit } from "./named-edit.ts";
import type { RawStudy } from "./raw-study.ts";

/** What the hand holds while it drags: the study and scene it took hold of. */
interface Hold {
  readonly mark: string;
  readonly study: RawStudy;
  readonly scene: LightAnswer["scene"];
}

/** What arrow keys have moved so far: presses that follow each other are one movement, counted from where it began, whatever is drawn yet. */
interface Keys extends Hold {
  readonly arrangement: number;
  readonly moved: string;
  readonly by: Vec3;
  /** The document after the last press. */
  readonly after: unknown;
  readonly at: number;
}

/** Longest pause between presses of one movement (ms): longer than a keyboard waits before it repeats a held key. */
const PAUSE = 800;

export class DragEdit {
  readonly #app: AppView;
  /** Asks for the light of the study as it stands, at rest. */
  readonly #settle: () => void;
  #count = 0;
  #hold: Hold | undefined;
  #keys: Keys | undefined;
  #slider: { readonly hand: string; readonly mark: string } | undefined;
  #moving = false;

  constructor(app: AppView, settle: () => void) {
    this.#app = app;
    this.#settle = settle;
  }

  /** Whether coarse light will do for the change being made. */
  get isMoving(): boolean {
    return this.#moving || this.#hold !== undefined;
  }

  /** Makes a change; those of one movement of a slider become one. */
  edit(edit: NamedEdit, options: EditOptions): void {
    this.#change(
      edit,
      options.hand === undefined ? undefined : this.#markOf(options),
      options.moving === true,
    );
  }

  /** Follows luminaires moved on the sheet. */
  move(detail: LuminaireMoveDetail, edits: typeof LuminaireEdits): void {
    const app = this.#app;
    const scene = app.light?.scene;
    if (scene === undefined) return;
    if (detail.by === "keyboard") {
      this.#press(detail, scene, edits);
      return;
    }
    if (detail.phase === "cancel") {
      if (this.#hold !== undefined) app.history.abandon(this.#hold.mark);
      this.#hold = undefined;
      this.#settle();
      return;
    }
    this.#hold ??= { mark: `hand ${++this.#count}`, study: app.study, scene };
    const hold = this.#hold;
    const by = detail.position.map((value, axis) => value - detail.from[axis]) as unknown as Vec3;
    const edit = edits.moveLuminaires(hold.study, app.arrangement, hold.scene, detail.moves, by);
    if (detail.phase === "commit") this.#hold = undefined;
    this.#change({ ...edit, name: this.#nameOf(edit, detail, hold) }, hold.mark, detail.phase === "drag");
  }

  /** One press of an arrow key. */
  #press(detail: LuminaireMoveDetail, scene: Hold["scene"], edits: typeof LuminaireEdits): void {
    const app = this.#app;
    const { arrangement, history } = app;
    const moved = JSON.stringify(detail.moves.map(({ layer, index }) => [layer, index]));
    const before = this.#keys;
    const at = performance.now();
    const goesOn =
      before !== undefined &&
      before.after === history.document &&
      before.arrangement === arrangement &&
      before.moved === moved &&
      // What is drawn may still be from before the last press: such a press belongs to it however late it comes.
      (at - before.at < PAUSE || app.lighting.isBehind);
    const hold = goesOn ? before : { mark: `hand ${++this.#count}`, study: app.study, scene };
    const step = detail.position.map((value, axis) => value - detail.from[axis]);
    const by = step.map((value, axis) => value + (goesOn ? before.by[axis] : 0)) as unknown as Vec3;
    const edit = edits.moveLuminaires(hold.study, arrangement, hold.scene, detail.moves, by);
    this.#change({ ...edit, name: this.#nameOf(edit, detail, hold) }, hold.mark, false);
    this.#keys = { ...hold, arrangement, moved, by, after: history.document, at };
    app.say(`${history.done.at(-1)?.name ?? detail.name}.`);
  }

  #change({ name, edits }: NamedEdit, mark: string | undefined, moving: boolean): void {
    const { history } = this.#app;
    this.#moving = moving;
    const before = history.document;
    history.change(name, edits, mark);
    // The end of a movement may change nothing more, but it is time to refine.
    if (before === history.document && !moving) this.#settle();
    this.#moving = false;
  }

  /** One mark from the first to the last edit of a movement; the next movement of the same slider gets another. */
  #markOf({ hand = "", moving = false }: EditOptions): string {
    if (this.#slider?.hand !== hand) this.#slider = { hand, mark: `${hand} ${++this.#count}` };
    const { mark } = this.#slider;
    if (!moving) this.#slider = undefined;
    return mark;
  }

  #nameOf(edit: NamedEdit, detail: LuminaireMoveDetail, hold: Hold): string {
    const row = hold.study.arrangements[this.#app.arrangement].layers[detail.layer].row;
    const lift = detail.position[2] - detail.from[2];
    if (row?.clearance !== undefined && lift !== 0) {
      const now = edit.edits[0]?.value as unknown as RawStudy["arrangements"][number]["layers"];
      const clearance = now?.[detail.layer]?.row?.clearance;
      if (typeof clearance === "number") return `clearance ${lengthText(this.#app, clearance)}`;
    }
    const why = detail.reasons.length > 0 ? `, ${detail.reasons.join(", ")}` : "";
    return edit.name + why;
  }
}
