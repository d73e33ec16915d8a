/** The light on every surface of an option: sketched, then in full, shown as one. */

import type { Progress, RoomAnswer, Running } from "../../src/workers/browser.ts";
import { RoomLightState, type ShownRoom } from "./room-light-state.ts";
import { type OptionQuestion, type TaskState, WorkerTask } from "./worker-task.ts";

type Quality = "sketch" | "full";

/** Fires `state` whenever its state is another; the value of a complete one may still be a sketch. */
export class RoomTask extends EventTarget {
  readonly #sketch: WorkerTask<RoomAnswer>;
  readonly #full: WorkerTask<RoomAnswer>;
  readonly #shown = new RoomLightState();
  #question: OptionQuestion | undefined;
  /** The question of which the sketch is enough. */
  #stopped: OptionQuestion | undefined;
  #state: TaskState<ShownRoom> = { status: "initial" };

  constructor(
    call: (
      question: OptionQuestion,
      quality: Quality,
      progress: (progress: Progress) => void,
    ) => Running<RoomAnswer>,
  ) {
    super();
    this.#sketch = new WorkerTask((question, progress) => call(question, "sketch", progress));
    this.#full = new WorkerTask((question, progress) => call(question, "full", progress));
    this.#sketch.addEventListener("state", () => this.#sketched());
    this.#full.addEventListener("state", () => this.#update());
  }

  get state(): TaskState<ShownRoom> {
    return this.#state;
  }

  /** How far the light in full is behind a sketch that is shown; undefined while it is not being computed. */
  get refining(): { readonly progress?: Progress } | undefined {
    const { state } = this.#full;
    return this.#state.status === "complete" && state.status === "pending" ? state : undefined;
  }

  /** Whether it was left at the sketch. */
  get isStopped(): boolean {
    return this.#stopped !== undefined;
  }

  /** Leaves it at the sketch. */
  stop(): void {
    this.#stopped = this.#question;
    this.#full.reset();
  }

  /** Computes the light in full after all. */
  goOn(): void {
    this.#stopped = undefined;
    this.#sketched();
  }

  run(question: OptionQuestion): void {
    if (question.document !== this.#stopped?.document || question.arrangement !== this.#stopped.arrangement)
      this.#stopped = undefined;
    this.#question = question;
    this.#sketch.run(question);
  }

  wait(question: OptionQuestion): void {
    this.#full.wait(question);
    this.#sketch.wait(question);
  }

  retry(): void {
    for (const task of [this.#sketch, this.#full]) if (task.state.status === "error") task.retry();
  }

  reset(): void {
    this.#full.reset();
    this.#sketch.reset();
  }

  #sketched(): void {
    const { status } = this.#sketch.state;
    if (status === "complete" && this.#question !== undefined && this.#stopped === undefined)
      this.#full.run(this.#question);
    this.#update();
  }

  #update(): void {
    const [sketch, full] = [this.#sketch.state, this.#full.state];
    if (sketch.status !== "complete") this.#state = sketch;
    else if (full.status === "error") this.#state = full;
    else {
      const whole = full.status === "complete" ? full.value : undefined;
      this.#state = { status: "complete", value: this.#shown.of(sketch.value, whole) };
    }
    this.dispatchEvent(new Event("state"));
  }
}
