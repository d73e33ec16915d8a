/**
 * What a dimmer is set to for a share of light output, both from 0 to 1:
 *
 *   linear       control = flux
 *   square       flux = control²
 *   logarithmic  flux = 10^(3 (N − 1) / 253 − 3), N = 254 · control, of IEC 62386-102
 *   pairs        straight between them
 *
 * Known error: none of its own; lamps and drivers keep to their stated curve as well as they do.
 */

import type { DimmerControl } from "../study/arrangement-schema.ts";

/** Highest level of the logarithmic curve of IEC 62386-102. */
export const LOGARITHMIC_LEVELS = 254;

/** Share of full control for a share of full flux; null where the dimmer does not reach it.
 * @param flux 0 to 1, 0 being off */
export function controlValue(flux: number, control: DimmerControl): number | null {
  if (flux === 0) return 0;
  if (control === "linear") return flux;
  if (control === "square") return Math.sqrt(flux);
  if (control === "logarithmic") {
    const level = 1 + (253 / 3) * (Math.log10(flux) + 3);
    return level < 1 ? null : level / LOGARITHMIC_LEVELS;
  }
  const [least] = control;
  const most = control[control.length - 1];
  if (flux < least[1] || flux > most[1]) return null;
  const after = Math.max(
    1,
    control.findIndex((pair) => pair[1] >= flux),
  );
  const [[c0, f0], [c1, f1]] = [control[after - 1], control[after]];
  return f1 === f0 ? c0 : c0 + ((flux - f0) / (f1 - f0)) * (c1 - c0);
}
