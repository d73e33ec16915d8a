/**
 * Progress of work that asks other long work at every step: the steps move the fraction, and what is done inside one is said beside
 * it, as its own fraction would jump to and fro.
 */

import type { Observer } from "./cancelled.ts";

export interface ObserverSteps {
  /** For who counts the steps. */
  readonly whole: Observer;
  /** For the work inside a step; also before the first. */
  readonly step: Observer;
}

export function observerSteps(observer: Observer): ObserverSteps {
  let last: { readonly stage: string; readonly fraction: number } | undefined;
  const cancelled = (): boolean => observer.cancelled?.() === true;
  return {
    whole: {
      cancelled,
      progress(stage, fraction) {
        last = { stage, fraction };
        observer.progress?.(stage, fraction);
      },
    },
    step: {
      cancelled,
      progress(stage, fraction) {
        if (last === undefined) observer.progress?.(stage, fraction);
        else observer.progress?.(`${last.stage}: ${stage}`, last.fraction);
      },
    },
  };
}
