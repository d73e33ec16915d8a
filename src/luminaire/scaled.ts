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
import type { Emission } from "./near-field.ts";

const scales = new WeakMap<Luminaire, { readonly of: Luminaire; readonly s: number }>();

/** What a luminaire made by {@link scaledLuminaire} was scaled from, for whoever prefers to scale the point asked for
 * and use what is known of the original; itself and 1 for any other. */
export function scaleOf(luminaire: Luminaire): { readonly of: Luminaire; readonly s: number } {
  return scales.get(luminaire) ?? { of: luminaire, s: 1 };
}

/** @param s size relative to the given luminaire, > 0 */
export function scaledLuminaire(luminaire: Luminaire, s: number): Luminaire {
  if (s === 1) return luminaire;
  const { emission, body, luminanceTowards } = luminaire;
  const scaled: Luminaire = {
    ...luminaire,
    emission: scaledEmission(emission, s),
    evidence: "F",
    ...(body === undefined ? {} : { body: scaledBody(body, s) }),
    ...(luminanceTowards === undefined
      ? {}
      : {
          luminanceTowards: ([x, y, z]) => {
            const seen = luminanceTowards([x / s, y / s, z / s]);
            return { ...seen, luminance: seen.luminance / (s * s) };
          },
        }),
  };
  const before = scaleOf(luminaire);
  scales.set(scaled, { of: before.of, s: before.s * s });
  return scaled;
}

function scaledEmission(emission: Emission, s: number): Emission {
  const opening = scaledOpening(emission.opening, s);
  if (emission.kind === "opening") return { ...emission, opening };
  const at = new Float64Array(3);
  const { table } = emission;
  return {
    ...emission,
    opening,
    ...(table === undefined
      ? {}
      : {
          // Illuminance falls as distance² grows: their product stays.
          table: (distance) => {
            const given = table(distance / s);
            const values = given.values.map((x, k) => (k % 4 === 3 ? s * x : x));
            return { ...given, nearest: s * given.nearest, values };
          },
        }),
    sample: (point, positions, normalIlluminance) => {
      for (let k = 0; k < 3; k++) at[k] = point[k] / s;
      const count = emission.sample(at, positions, normalIlluminance);
      for (let k = 0; k < 3 * count; k++) positions[k] *= s;
      for (let i = 0; i < count; i++) normalIlluminance[i] /= s * s;
      return count;
    },
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
