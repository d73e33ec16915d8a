/**
 * An answer about the study that is computed only when somebody wants to see it, and again only when the study
 * has changed and still somebody wants to.
 */

import type { Outcome } from "../../src/app.ts";
import type { Running } from "../../src/workers/browser.ts";
import type { Json } from "../store/pointer.ts";

export class LazyResult<T> extends EventTarget {
  readonly #ask: (document: Json, arrangement: number) => Running<T>;
  #running: Running<T> | undefined;
  #for: { readonly document: Json; readonly arrangement: number } | undefined;
  #outcome: Outcome<T> | undefined;

  constructor(ask: (document: Json, arrangement: number) => Running<T>) {
    super();
    this.#ask = ask;
  }

  /** The answer for a document, or undefined while it is computed; fires `answer` when it is there. */
  of(document: Json, arrangement: number): T | undefined {
    if (this.#for?.document !== document || this.#for.arrangement !== arrangement) {
      this.stop();
      this.#for = { document, arrangement };
      void this.#start(document, arrangement);
    }
    return this.#outcome?.ok ? this.#outcome.value : undefined;
  }

  stop(): void {
    this.#running?.cancel();
    this.#running = undefined;
    this.#for = undefined;
    this.#outcome = undefined;
  }

  async #start(document: Json, arrangement: number): Promise<void> {
    const running = this.#ask(document, arrangement);
    this.#running = running;
    try {
      const outcome = await running.outcome;
      if (this.#running !== running) return;
      this.#outcome = outcome;
      this.dispatchEvent(new Event("answer"));
    } catch {
      // Cancelled for a newer one, or a fault that the light itself will report.
    }
  }
}
