/**
 * The engines of an open study, loaded when they are first wanted and, but for those made in passing, kept as long as it is open. Each has a memory of its own
 * but for what luminaires send, which all share: every calculation of any of them is a turn of that.
 */

import type { DirectSources } from "../engine/direct/direct-sources.ts";
import type { LightEngine } from "../engine/light-engine.ts";

/** Runs after which a just-in-time compiler has seen enough, and luminaires after which one run is enough; measured. */
const REHEARSALS = 6;
const MANY_LUMINAIRES = 60;

/** Calculations of an arrangement with five people in three postures, and without anybody. */
const SHADOWS_KEPT = 16;

/** Engines load after the first light; one remembers what a change does not touch, and all what luminaires send. */
export class Engines {
  #sources: DirectSources | undefined;
  #engine: Promise<LightEngine> | undefined;
  #uncertainty: Promise<LightEngine> | undefined;
  #shadows: Promise<LightEngine> | undefined;
  #rehearsed: Promise<void> | undefined;

  get(): Promise<LightEngine> {
    this.#engine ??= this.#newEngine();
    return this.#engine;
  }

  /** Does once, with engines that are then forgotten, what a moving hand will ask for: code that ran a few times
   * runs several times as fast, and the first step of a hand should not be the one that waits. */
  rehearse(luminaires: number, ask: (engine: LightEngine) => void): Promise<void> {
    const runs = Math.min(REHEARSALS, Math.ceil(MANY_LUMINAIRES / Math.max(1, luminaires)));
    const rehearse = async (): Promise<void> => {
      for (let i = 0; i < runs; i++) ask(await this.#newEngine());
    };
    this.#rehearsed ??= rehearse();
    return this.#rehearsed;
  }

  /** One that is forgotten after use, with the much that it remembers. */
  passing(): Promise<LightEngine> {
    return this.#newEngine();
  }

  /** One for the uncertainties, whose many small changes would turn over the other's memory. */
  uncertainty(): Promise<LightEngine> {
    this.#uncertainty ??= this.#newEngine();
    return this.#uncertainty;
  }

  /** One for the people's own shadows: what is known of a person in a posture outlives the others of an arrangement, for the
   * next. */
  shadows(): Promise<LightEngine> {
    this.#shadows ??= this.#newEngine(SHADOWS_KEPT);
    return this.#shadows;
  }

  async #newEngine(keep?: number): Promise<LightEngine> {
    const { LightEngine } = await import("../engine/light-engine.ts");
    const engine = new LightEngine(this.#sources, keep);
    this.#sources = engine.sources;
    return engine;
  }
}
