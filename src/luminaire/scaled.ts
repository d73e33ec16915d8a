/**
 * A luminaire of the same make in another size, with the same lamp flux.
 *
 *   I'(C, γ) = I(C, γ);  opening, body and lit surfaces are s times as large;
 *   near by E'(p) = E(p / s) / s²;  luminance L' = L / s².
 *
 * Exact for a luminaire scaled as a whole, lamp included. Known error: a real range of sizes keeps its lamp, so the
 * share of light that leaves the shade changes with size; the evidence becomes `typical` where s is not 1.
 */

import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Body } from "./body.ts";
import type { Luminaire } from "./luminaire.ts";

/** What a luminaire made by {@link scaledLuminaire} was scaled from, for whoever prefers to scale the point asked for
 * and use what is known of the original; itself and 1 for any other. */
export function scaleOf(luminaire: Luminaire): { readonly original: Luminaire; readonly size: number } {
  const { scaledFrom, distribution } = luminaire;
  // A copy that was given another light since is of no known original.
  return scaledFrom?.original.distribution === distribution ? scaledFrom : { original: luminaire, size: 1 };
}

/** @param s size relative to the given luminaire, > 0 */
export function scaledLuminaire(luminaire: Luminaire, s: number): Luminaire {
  if (s === 1) return luminaire;
  const { emission, body } = luminaire;
  const { original, size } = scaleOf(luminaire);
  const opening = scaledOpening(emission.opening, s);
  return {
    ...luminaire,
    emission:
      emission.kind === "opening"
        ? { ...emission, opening }
        : { ...emission, opening, size: s * emission.size },
    evidence: "F",
    ...(body === undefined ? {} : { body: scaledBody(body, s) }),
    scaledFrom: { original, size: size * s },
  };
}

function scaledOpening({ shape, length, width, height }: LuminousOpening, s: number): LuminousOpening {
  return { shape, length: length * s, width: width * s, height: height * s };
}

function scaledBody(body: Body, s: number): Body {
  const { diameter, height, offset, length, width, outline } = body;
  return {
    ...body,
    diameter: diameter * s,
    height: height * s,
    offset: offset * s,
    ...(length === undefined ? {} : { length: length * s }),
    ...(width === undefined ? {} : { width: width * s }),
    ...(outline === undefined ? {} : { outline: outline.map(([r, z]) => [r * s, z * s] as const) }),
  };
}
