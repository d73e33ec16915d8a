/** What long work throws when its observer says to stop; a wish that was met, not a failure. */
export class Cancelled extends Error {
  constructor() {
    super("The work was cancelled on request.");
    this.name = "Cancelled";
  }
}

/** How long work reports and is stopped. Handed in by the caller; pure code knows no clock and no signal. */
export interface Observer {
  /** Called with the stage in words and the fraction of it that is done, 0 to 1. */
  progress?(stage: string, fraction: number): void;
  /** Asked at least every few milliseconds; true ends the work with {@link Cancelled}. */
  cancelled?(): boolean;
}

export function throwIfCancelled(observer: Observer | undefined): void {
  if (observer?.cancelled?.() === true) throw new Cancelled();
}
