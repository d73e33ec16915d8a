/**
 * Direct light of one luminaire on the parts of a body that comes and goes, integrated over the part:
 *   Φ_q = Σ_k A_k E(x_k, n_k) V_k
 * over the points x_k of its outside, V_k past everything between, with a few points of the opening each.
 *
 * Key: the luminaire in its place, the body, and all that can stand between.
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { segmentMeetsPolyhedron } from "../../geometry/polyhedron.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { DirectSource } from "../direct/direct-source.ts";
import { Receiver } from "../direct/receiver.ts";
import type { Penumbra } from "../visibility/penumbra.ts";
import { type InTheWay, isClear, type Surroundings } from "../visibility/surroundings.ts";
import type { BodySolid } from "./body-solid.ts";
import { openingSample } from "./shadow-samples.ts";

/** Points of the opening asked for a point. */
const SAMPLES = 4;
/** A ray that starts on a body's face leaves it (m). */
const CLEARANCE = 1e-6;
const SAMPLE = new Float64Array(2);
const SOURCE = new Float64Array(3);

/** lm on each part. `inTheWay` is all that can stand between, the body itself apart; `covered` tells points that lie in
 * another body. */
export function directOnBody(
  solid: BodySolid,
  placed: PlacedLuminaire,
  emitter: DirectSource,
  penumbra: Penumbra,
  surroundings: Surroundings,
  inTheWay: InTheWay,
  covered: (x: number, y: number, z: number) => boolean,
  floor: number,
  observer?: Observer,
): Float64Array {
  const flux = new Float64Array(solid.parts);
  const { part, at, normal, area } = solid.litNodes;
  const {
    frame: { origin, rotation: r },
  } = placed;
  const alone = isClear(inTheWay) && solid.pieces.length === 1;
  for (let k = 0; k < part.length; k++) {
    if (k % 64 === 0) throwIfCancelled(observer);
    const x = at[3 * k];
    const y = at[3 * k + 1];
    const z = at[3 * k + 2];
    const facing: Vec3 = [normal[3 * k], normal[3 * k + 1], normal[3 * k + 2]];
    if (covered(x, y, z)) continue;
    const dx = x - origin[0];
    const dy = y - origin[1];
    const dz = z - origin[2];
    const px = r[0] * dx + r[1] * dy + r[2] * dz;
    const py = r[3] * dx + r[4] * dy + r[5] * dz;
    const pz = r[6] * dx + r[7] * dy + r[8] * dz;
    const receiver = new Receiver("planar", facing, r);
    if (emitter.unseen(px, py, pz, receiver)) continue;
    const E = emitter.illuminance(px, py, pz, receiver, floor);
    if (E <= 0) continue;
    let passed = 1;
    if (!alone) {
      let weight = 0;
      passed = 0;
      for (let n = 0; n < SAMPLES; n++) {
        openingSample(k * SAMPLES + n, SAMPLE);
        const w = penumbra.one(px, py, pz, SAMPLE[0], SAMPLE[1], receiver, SOURCE);
        if (w <= 0) continue;
        weight += w;
        if (hiddenByOwn(solid, x, y, z)) continue;
        passed += w * surroundings.transmittance(x, y, z, SOURCE[0], SOURCE[1], SOURCE[2], inTheWay);
      }
      passed = weight > 0 ? passed / weight : 1;
    }
    flux[part[k]] += area[k] * E * passed;
  }
  return flux;
}

function hiddenByOwn({ pieces }: BodySolid, x: number, y: number, z: number): boolean {
  return (
    pieces.length > 1 &&
    pieces.some((piece) => segmentMeetsPolyhedron(piece, x, y, z, SOURCE[0], SOURCE[1], SOURCE[2], CLEARANCE))
  );
}
