/**
 * Absorbed less emitted, over emitted, as it is before the factors' rows are brought to one:
 *   [Σ Φ_direct − Φ + Σ_j A_j M_j (Σ_i F_ji − 1)] / Φ
 * The first part is the direct light's integration, the second the factors' closure; the solution's residual and,
 * where bodies take part, their exchange (exact by construction) add nothing of this order.
 */

import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import type { EnergyBalance } from "../result.ts";
import type { PatchDirect } from "./patch-direct.ts";
import type { RadiositySolution } from "./radiosity.ts";
import type { RoomExchange } from "./room-exchange.ts";

/** The balance of one calculation; `absorbedByBodies` in lm. */
export function energyBalance(
  { exchange }: RoomExchange,
  luminaires: readonly KeyedLuminaire[],
  direct: readonly PatchDirect[],
  { exitance }: RadiositySolution,
  layers: number,
  absorbedByBodies: number,
): EnergyBalance {
  const { patches, rowSums, closureError, meanClosureError } = exchange;
  const n = patches.count;
  let emitted = 0;
  let arrived = 0;
  luminaires.forEach(({ placed }, k) => {
    emitted += placed.luminaire.flux;
    for (let i = 0; i < n; i++) arrived += direct[k].flux[i];
    for (const part of direct[k].caught) arrived += part;
  });
  let leak = 0;
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
