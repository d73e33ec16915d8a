/**
 * Pointer and keyboard on the luminaires of one drawing, as `luminaire-move`, `luminaire-select` and `luminaire-remove`.
 *
 * The scene in which the pointer took hold is remembered, so that every position of a drag is that start plus one move however
 * often the page hands back a new scene meanwhile; each key starts where the last one ended. Nothing here changes a scene.
 */

import { type LuminaireKey, sameLuminaire } from "../../drawing/luminaire-key.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import { METRES_PER_INCH } from "../../units/quantities.ts";
import type { Wording } from "../../words/wording.ts";
import type { LuminaireMoveDetail, LuminaireRemoveDetail, LuminaireSelectDetail } from "./contract.ts";
import { type DragHost, nameOf, type Start } from "./drag-host.ts";
import type { moveDetail } from "./move-detail.ts";
import { Press } from "./press.ts";

let loadedDetail: typeof moveDetail | undefined;

interface Hold extends Start {
  readonly press: Press;
  last?: LuminaireMoveDetail;
}

export class DragController {
  /** The last act of those that wait in their order. */
  #last: Promise<void> | undefined;
  #hold: Hold | undefined;
  readonly #host: DragHost;

  constructor(host: DragHost) {
    this.#host = host;
  }

  /** What pulled the luminaire in the hand, for the drawing to say. */
  get reasons(): readonly string[] {
    return this.#hold?.last?.reasons ?? [];
  }

  /** Where the held luminaire has been moved to (m, room). */
  get position(): Vec3 | undefined {
    return this.#hold?.last?.position;
  }

  get isHolding(): boolean {
    return this.#hold?.press.isDrag === true;
  }

