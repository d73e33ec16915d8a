/** A pointer pressed on a drawing: by which pointer, and how far it has been drawn since. */

/** Pixels a pointer may tremble before a press is a drag. */
const TREMBLE = 3;

export class Press {
  readonly #pointer: number;
  readonly #x: number;
  readonly #y: number;
  #isDrag = false;

  /** Keeps the pointer's events with the drawing until it is lifted. */
  constructor(event: PointerEvent) {
    this.#pointer = event.pointerId;
    this.#x = event.clientX;
    this.#y = event.clientY;
    (event.currentTarget as Element).setPointerCapture?.(event.pointerId);
  }

  get isDrag(): boolean {
    return this.#isDrag;
  }

  isOf(event: PointerEvent): boolean {
    return event.pointerId === this.#pointer;
  }

  /** Where the pointer is, from where it was pressed (px); undefined while it only trembles. */
  shift(event: PointerEvent): readonly [x: number, y: number] | undefined {
    const x = event.clientX - this.#x;
    const y = event.clientY - this.#y;
    this.#isDrag ||= Math.hypot(x, y) >= TREMBLE;
    return this.#isDrag ? [x, y] : undefined;
  }
}
