/** The light of the option on screen, and what is asked beside it. Fires `change` when something of it is another. */

import { type LightAnswer, spawn } from "../../src/workers/browser.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import { Lighting } from "../light/lighting.ts";
import type { SecondaryResults } from "../light/secondary-results.ts";
import { filesIn } from "../storage/embedded.ts";
import type { Json } from "./pointer.ts";

export class LightStore extends EventTarget {
  #setDrawn: () => void = () => {};
  /** Kept when the first light is on the plan, or when there can be none. */
  readonly firstLight = new Promise<void>((kept) => {
    this.#setDrawn = kept;
  });
  readonly lighting = new Lighting({ spawn, afterFirst: (go) => void this.firstLight.then(go) });
  /** Loaded after the first light. */
  results: SecondaryResults | undefined;
  /** Whether people stand in the light, whatever the study says. */
  withPeople: boolean | undefined;

  #embedded: RawStudy["embedded"];
  /** The study without its files, as the workers take it. */
  #document: Json = null;
  #arrangement = 0;

  constructor() {
    super();
    const change = (): boolean => this.dispatchEvent(new Event("change"));
    this.lighting.addEventListener("light", change);
    this.lighting.addEventListener("state", change);
  }

  get answer(): LightAnswer | undefined {
    return this.lighting.shown?.answer;
  }

  /** What people take from the light, if it is to be shown and is there. */
  get people() {
    const state = this.results?.people.state;
    return state?.status === "complete" ? state.value : undefined;
  }

  /** The first light is drawn, or there can be none. */
  setDrawn(): void {
    this.#setDrawn();
  }

  async loadResults(): Promise<void> {
    const [{ SecondaryResults }, { hasSameLight }] = await Promise.all([
      import("../light/secondary-results.ts"),
      import("../light/same-light.ts"),
    ]);
    this.lighting.hasSameLight = hasSameLight;
    this.results = new SecondaryResults(this.lighting);
    this.results.addEventListener("state", () => this.dispatchEvent(new Event("change")));
    this.results.setOption(this.#document, this.#arrangement);
  }

  /** Asks for the light of an option and returns the number of the question. */
  ask(study: RawStudy, arrangement: number, isMoving: boolean, setting: string | undefined): number {
    const { embedded, ...document } = study;
    if (embedded !== this.#embedded) {
      this.#embedded = embedded;
      this.lighting.give(filesIn(study));
    }
    this.#document = document as unknown as Json;
    this.#arrangement = arrangement;
    const sequence = this.lighting.ask(this.#document, arrangement, isMoving, this.withPeople, setting);
    this.results?.setOption(this.#document, arrangement);
    return sequence;
  }

  close(): void {
    this.lighting.close();
  }
}
