/**
 * Direct light of one luminaire on every patch, integrated over the patch, and what moving bodies catch of it.
 *
 *   Φ_i = ∫_{A_i} E dA · V_i
 * V_i is the visible share over patch and opening together: sixteen stratified points of the patch, each with its
 * own point of the opening, and sixty-four where they disagree. What a ray loses to a standing solid falls on
 * that solid's own patches; what it loses to a moving body is booked to the body, so no light is lost.
 *
 * Keys: unshadowed flux by patches and the luminaire in its place; shadows also by all that can stand in the way.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { seedOf } from "../../numerics/random-sequence.ts";
import type { DirectSource } from "../direct/direct-source.ts";
import { Receiver } from "../direct/receiver.ts";
import { Penumbra } from "../visibility/penumbra.ts";
import { type InTheWay, isClear, type Surroundings } from "../visibility/surroundings.ts";
import { PatchIntegral } from "./patch-integral.ts";
import { PatchSampler } from "./patch-sampler.ts";
import { type Patches, surfaceBounds } from "./patches.ts";

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
  let area = 0;
  for (let i = 0; i < patches.count; i++) area += patches.area[i];
  const total = placed.luminaire.flux;
  const floor = (FLOOR_SHARE * total) / area;
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
  return { flux, quarters };
}

export interface PatchDirect {
  /** lm on each patch */
  readonly flux: Float64Array;
  readonly unshadowed: UnshadowedFlux;
  /** lm caught by each moving body */
  readonly caught: Float64Array;
  readonly rays: number;
}

/** Flux past the surroundings; `own` is the index of the luminaire's own body among the moving ones. */
export function shadowedFlux(
  patches: Patches,
  unshadowed: UnshadowedFlux,
  placed: PlacedLuminaire,
  emitter: DirectSource,
  surroundings: Surroundings,
  own: number,
  seed: number,
  observer?: Observer,
): PatchDirect {
  const p = patches;
  const clear = unshadowed.flux;
  const flux = clear.slice();
  const caught = new Float64Array(surroundings.bodies.length);
  const penumbra = new Penumbra(placed, emitter, surroundings);
  const shadow = new PatchShadow(p, placed, penumbra, surroundings);
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
      shadow.look(i, receiver, inTheWay, seedOf(seed, i, 5));
      flux[i] = clear[i] * shadow.visible;
      for (const b of inTheWay.bodies) caught[b] += clear[i] * shadow.caught[b];
    }
  }
  return { flux, unshadowed, caught, rays: shadow.rays };
}

/** The shadow on one patch at a time. */
class PatchShadow {
  /** Share of the light that arrives, and that each body catches. */
  visible = 1;
  readonly caught: Float64Array;
  rays = 0;
  readonly #placed: PlacedLuminaire;
  readonly #penumbra: Penumbra;
  readonly #surroundings: Surroundings;
  readonly #sampler: PatchSampler;
  readonly #at = new Float64Array(3);
  readonly #source = new Float64Array(3);

  constructor(patches: Patches, placed: PlacedLuminaire, penumbra: Penumbra, surroundings: Surroundings) {
    this.#placed = placed;
    this.#penumbra = penumbra;
    this.#surroundings = surroundings;
    this.#sampler = new PatchSampler(patches);
    this.caught = new Float64Array(surroundings.bodies.length);
  }

  look(i: number, receiver: Receiver, inTheWay: InTheWay, seed: number): void {
    const { origin, rotation: r } = this.#placed.frame;
    const sampler = this.#sampler;
    const at = this.#at;
    sampler.seed(seed);
    this.caught.fill(0);
    let weight = 0;
    let passed = 0;
    for (const side of SIDES) {
      for (let n = 0; n < side * side; n++) {
        sampler.sample(i, n % side, Math.floor(n / side), side, at);
        const dx = at[0] - origin[0];
        const dy = at[1] - origin[1];
        const dz = at[2] - origin[2];
        const w = this.#penumbra.one(
          r[0] * dx + r[1] * dy + r[2] * dz,
          r[3] * dx + r[4] * dy + r[5] * dz,
          r[6] * dx + r[7] * dy + r[8] * dz,
          sampler.random(),
          sampler.random(),
          receiver,
          this.#source,
        );
        if (w <= 0) continue;
        weight += w;
        passed += w * this.#passed(w, inTheWay);
      }
      if (passed === 0 || passed >= weight * (1 - 1e-12)) break;
    }
    this.visible = weight > 0 ? passed / weight : 1;
    if (weight > 0) for (const b of inTheWay.bodies) this.caught[b] /= weight;
  }

  #passed(w: number, inTheWay: InTheWay): number {
    const a = this.#at;
    const b = this.#source;
    this.rays++;
    let left =
      inTheWay.standing.length === 0
        ? 1
        : this.#surroundings.standing.transmittanceAmong(
            a[0],
            a[1],
            a[2],
            b[0],
            b[1],
            b[2],
            inTheWay.standing,
          );
    for (const body of inTheWay.bodies) {
      if (left === 0) break;
      const through = this.#surroundings.bodies[body].occluders.transmittance(
        a[0],
        a[1],
        a[2],
        b[0],
        b[1],
        b[2],
      );
      this.caught[body] += w * left * (1 - through);
      left *= through;
    }
    return left;
  }
}
