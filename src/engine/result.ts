/**
 * What a calculation answers: plain data, transferable, with its provenance.
 */

/** Light of one layer at the points of one plane, at full output, initial (lx). Dimming and maintenance are
 * weights applied afterwards, so a dimmer never costs a calculation. */
export interface LayerField {
  readonly layer: string;
  readonly direct: Float64Array;
  readonly interreflected: Float64Array;
  /** Half-width of the near-field band (lx): |spread over the opening − from its centre|, summed over the
   * luminaires whose opening is uncertain; absent where none is. */
  readonly nearFieldBand?: Float64Array;
}

export interface PlaneField {
  /** Name of the calculation plane, in the scene's order. */
  readonly plane: string;
  readonly layers: readonly LayerField[];
  /** Bound on interreflected light at a point, relative to the plane's mean interreflected light, measured on the scene by
   * what a division into patches and parts twice as coarse moves on this plane, whatever else is calculated with it. */
  readonly interreflectionBound?: number;
}

/** Energy balance of one calculation: flux emitted against flux absorbed, before any normalisation. */
export interface EnergyBalance {
  /** (absorbed − emitted) / emitted */
  readonly imbalance: number;
  /** Largest deviation of a form-factor row sum from one. */
  readonly closureError: number;
  /** Its area-weighted mean. */
  readonly meanClosureError?: number;
  /** (direct light that arrived anywhere − emitted) / emitted */
  readonly directImbalance?: number;
  /** Share of the emitted flux that ends in pendants and people. */
  readonly absorbedByBodies?: number;
}

/** Exitance (lm/m²) and illuminance (lx) of the patches, per layer, at full output, initial. */
export interface PatchField {
  /** Index of the scene surface each patch belongs to. */
  readonly surface: Uint32Array;
  /** Centre x, y, z of each patch (m). */
  readonly centre: Float64Array;
  readonly area: Float64Array;
  readonly layers: readonly {
    readonly layer: string;
    readonly illuminance: Float64Array;
    readonly exitance: Float64Array;
  }[];
}

export interface Method {
  readonly quality: "quick" | "full";
  /** Whether nothing was taken to stand in the way of direct light. */
  readonly unobstructed?: true;
  /** Where interreflected light comes from: radiosity and a final gather; nowhere, as it was not asked for or there
   * are more surfaces than it is calculated for; or an earlier arrangement, whose light stands in for it. */
  readonly interreflection: "calculated" | "none" | "too many surfaces" | "of an earlier arrangement";
  /** Share of the emitted flux that is unaccounted for, where that is more than the bound on interreflected light:
   * beams so narrow that patches miss them, luminaires in solids or through walls. */
  readonly unaccounted?: number;
  readonly nearFieldError: number;
  /** Points nearer to a luminous opening than a quarter of its radius, where its light is summed from all the nodes
   * there are but the near-field bound is not promised; absent where there are none. Measured: a Lambertian disc or
   * square errs by 0.3 % at a tenth of its radius and 3 % at a twentieth, a beam of 17° by 2 % at a quarter. */
  readonly pointsTooNear?: number;
  readonly patches: number;
  /** Residual of the interreflection solution, relative. */
  readonly residual: number;
  readonly people: boolean;
  /** Bound on the visible share of an opening in a penumbra. */
  readonly penumbraError?: number;
  /** The largest of all planes' bounds on their interreflected light. */
  readonly interreflectionBound?: number;
  /** Largest distance between gathered points (m), and the largest error of interpolating between them that was
   * met, relative to the plane's mean interreflected light. */
  readonly gatherSpacing?: number;
  readonly interpolationError?: number;
}

export interface CalculationResult {
  readonly planes: readonly PlaneField[];
  readonly balance?: EnergyBalance;
  readonly patches?: PatchField;
  readonly method: Method;
}
