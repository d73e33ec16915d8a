/**
 * Direct light of one luminaire on every patch, integrated over the patch.
 *
 *   Φ_i = ∫_{A_i} E dA · V_i
 * V_i is the visible share over patch and opening together: sixteen points of the patch, each with its own point of the
 * opening (`shadow-samples.ts`), and sixty-four where they disagree. What is lost on the way falls on the patches of
 * solids and the parts of bodies (`body-direct.ts`); how far all of it is from the luminaire's flux is reported.
 *
 * Keys: unshadowed flux by patches and the luminaire in its place; the visible share of a patch also by what can stand in
 * its own way, so that a body that moves costs the patches behind it and no others.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { DirectSource } from "../direct/direct-source.ts";
import { Receiver } from "../direct/receiver.ts";
import { Penumbra } from "../visibility/penumbra.ts";
import { type InTheWay, isClear, type Surroundings } from "../visibility/surroundings.ts";
import { PatchIntegral } from "./patch-integral.ts";
import { type Patches, surfaceBounds } from "./patches.ts";
import { openingSample, patchPoint } from "./shadow-samples.ts";

/** Share of the luminaire's flux by which midpoint and Gauss value of a patch may differ; the error of the Gauss
 * value that is kept is a small part of that. */
const FLUX_TOLERANCE = 2e-5;
/** Share of the mean illuminance below which a contribution's near-field error no longer counts. */
const FLOOR_SHARE = 0.05;
const SIDES = [4, 8] as const;

/** Flux of one luminaire on each patch (lm), and on its quarters where it changes fast. */
export interface UnshadowedFlux {
  readonly flux: Float64Array;
  readonly quarters: ReadonlyMap<number, Float64Array>;
  /** Visible shares found, by patch and what can stand in its way. */
  readonly shares: Map<string, number>;
}

/** Shares kept for a patch: a person of a study is asked about in three postures. */
const MOST_SHARES = 16;

/** lx below which a luminaire's near-field error on surfaces no longer counts. */
export function floorOf({ area }: Patches, { luminaire }: PlacedLuminaire): number {
  let sum = 0;
  for (const a of area) sum += a;
  return (FLOOR_SHARE * luminaire.flux) / sum;
}

/** Flux on each patch, nothing standing in the way. */
export function unshadowedFlux(
  patches: Patches,
  placed: PlacedLuminaire,
  emitter: DirectSource,
  observer?: Observer,
): UnshadowedFlux {
  const flux = new Float64Array(patches.count);
  const quarters = new Map<number, Float64Array>();
  const integral = new PatchIntegral(patches);
  const { origin, rotation: r } = placed.frame;
  const total = placed.luminaire.flux;
  const floor = floorOf(patches, placed);
  for (let s = 0; s < patches.grids.length; s++) {
    throwIfCancelled(observer);
    const receiver = new Receiver("planar", patches.grids[s].frame.normal, r);
    const at = (x: number, y: number, z: number): number => {
      const dx = x - origin[0];
      const dy = y - origin[1];
      const dz = z - origin[2];
      const px = r[0] * dx + r[1] * dy + r[2] * dz;
      const py = r[3] * dx + r[4] * dy + r[5] * dz;
      const pz = r[6] * dx + r[7] * dy + r[8] * dz;
      return emitter.unseen(px, py, pz, receiver) ? 0 : emitter.illuminance(px, py, pz, receiver, floor);
    };
    for (let i = patches.firstOfSurface[s]; i < patches.firstOfSurface[s + 1]; i++) {
      flux[i] = integral.over(i, at, FLUX_TOLERANCE * total);
      if (integral.quartered) quarters.set(i, integral.quarters.slice());
    }
  }
  return { flux, quarters, shares: new Map() };
}

export interface PatchDirect {
  /** lm on each patch */
  readonly flux: Float64Array;
  readonly unshadowed: UnshadowedFlux;
}

/** Flux past the surroundings; `own` is the index of the luminaire's own body among the moving ones. */
export function shadowedFlux(
  patches: Patches,
  unshadowed: UnshadowedFlux,
  placed: PlacedLuminaire,
  emitter: DirectSource,
  surroundings: Surroundings,
  own: number,
  observer?: Observer,
): PatchDirect {
  const p = patches;
  const clear = unshadowed.flux;
  const flux = clear.slice();
  const { shares } = unshadowed;
  if (shares.size > MOST_SHARES * p.count) shares.clear();
  const penumbra = new Penumbra(placed, emitter, surroundings);
  for (let s = 0; s < p.grids.length; s++) {
    throwIfCancelled(observer);
    const { normal, origin } = p.grids[s].frame;
    const level = normal[0] * origin[0] + normal[1] * origin[1] + normal[2] * origin[2];
    const onSurface = surroundings.between(surfaceBounds(p, s), penumbra.box, own);
    // What lies behind a surface hides nothing from its front.
    const candidates: InTheWay = {
      standing: onSurface.standing.filter((solid) => !surroundings.standing.behind(solid, normal, level)),
      bodies: onSurface.bodies,
    };
    if (isClear(candidates)) continue;
    const receiver = new Receiver("planar", normal, placed.frame.rotation);
    for (let i = p.firstOfSurface[s]; i < p.firstOfSurface[s + 1]; i++) {
      if (clear[i] === 0) continue;
      const inTheWay = surroundings.between(
        p.bounds.subarray(6 * i, 6 * i + 6),
        penumbra.box,
        own,
        candidates,
      );
      if (isClear(inTheWay)) continue;
      const key = shareKey(i, surroundings, inTheWay);
      let share = shares.get(key);
      if (share === undefined) {
        share = visibleShare(p, i, placed, penumbra, receiver, surroundings, inTheWay);
        shares.set(key, share);
      }
      flux[i] = clear[i] * share;
    }
  }
  return { flux, unshadowed };
}

/** The solids that stand are those of the patches, or none. */
function shareKey(patch: number, { bodies }: Surroundings, inTheWay: InTheWay): string {
  let key = `${patch} ${inTheWay.standing.length}`;
  for (const body of inTheWay.bodies) key += ` ${bodies[body].key}`;
  return key;
}

const AT = new Float64Array(3);
const SOURCE = new Float64Array(3);
const SAMPLE = new Float64Array(2);

/** Share of a luminaire's light that reaches patch i. */
function visibleShare(
  p: Patches,
  i: number,
  { frame: { origin, rotation: r } }: PlacedLuminaire,
  penumbra: Penumbra,
  receiver: Receiver,
  surroundings: Surroundings,
  inTheWay: InTheWay,
): number {
  let weight = 0;
  let passed = 0;
  for (const side of SIDES) {
    weight = 0;
    passed = 0;
    for (let n = 0; n < side * side; n++) {
      patchPoint(p, i, n % side, Math.floor(n / side), side, AT);
      openingSample(n, SAMPLE);
      const dx = AT[0] - origin[0];
      const dy = AT[1] - origin[1];
      const dz = AT[2] - origin[2];
      const w = penumbra.one(
        r[0] * dx + r[1] * dy + r[2] * dz,
        r[3] * dx + r[4] * dy + r[5] * dz,
        r[6] * dx + r[7] * dy + r[8] * dz,
        SAMPLE[0],
        SAMPLE[1],
        receiver,
        SOURCE,
      );
      if (w <= 0) continue;
      weight += w;
      passed +=
        w * surroundings.transmittance(AT[0], AT[1], AT[2], SOURCE[0], SOURCE[1], SOURCE[2], inTheWay);
    }
    if (passed === 0 || passed >= weight * (1 - 1e-12)) break;
  }
  return weight > 0 ? passed / weight : 1;
}
