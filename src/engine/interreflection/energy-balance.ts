/**
 * Absorbed less emitted, over emitted, as it is before the factors' rows are brought to one:
 *   [Σ Φ_direct − Φ + Σ_j A_j M_j (Σ_i F_ji − 1)] / Φ
 * The first part is the direct light's integration, on patches and bodies, the second the factors' closure, of the room
 * and with bodies in it; the solution's residual adds nothing of this order.
 */

import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import type { EnergyBalance } from "../result.ts";
import type { RoomLight } from "./body-solution.ts";
import type { RadiositySolution } from "./radiosity.ts";
import type { RoomExchange } from "./room-exchange.ts";

/** The balance of one calculation: `light` is all that arrived straight; `bodiesLeak` (lm) what rows with bodies in them
 * miss one by, `absorbedByBodies` (lm) what bodies keep. */
export function energyBalance(
  { exchange }: RoomExchange,
  luminaires: readonly KeyedLuminaire[],
  { patchFlux, partFlux, layers }: RoomLight,
  { exitance }: RadiositySolution,
  bodiesLeak: number,
  absorbedByBodies: number,
): EnergyBalance {
  const { patches, rowSums, closureError, meanClosureError } = exchange;
  const n = patches.count;
  let emitted = 0;
  for (const { placed } of luminaires) emitted += placed.luminaire.flux;
  let arrived = 0;
  for (const flux of patchFlux) arrived += flux;
  for (const flux of partFlux) arrived += flux;
  let leak = bodiesLeak;
  for (let l = 0; l < layers; l++)
    for (let j = 0; j < n; j++) leak += patches.area[j] * exitance[l * n + j] * (rowSums[j] - 1);
  const relative = (flux: number): number => (emitted > 0 ? flux / emitted : 0);
  return {
    imbalance: relative(arrived - emitted + leak),
    directImbalance: relative(arrived - emitted),
    absorbedByBodies: relative(absorbedByBodies),
    closureError,
    meanClosureError,
  };
}
