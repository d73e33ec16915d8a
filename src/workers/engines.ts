/** The engines of a worker, loaded when they are first wanted. */

import type { LightEngine } from "../engine/light-engine.ts";

/** Engines load after the first light; one remembers what a change does not touch. */
export class Engines {
  #engine: Promise<LightEngine> | undefined;
  #doubting: Promise<LightEngine> | undefined;

  get(): Promise<LightEngine> {
    this.#engine ??= import("../engine/light-engine.ts").then(({ LightEngine }) => new LightEngine());
    return this.#engine;
  }

  /** One for the doubts, whose many small changes would turn over the other's memory. */
  doubting(): Promise<LightEngine> {
    this.#doubting ??= import("../engine/light-engine.ts").then(({ LightEngine }) => new LightEngine());
    return this.#doubting;
  }
}
