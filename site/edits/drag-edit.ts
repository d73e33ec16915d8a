/**
 * The hand on the sheet: one movement, however many steps it takes, is one change of the study with one name, and
 * Escape leaves the study as the hand found it.
 */

import type { ItemMoveDetail, LuminaireMoveDetail } from "../../src/elements.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { AppView, EditOptions } from "../app-view.ts";
import { lengthText } from "../components/words.ts";
import { withFollowingNames } from "./following-names.ts";
import type { KitchenItem } from "./kitchen-moves.ts";
import type * as LuminaireEdits from "./luminaires.ts";
import type { Vec3 } from "./luminaires.ts";
import type { NamedEdit } from "./named-edit.ts";
import type { RawStudy } from "./raw-study.ts";

/** What the hand holds while it drags: the study it took hold of. */
interface StudyHold {
  readonly mark: string;
  readonly study: RawStudy;
}

interface Hold extends StudyHold {
  readonly scene: LightAnswer["scene"];
}

/** What arrow keys have moved so far: presses that follow each other are one movement, counted from where it began, whatever is drawn yet. */
interface Keys {
  readonly hold: StudyHold;
  readonly moved: string;
  readonly by: readonly number[];
  /** The document after the last press. */
  readonly after: unknown;
  readonly at: number;
}

/** Longest pause between presses of one movement (ms): longer than a keyboard waits before it repeats a held key. */
const PAUSE = 800;

/** What a move of a thing, or of a side of it, makes of the study. */
export type ItemEditOf = (
  study: RawStudy,
  detail: KitchenItem & Pick<ItemMoveDetail, "move" | "side" | "distance">,
) => NamedEdit | undefined;

export class DragEdit {
  readonly #app: AppView;
  /** Asks for the light of the study as it stands, at rest. */
  readonly #settle: () => void;
  #count = 0;
  #hold: Hold | undefined;
  #itemHold: StudyHold | undefined;
  #keys: Keys | undefined;
  #slider: { readonly gesture: string; readonly mark: string } | undefined;
  #moving = false;

  constructor(app: AppView, settle: () => void) {
    this.#app = app;
    this.#settle = settle;
  }

  /** Whether coarse light will do for the change being made. */
  get isMoving(): boolean {
    return this.#moving || this.#hold !== undefined || this.#itemHold !== undefined;
  }

  /** Makes a change; those of one movement of a slider become one. */
  edit(edit: NamedEdit, options: EditOptions): void {
    this.#change(
      edit,
      options.gesture === undefined ? undefined : this.#markOf(options),
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
    this.#hold ??= { mark: `drag ${++this.#count}`, study: app.study, scene };
    const hold = this.#hold;
    const by = detail.position.map((value, axis) => value - detail.from[axis]) as unknown as Vec3;
    const edit = edits.moveLuminaires(hold.study, app.arrangement, hold.scene, detail.moves, by);
    if (detail.phase === "commit") this.#hold = undefined;
    this.#change({ ...edit, name: this.#nameOf(edit, detail, hold) }, hold.mark, detail.phase === "drag");
  }

  /** Follows a thing of the room, or one side of it, moved on the floor plan. */
  moveItem(detail: ItemMoveDetail, editOf: ItemEditOf): void {
    const { history, study } = this.#app;
    if (detail.by === "keyboard") {
      const moved = JSON.stringify([detail.kind, detail.index, detail.side]);
      const [before, by] = this.#pressed(moved, [...detail.move, detail.distance]);
      const hold = before ?? { mark: `drag ${++this.#count}`, study };
      const edit = editOf(hold.study, { ...detail, move: [by[0], by[1]], distance: by[2] });
      if (edit === undefined) return;
      this.#change(edit, hold.mark, false);
      this.#keys = { hold, moved, by, after: history.document, at: performance.now() };
      this.#app.say(`${edit.name}.`);
      return;
    }
    if (detail.phase === "cancel") {
      if (this.#itemHold !== undefined) history.abandon(this.#itemHold.mark);
      this.#itemHold = undefined;
      this.#settle();
      return;
    }
    this.#itemHold ??= { mark: `drag ${++this.#count}`, study };
    const hold = this.#itemHold;
    const edit = editOf(hold.study, detail);
    if (detail.phase === "commit") this.#itemHold = undefined;
    if (edit !== undefined) this.#change(edit, hold.mark, detail.phase === "drag");
    else if (detail.phase === "commit") this.#settle();
  }

  /** One press of an arrow key. */
  #press(detail: LuminaireMoveDetail, scene: Hold["scene"], edits: typeof LuminaireEdits): void {
    const app = this.#app;
    const { arrangement, history } = app;
    const moved = JSON.stringify([arrangement, detail.moves.map(({ layer, index }) => [layer, index])]);
    const step = detail.position.map((value, axis) => value - detail.from[axis]);
    const [before, by] = this.#pressed(moved, step);
    const hold = (before as Hold | undefined) ?? { mark: `drag ${++this.#count}`, study: app.study, scene };
    const edit = edits.moveLuminaires(
      hold.study,
      arrangement,
      hold.scene,
      detail.moves,
      by as unknown as Vec3,
    );
    this.#change({ ...edit, name: this.#nameOf(edit, detail, hold) }, hold.mark, false);
    this.#keys = { hold, moved, by, after: history.document, at: performance.now() };
    app.say(`${history.done.at(-1)?.name ?? detail.name}.`);
  }

  /** The hold a press goes on from, if it does, and what the keys have moved with it. */
  #pressed(
    moved: string,
    step: readonly number[],
  ): readonly [hold: StudyHold | undefined, by: readonly number[]] {
    const before = this.#keys;
    const goesOn =
      before !== undefined &&
      before.after === this.#app.history.document &&
      before.moved === moved &&
      // What is drawn may still be from before the last press: such a press belongs to it however late it comes.
      (performance.now() - before.at < PAUSE || this.#app.lighting.isBehind);
    return goesOn ? [before.hold, step.map((value, axis) => value + before.by[axis])] : [undefined, step];
  }

  #change({ name, edits }: NamedEdit, mark: string | undefined, moving: boolean): void {
    const { history } = this.#app;
    this.#moving = moving;
    const before = history.document;
    history.change(name, withFollowingNames(this.#app.study, edits), mark);
    // The end of a movement may change nothing more, but it is time to refine.
    if (before === history.document && !moving) this.#settle();
    this.#moving = false;
  }

  /** One mark from the first to the last edit of a movement; the next movement of the same slider gets another. */
  #markOf({ gesture = "", moving = false }: EditOptions): string {
    if (this.#slider?.gesture !== gesture) this.#slider = { gesture, mark: `${gesture} ${++this.#count}` };
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
