/** How wide an element is on the page, for drawings that fit it. */
import type { ReactiveController, ReactiveControllerHost } from "lit";

export class ElementWidth implements ReactiveController {
  readonly #host: ReactiveControllerHost & Element;
  #observer?: ResizeObserver;
  #px = 0;

  constructor(host: ReactiveControllerHost & Element) {
    this.#host = host;
    host.addController(this);
  }

  /** Whole CSS pixels; 0 until it is known. */
  get px(): number {
    return this.#px;
  }

  hostConnected(): void {
    // Known now, the first drawing need not wait for the observer's first word, a frame away.
    this.#set(Math.round(this.#host.clientWidth ?? 0));
    if (typeof ResizeObserver === "undefined") return;
    this.#observer = new ResizeObserver((entries) => {
      this.#set(Math.round(entries[entries.length - 1].contentRect.width));
    });
    this.#observer.observe(this.#host);
  }

  hostDisconnected(): void {
    this.#observer?.disconnect();
  }

  // A hidden element keeps its drawing until it is seen again.
  #set(px: number): void {
    if (px === 0 || px === this.#px) return;
    this.#px = px;
    this.#host.requestUpdate();
  }
}
