/** The refined light of every option of a study, one after another, for comparing them on one scale. Kept until another
 * document is compared. */

import { Cancelled, type Issue } from "../../src/app.ts";
import type { Connection, LightAnswer, Running } from "../../src/workers/browser.ts";
import type { Json } from "../store/pointer.ts";

export interface OptionLight {
  readonly arrangement: number;
  readonly answer?: LightAnswer;
  readonly issues?: readonly Issue[];
}

/** Fires `light` when one more option is answered, `progress` while one is computed. */
export class OptionComparison extends EventTarget {
  readonly #connection: () => Connection;
  readonly #quality: "full" | "judged";
  #document: Json | undefined;
  #count = 0;
  #lights: OptionLight[] = [];
  #running: Running<LightAnswer> | undefined;
  fraction = 1;

  /** `full` where no band or verdict is read: judging takes as long again. */
  constructor(connection: () => Connection, quality: "full" | "judged" = "judged") {
    super();
    this.#connection = connection;
    this.#quality = quality;
  }

  /** What is known of the options by now. */
  get lights(): readonly OptionLight[] {
    return this.#lights;
  }

  /** Computes the options of a document, unless they are those being computed. */
  setDocument(document: Json, count: number): void {
    if (document === this.#document) return;
    this.stop();
    this.#document = document;
    this.#count = count;
    this.#lights = [];
    void this.#compute(document, count);
  }

  /** Computes all of them again, those that failed too. */
  retry(): void {
    const document = this.#document;
    if (document === undefined) return;
    this.stop();
    this.setDocument(document, this.#count);
  }

  stop(): void {
    this.#running?.cancel();
    this.#running = undefined;
    this.#document = undefined;
  }

  async #compute(document: Json, count: number): Promise<void> {
    for (let arrangement = 0; arrangement < count; arrangement++) {
      this.fraction = arrangement / count;
      this.dispatchEvent(new Event("progress"));
      const quality = this.#quality;
      const running = this.#connection().call("light", { document, arrangement, quality });
      this.#running = running;
      try {
        const outcome = await running.outcome;
        if (this.#document !== document) return;
        this.#lights = [
          ...this.#lights,
          outcome.ok ? { arrangement, answer: outcome.value } : { arrangement, issues: outcome.issues },
        ];
      } catch (error) {
        if (error instanceof Cancelled || this.#document !== document) return;
        const message = error instanceof Error ? error.message : String(error);
        this.#lights = [
          ...this.#lights,
          { arrangement, issues: [{ code: "fault", severity: "error", message, where: {} }] },
        ];
      }
      this.fraction = (arrangement + 1) / count;
      this.dispatchEvent(new Event("light"));
    }
  }
}