  readonly down = (event: PointerEvent): void => {
    const key = keyOf(event.target);
    const scene = this.#host.shownScene;
    // A press beside everything lets go; a finger there may only mean to scroll.
    if (
      key === undefined &&
      event.button === 0 &&
      event.pointerType === "mouse" &&
      this.#host.selection.length > 0
    )
      this.#select([]);
    if (key === undefined || scene === undefined || event.button !== 0) return;
    const adds = event.shiftKey || event.ctrlKey || event.metaKey;
    const isSelected = this.#host.selection.some((s) => sameLuminaire(s, key));
    if (adds)
      this.#select(
        isSelected
          ? this.#host.selection.filter((s) => !sameLuminaire(s, key))
          : [...this.#host.selection, key],
      );
    else if (!isSelected) this.#select([key]);
    const moving = orderedWith(key, this.#host.selection);
    this.#hold = { scene, held: key, moving, press: new Press(event) };
    this.#whenLoaded(() => {});
  };

  readonly move = (event: PointerEvent): void => {
    const hold = this.#hold;
    if (!hold?.press.isOf(event)) return;
    const { isDrag } = hold.press;
    const shift = hold.press.shift(event);
    if (shift === undefined) return;
    if (!isDrag) this.#host.holding(true);
    const wanted = this.#host.moveOf(...shift, hold.held);
    const snaps = event.altKey ? undefined : this.#host;
    this.#whenLoaded((detail) => {
      hold.last = detail(hold, wanted, "drag", "pointer", snaps);
      this.#emit("luminaire-move", hold.last);
    });
  };

  readonly up = (event: PointerEvent): void => {
    const hold = this.#hold;
    if (!hold?.press.isOf(event)) return;
    this.#hold = undefined;
    if (!hold.press.isDrag) return;
    this.#host.holding(false);
    this.#whenLoaded(() => {
      if (hold.last !== undefined) this.#emit("luminaire-move", { ...hold.last, phase: "commit" });
    });
  };

  /** Escape, or the pointer was taken away: back to where the hand found it. */
  readonly cancel = (): void => {
    const hold = this.#hold;
    this.#hold = undefined;
    if (!hold?.press.isDrag) return;
    this.#host.holding(false);
    const still = { along: 0, across: 0, height: 0 };
    this.#whenLoaded((detail) => this.#emit("luminaire-move", detail(hold, still, "cancel", "pointer")));
  };

  readonly key = (event: KeyboardEvent): void => {
    if (event.key === "Escape") {
      if (this.isHolding) {
        event.stopPropagation();
        this.cancel();
      } else if (this.#host.selection.length > 0) this.#select([]);
      return;
    }
    const key = keyOf(event.target);
    const scene = this.#host.shownScene;
    if (key === undefined || scene === undefined) return;
    const isSelected = this.#host.selection.some((s) => sameLuminaire(s, key));
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      if (event.shiftKey || event.ctrlKey || event.metaKey)
        this.#select(
          isSelected
            ? this.#host.selection.filter((s) => !sameLuminaire(s, key))
            : [...this.#host.selection, key],
        );
      else this.#select(isSelected && this.#host.selection.length === 1 ? [] : [key]);
      return;
    }
    if ((event.key === "a" || event.key === "A") && (event.ctrlKey || event.metaKey)) {
      event.preventDefault();
      this.#select(scene.layers[key.layer].luminaires.map((_, index) => ({ layer: key.layer, index })));
      return;
    }
    if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      const luminaires = isSelected ? this.#host.selection : [key];
      this.#emit<LuminaireRemoveDetail>("luminaire-remove", {
        luminaires,
        name: `remove ${nameOf(scene, luminaires)}`,
      });
      return;
    }
    const [right, up] = ARROWS[event.key] ?? [0, 0];
    if (right === 0 && up === 0) return;
    event.preventDefault();
    const step = keyStep(this.#host.words, event.shiftKey);
    // One page unit right or up tells which of the island's directions an arrow means here.
    const unit = this.#host.moveOf(right, -up);
    const move = {
      along: Math.sign(unit.along) * step,
      across: Math.sign(unit.across) * step,
      height: Math.sign(unit.height) * step,
    };
    if (move.along === 0 && move.across === 0 && move.height === 0) return;
    if (!isSelected) this.#select([key]);
    const moving = orderedWith(key, this.#host.selection);
    this.#whenLoaded((detail) => {
      // Keys pressed before it was loaded follow one another: each starts where the one before it ended.
      const start: Start = { scene: this.#host.shownScene ?? scene, held: key, moving };
      this.#emit("luminaire-move", detail(start, move, "commit", "keyboard"));
    });
  };

  /** What a move comes to loads when a luminaire is first taken hold of; what is asked meanwhile follows in its order. */
  #whenLoaded(act: (detail: typeof moveDetail) => void): void {
    if (loadedDetail !== undefined && this.#last === undefined) {
      act(loadedDetail);
      return;
    }
    const before = this.#last ?? Promise.resolve();
    const turn = before
      .then(async () => {
        loadedDetail ??= (await import("./move-detail.ts")).moveDetail;
        act(loadedDetail);
        // Its scene is handed down before the next begins.
        await new Promise((done) => setTimeout(done));
      })
      .finally(() => {
        if (this.#last === turn) this.#last = undefined;
      });
    this.#last = turn;
  }

  #select(selection: readonly LuminaireKey[]): void {
    this.#host.selection = selection;
    this.#emit<LuminaireSelectDetail>("luminaire-select", { selection });
  }

  #emit<T>(type: string, detail: T): void {
    this.#host.dispatchEvent(new CustomEvent(type, { detail, bubbles: true, composed: true }));
  }
}

/** Arrow keys as right and up on the page. */
export const ARROWS: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** 25 mm or 1 in; fine 5 mm or 1/8 in (m). */
export function keyStep(words: Wording, fine: boolean): number {
  if (words.lengthUnit === "ft-in") return fine ? METRES_PER_INCH / 8 : METRES_PER_INCH;
  return fine ? 0.005 : 0.025;
}

function keyOf(target: EventTarget | null): LuminaireKey | undefined {
  const handle = (target as Element | null)?.closest?.("[data-luminaire]");
  const [layer, index] = (handle?.getAttribute("data-luminaire") ?? "").split(" ").map(Number);
  return Number.isInteger(layer) && Number.isInteger(index) ? { layer, index } : undefined;
}

function orderedWith(held: LuminaireKey, selection: readonly LuminaireKey[]): LuminaireKey[] {
  return [held, ...selection.filter((s) => !sameLuminaire(s, held))];
}
