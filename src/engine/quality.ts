/** What `quick` and `full` mean, and the bound each states. */
export interface Quality {
  readonly patches: number;
  /** Largest distance between gathered points (m). */
  readonly gatherSpacing: number;
  /** Bound on the solution's error, relative to the largest exitance of each layer. */
  readonly tolerance: number;
  /** Smallest near-field bound that is followed. */
  readonly leastNearFieldError: number;
  /** Bound on the visible share of an opening, of its light without what hides it. */
  readonly penumbraError: number;
  /** Whether bodies that come and go take part in the exchange between patches. */
  readonly bodiesExchange: boolean;
  /** The part of the bound on interreflected light at a point, relative to the plane's mean interreflected light, that is
   * there in every room; half of what a division twice as coarse moves is added to it. */
  readonly leastInterreflectionBound: number;
}

export const QUALITY: Readonly<Record<"quick" | "full", Quality>> = {
  quick: {
    patches: 250,
    gatherSpacing: 0.2,
    tolerance: 1e-4,
    leastNearFieldError: 0.01,
    penumbraError: 0.005,
    bodiesExchange: false,
    leastInterreflectionBound: 0.02,
  },
  full: {
    patches: 850,
    gatherSpacing: 0.1,
    tolerance: 1e-5,
    leastNearFieldError: 0,
    penumbraError: 0.005,
    bodiesExchange: true,
    leastInterreflectionBound: 0.01,
  },
};
