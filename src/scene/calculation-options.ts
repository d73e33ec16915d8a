/** How a calculation is done. */
export interface CalculationOptions {
  readonly interreflection: boolean;
  readonly occlusion: boolean;
  /** Bound on each luminaire's unoccluded contribution at a point, relative to the larger of that
   * contribution and 0.1 % of the plane's highest illuminance. */
  readonly nearFieldError: number;
  /** `quick` follows a moving hand; `full` is what is answered for. Both state their bound in the result. */
  readonly quality: "quick" | "full";
  /** Patches to aim at instead of the quality's own, for differences between rooms rather than figures of one. */
  readonly patches?: number;
  /** Whether people stand in the light. */
  readonly people: boolean;
}

export const DEFAULT_OPTIONS: CalculationOptions = {
  interreflection: true,
  occlusion: true,
  nearFieldError: 0.0025,
  quality: "full",
  people: false,
};
