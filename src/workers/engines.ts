/** The engines of a worker, loaded when they are first wanted. */

import type { LightEngine } from "../engine/light-engine.ts";

/** Runs after which a just-in-time compiler has seen enough, and luminaires after which one run is enough; measured. */
const REHEARSALS = 6;
const MANY_LUMINAIRES = 60;

async function newEngine(): Promise<LightEngine> {
  const { LightEngine } = await import("../engine/light-engine.ts");
  return new LightEngine();
}

/** Engines load after the first light; one remembers what a change does not touch. */
export class Engines {
  #engine: Promise<LightEngine> | undefined;
  #uncertainty: Promise<LightEngine> | undefined;
  #rehearsed: Promise<void> | undefined;

  get(): Promise<LightEngine> {
    this.#engine ??= newEngine();
    return this.#engine;
  }

  /** Does once, with engines that are then forgotten, what a moving hand will ask for: code that ran a few times
   * runs several times as fast, and the first step of a hand should not be the one that waits. */
  rehearse(luminaires: number, ask: (engine: LightEngine) => void): Promise<void> {
    const runs = Math.min(REHEARSALS, Math.ceil(MANY_LUMINAIRES / Math.max(1, luminaires)));
    const rehearse = async (): Promise<void> => {
      for (let i = 0; i < runs; i++) ask(await newEngine());
    };
    this.#rehearsed ??= rehearse();
    return this.#rehearsed;
  }

  /** One that is forgotten after use, with the much that it remembers. */
  passing(): Promise<LightEngine> {
    return newEngine();
  }

  /** One for the uncertainties, whose many small changes would turn over the other's memory. */
  uncertainty(): Promise<LightEngine> {
    this.#uncertainty ??= newEngine();
    return this.#uncertainty;
  }
}
