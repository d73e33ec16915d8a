/**
 * What is asked about an option beside its light, each only while somebody looks at the answer: what people take from
 * the light, what the published rules would give, what else there is to say, how the room will look.
 */

import type { Json } from "../store/pointer.ts";
import type { Lighting } from "./lighting.ts";
import { RoomTask } from "./room-task.ts";
import { WorkerTask } from "./worker-task.ts";

export type SecondaryName = "people" | "rules" | "findings" | "tolerances" | "room" | "otherRoom";

/** Fires `state` when the state of one of them is another. */
export class SecondaryResults extends EventTarget {
  readonly #lighting: Lighting;
  /** Shadows of people, and the images they see in the top. */
  readonly people;
  /** The published rules held against the option. */
  readonly rules;
  /** What there is to say beside the verdict. */
  readonly findings;
  /** How far each pendant may be off with the same verdict. */
  readonly tolerances;
  readonly room;
  /** The room of another option, beside that of the option on screen. */
  readonly otherRoom;

  #document: Json = null;
  #arrangement = 0;
  /** What somebody looks at, and of which option if not of the one on screen. */
  readonly #needed = new Map<SecondaryName, number | undefined>();

  constructor(lighting: Lighting) {
    super();
    this.#lighting = lighting;
    const task = <C extends "people" | "rules" | "beside" | "tolerances">(call: C) =>
      new WorkerTask((question) => lighting.connection.call(call, question));
    const room = () =>
      new RoomTask((question, quality, progress) =>
        lighting.connection.call("room", { ...question, quality }, progress),
      );
    this.people = task("people");
    this.rules = task("rules");
    this.findings = task("beside");
    this.tolerances = task("tolerances");
    this.room = room();
    this.otherRoom = room();
    for (const each of [this.people, this.rules, this.findings, this.tolerances, this.room, this.otherRoom])
      each.addEventListener("state", () => this.dispatchEvent(new Event("state")));
    lighting.addEventListener("light", () => this.#update());
  }

  /** Somebody looks at an answer from now on. @param arrangement of which option, that on screen by default */
  need(name: SecondaryName, arrangement?: number): void {
    this.#needed.set(name, arrangement);
    this.#update();
  }

  /** Nobody looks at it any more. */
  release(name: SecondaryName): void {
    this.#needed.delete(name);
    this[name].reset();
    this.#update();
  }

  /** The option on screen is this one now. */
  setOption(document: Json, arrangement: number): void {
    this.#document = document;
    this.#arrangement = arrangement;
    this.#update();
  }

  #update(): void {
    const { shown, isBehind } = this.#lighting;
    // Only a light that stands is worth asking about.
    const isAtRest = shown !== undefined && !isBehind && shown.quality === "judged";
    for (const [name, arrangement = this.#arrangement] of this.#needed) {
      // The room of another option is looked at beside that of the option on screen.
      const isAlone = !this.#needed.has("room") || arrangement === this.#arrangement;
      if (name === "otherRoom" && isAlone) {
        this.otherRoom.reset();
        continue;
      }
      const question = { document: this.#document, arrangement };
      if (isAtRest) this[name].run(question);
      else this[name].wait(question);
    }
  }
}
