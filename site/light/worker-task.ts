/**
 * A question to a worker about an option of the study: asked when it is told to, never by being read. Where it stands
 * has a name: `initial`, `pending`, `complete`, `error`.
 */

import { Cancelled, type Issue } from "../../src/app.ts";
import type { Progress, Running } from "../../src/workers/browser.ts";
import type { Json } from "../store/pointer.ts";

export type TaskState<T> =
  | { readonly status: "initial" }
  | { readonly status: "pending"; readonly progress?: Progress }
  | { readonly status: "complete"; readonly value: T }
  | { readonly status: "error"; readonly issues: readonly Issue[] };

/** Which option of which document. */
export interface OptionQuestion {
  readonly document: Json;
  readonly arrangement: number;
}

/** Fires `state` whenever its state is another. */
export class WorkerTask<T> extends EventTarget {
  readonly #call: (question: OptionQuestion, progress: (progress: Progress) => void) => Running<T>;
  #question: OptionQuestion | undefined;
  #running: Running<T> | undefined;
  #state: TaskState<T> = { status: "initial" };

  constructor(call: (question: OptionQuestion, progress: (progress: Progress) => void) => Running<T>) {
    super();
    this.#call = call;
  }

  get state(): TaskState<T> {
    return this.#state;
  }

  /** Asks, unless this very question is being asked or has its answer or its failure. */
  run(question: OptionQuestion): void {
    if (isSame(question, this.#question)) return;
    this.#stop();
    this.#question = question;
    void this.#ask(question);
  }

  /** Gives up what is asked, if it is another question; `run` follows when the light stands. */
  wait(question: OptionQuestion): void {
    if (
      isSame(question, this.#question) ||
      (this.#question === undefined && this.#state.status === "pending")
    )
      return;
    this.#stop();
    this.#setState({ status: "pending" });
  }

  /** Asks the same again: the way out of a failure. */
  retry(): void {
    const question = this.#question;
    if (question === undefined) return;
    this.#stop();
    this.run(question);
  }

  /** Nobody looks at the answer any more. */
  reset(): void {
    this.#stop();
    if (this.#state.status !== "initial") this.#setState({ status: "initial" });
  }

  #stop(): void {
    this.#running?.cancel();
    this.#running = undefined;
    this.#question = undefined;
  }

  async #ask(question: OptionQuestion): Promise<void> {
    const running = this.#call(question, (progress) => {
      if (this.#running === running) this.#setState({ status: "pending", progress });
    });
    this.#running = running;
    this.#setState({ status: "pending" });
    let state: TaskState<T>;
    try {
      const outcome = await running.outcome;
      state = outcome.ok
        ? { status: "complete", value: outcome.value }
        : { status: "error", issues: outcome.issues };
    } catch (error) {
      // A cancelled question has been given up by whoever cancelled it.
      if (error instanceof Cancelled) return;
      const message = error instanceof Error ? error.message : String(error);
      state = { status: "error", issues: [{ code: "fault", severity: "error", message, where: {} }] };
    }
    if (this.#running !== running) return;
    this.#running = undefined;
    this.#setState(state);
  }

  #setState(state: TaskState<T>): void {
    this.#state = state;
    this.dispatchEvent(new Event("state"));
  }
}

function isSame(a: OptionQuestion, b: OptionQuestion | undefined): boolean {
  return a.document === b?.document && a.arrangement === b.arrangement;
}
