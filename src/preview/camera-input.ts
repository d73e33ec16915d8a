/** The hand on the picture: pointer, two fingers, wheel and keys turned into walking, turning and coming nearer. */

import type { Picture } from "./picture.ts";

/** Turn of a pixel of drag (rad). */
const TURN = 0.006;
/** A finger that moves less than this from down to up has tapped (CSS pixels). */
const TAP = 8;

export interface CameraInputEvents {
  /** The eye has moved. */
  readonly moved: () => void;
  /** The light at a place of the canvas is asked for (CSS pixels). */
  readonly read: (x: number, y: number) => void;
  /** Back to the named viewpoint. */
  readonly home: () => void;
}

export class CameraInput {
  readonly #picture: () => Picture | undefined;
  readonly #events: CameraInputEvents;
  readonly #pointers = new Map<number, { x: number; y: number }>();
  /** Where a single finger went down, until it or another does more than tap. */
  #tap: { readonly x: number; readonly y: number } | undefined;

  constructor(picture: () => Picture | undefined, events: CameraInputEvents) {
    this.#picture = picture;
    this.#events = events;
  }

  readonly down = (event: PointerEvent): void => {
    this.#pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    const single = event.pointerType !== "mouse" && this.#pointers.size === 1;
    this.#tap = single ? { x: event.clientX, y: event.clientY } : undefined;
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
  };

  readonly up = (event: PointerEvent): void => {
    this.#pointers.delete(event.pointerId);
    if (this.#tap !== undefined && event.type === "pointerup") {
      const box = (event.currentTarget as Element).getBoundingClientRect();
      this.#events.read(event.clientX - box.left, event.clientY - box.top);
    }
    this.#tap = undefined;
  };

  readonly move = (event: PointerEvent): void => {
    const before = this.#pointers.get(event.pointerId);
    if (before === undefined) {
      if (event.pointerType === "mouse") {
        const box = (event.currentTarget as Element).getBoundingClientRect();
        this.#events.read(event.clientX - box.left, event.clientY - box.top);
      }
      return;
    }
    const [dx, dy] = [event.clientX - before.x, event.clientY - before.y];
    const tap = this.#tap;
    if (tap !== undefined && Math.hypot(event.clientX - tap.x, event.clientY - tap.y) < TAP) return;
    this.#tap = undefined;
    const others = [...this.#pointers.entries()].filter(([id]) => id !== event.pointerId);
    this.#pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (others.length > 0) {
      // Two fingers: apart is nearer, together is farther; both the same way walk, half a finger's way each.
      const [, hand] = others[0];
      const far = Math.hypot(event.clientX - hand.x, event.clientY - hand.y);
      const was = Math.hypot(before.x - hand.x, before.y - hand.y);
      if (far > 0)
        this.#go((walk) => {
          walk.walk((dy * TURN) / 2, (-dx * TURN) / 2, 0);
          walk.zoom(was / far);
        });
    } else if (event.shiftKey || event.buttons === 2) {
      this.#go((walk) => walk.walk(dy * TURN, -dx * TURN, 0));
    } else this.#go((walk) => walk.orbit(-dx * TURN, dy * TURN));
  };

  readonly wheel = (event: WheelEvent): void => {
    event.preventDefault();
    this.#go((walk) => walk.zoom(Math.exp(event.deltaY * 0.001)));
  };

  readonly key = (event: KeyboardEvent): void => {
    const step = event.altKey ? 0.05 : 0.2;
    const turn = event.altKey ? 0.02 : 0.08;
    const moves: Record<string, (walk: Picture["walk"]) => void> = {
      ArrowLeft: (walk) => (event.shiftKey ? walk.walk(0, -step, 0) : walk.orbit(-turn, 0)),
      ArrowRight: (walk) => (event.shiftKey ? walk.walk(0, step, 0) : walk.orbit(turn, 0)),
      ArrowUp: (walk) => (event.shiftKey ? walk.walk(step, 0, 0) : walk.orbit(0, turn)),
      ArrowDown: (walk) => (event.shiftKey ? walk.walk(-step, 0, 0) : walk.orbit(0, -turn)),
      PageUp: (walk) => walk.walk(0, 0, step),
      PageDown: (walk) => walk.walk(0, 0, -step),
      "+": (walk) => walk.zoom(0.9),
      "-": (walk) => walk.zoom(1.1),
    };
    const move = moves[event.key];
    if (event.key === "Enter") this.#readMiddle(event.currentTarget as Element);
    if (move === undefined && event.key !== "Home") return;
    event.preventDefault();
    event.stopPropagation();
    if (move === undefined) this.#events.home();
    else this.#go(move);
  };

  #readMiddle(canvas: Element): void {
    const { width, height } = canvas.getBoundingClientRect();
    const several = (this.#picture()?.views.length ?? 0) > 1;
    this.#events.read(width * (several ? 0.25 : 0.5), height / 2);
  }

  #go(move: (walk: Picture["walk"]) => void): void {
    const picture = this.#picture();
    if (picture === undefined) return;
    picture.go(() => move(picture.walk));
    this.#events.moved();
  }
}
