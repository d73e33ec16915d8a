/** The light on every surface of an option: sketched, then in full, shown as one. */

import type { RoomAnswer, Running } from "../../src/workers/browser.ts";
import { RoomLightState, type ShownRoom } from "./room-light-state.ts";
import { type OptionQuestion, type TaskState, WorkerTask } from "./worker-task.ts";

type Quality = "sketch" | "full";

/** Fires `state` whenever its state is another; the value of a complete one may still be a sketch. */
export class RoomTask extends EventTarget {
  readonly #sketch: WorkerTask<RoomAnswer>;
  readonly #full: WorkerTask<RoomAnswer>;
  readonly #shown = new RoomLightState();
  #question: OptionQuestion | undefined;
  #state: TaskState<ShownRoom> = { status: "initial" };

  constructor(call: (question: OptionQuestion, quality: Quality) => Running<RoomAnswer>) {
    super();
    this.#sketch = new WorkerTask((question) => call(question, "sketch"));
    this.#full = new WorkerTask((question) => call(question, "full"));
    this.#sketch.addEventListener("state", () => this.#sketched());
    this.#full.addEventListener("state", () => this.#update());
  }

  get state(): TaskState<ShownRoom> {
    return this.#state;
  }

  run(question: OptionQuestion): void {
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
    if (this.#sketch.state.status === "complete" && this.#question !== undefined)
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
