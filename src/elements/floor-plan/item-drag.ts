/**
 * The hand on a floor plan: pointer and keyboard on things and on their sides, as `item-move`, `item-select` and `item-remove`.
 *
 * Every move is counted from where the hand took hold, however often the page hands back a new scene meanwhile.
 */

import type { FloorPlanSide } from "../../drawing/floor-plan-items.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { FloorPlanKey, ItemMoveDetail, ItemRemoveDetail, ItemSelectDetail } from "../shared/contract.ts";
import { ARROWS } from "../shared/drag-controller.ts";
import { Press } from "../shared/press.ts";

/** What the hand needs of the drawing. */
export interface ItemDragHost extends EventTarget {
  item: FloorPlanKey | undefined;
  /** What was taken hold of. */
  takenAt(
    target: EventTarget | null,
  ): { readonly item: FloorPlanKey; readonly side?: FloorPlanSide } | undefined;
  /** A shift on the page as metres of the room. */
  metres(dx: number, dy: number): Vec2;
  /** The room's axes as the item moves by: the top's for a zone. */
  ownAxes(item: FloorPlanKey, by: Vec2): Vec2;
  step(fine: boolean): number;
}

interface Hold {
  readonly item: FloorPlanKey;
  readonly side: FloorPlanSide | undefined;
  readonly press: Press;
  last?: ItemMoveDetail;
}

export function sameItem(a: FloorPlanKey | undefined, b: FloorPlanKey | undefined): boolean {
  return a?.kind === b?.kind && a?.index === b?.index;
}

export class ItemDrag {
  #hold: Hold | undefined;
  readonly #host: ItemDragHost;

  constructor(host: ItemDragHost) {
    this.#host = host;
  }

  get isHolding(): boolean {
    return this.#hold?.press.isDrag === true;
  }

  readonly down = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    const taken = this.#host.takenAt(event.target);
    if (taken === undefined) {
      if (this.#host.item !== undefined) this.select(undefined);
      return;
    }
    if (!sameItem(taken.item, this.#host.item)) this.select(taken.item);
    this.#hold = { item: taken.item, side: taken.side, press: new Press(event) };
  };

  readonly move = (event: PointerEvent): void => {
    const hold = this.#hold;
    if (!hold?.press.isOf(event)) return;
    const shift = hold.press.shift(event);
    if (shift === undefined) return;
    hold.last = this.#detail(hold.item, hold.side, this.#host.metres(...shift), "drag", "pointer");
    this.#emit("item-move", hold.last);
  };

  readonly up = (event: PointerEvent): void => {
    const hold = this.#hold;
    if (!hold?.press.isOf(event)) return;
    this.#hold = undefined;
    if (hold.last !== undefined) this.#emit("item-move", { ...hold.last, phase: "commit" });
  };

  /** Escape, or the pointer was taken away: back to where the hand found it. */
  readonly cancel = (): void => {
    const hold = this.#hold;
    this.#hold = undefined;
    if (hold?.press.isDrag)
      this.#emit("item-move", this.#detail(hold.item, hold.side, [0, 0], "cancel", "pointer"));
  };

  readonly key = (event: KeyboardEvent): void => {
    if (event.key === "Escape") {
      if (this.isHolding) {
        event.stopPropagation();
        this.cancel();
      } else if (this.#host.item !== undefined) this.select(undefined);
      return;
    }
    const taken = this.#host.takenAt(event.target);
    if (taken === undefined) return;
    const { item, side } = taken;
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.select(sameItem(item, this.#host.item) ? undefined : item);
    } else if ((event.key === "Delete" || event.key === "Backspace") && side === undefined) {
      event.preventDefault();
      if (item.kind !== "island") this.#emit<ItemRemoveDetail>("item-remove", { item });
    } else {
      const arrow = ARROWS[event.key];
      if (arrow === undefined) return;
      event.preventDefault();
      if (!sameItem(item, this.#host.item)) this.select(item);
      const step = this.#host.step(event.shiftKey);
      this.#emit(
        "item-move",
        this.#detail(item, side, [arrow[0] * step, arrow[1] * step], "commit", "keyboard"),
      );
    }
  };

  select(item: FloorPlanKey | undefined): void {
    this.#host.item = item;
    this.#emit<ItemSelectDetail>("item-select", { item });
  }

  #detail(
    { kind, index }: FloorPlanKey,
    side: FloorPlanSide | undefined,
    by: Vec2,
    phase: ItemMoveDetail["phase"],
    how: ItemMoveDetail["by"],
  ): ItemMoveDetail {
    return {
      kind,
      index,
      move: this.#host.ownAxes({ kind, index }, by),
      ...(side === undefined ? {} : { side: side.index }),
      distance: side === undefined ? 0 : by[0] * side.normal[0] + by[1] * side.normal[1],
      phase,
      by: how,
    };
  }

  #emit<T>(type: string, detail: T): void {
    this.#host.dispatchEvent(new CustomEvent(type, { detail, bubbles: true, composed: true }));
  }
}
