/** Direct light by the plainest of means: the engine's unoccluded value times the share of many samples of the opening,
 * or of a lamp and its shade, that see the point. Where the engine stops early, this does not. */

import { DirectSources } from "../../src/engine/direct/direct-sources.ts";
import { LocalPoint } from "../../src/engine/direct/local-point.ts";
import { OpeningQuadrature } from "../../src/engine/direct/opening-quadrature.ts";
import { Receiver } from "../../src/engine/direct/receiver.ts";
import { Occluders } from "../../src/engine/visibility/occluders.ts";
import { scatterOpening } from "../../src/engine/visibility/opening-samples.ts";
import {
  isClear,
  movingBodies,
  Surroundings,
  standingBlockers,
} from "../../src/engine/visibility/surroundings.ts";
import { boxOfPoints } from "../../src/geometry/box.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { scatterShade, shadeSampleCount } from "./shade-samples.ts";

const LIFT = 2e-5;
/** Places around a ring of a shade. */
const AROUND = 48;

/** By luminaire: the points of every surface ask for the same. */
const sources = new DirectSources();

export interface PlainLight {
  /** lx */
  readonly light: Float64Array;
  /** With nothing in the way. */
  readonly clear: Float64Array;
  /** Whether any opening is partly hidden from the point. */
  readonly partly: boolean[];
}

export function plainLight(
  scene: Scene,
  points: Float64Array,
  normal: Vec3,
  people: boolean,
  samples: number,
): PlainLight {
  const count = points.length / 3;
  const light = new Float64Array(count);
  const clear = new Float64Array(count);
  const partly = new Array<boolean>(count).fill(false);
  const surroundings = new Surroundings(new Occluders(standingBlockers(scene)), movingBodies(scene, people));
  scene.layers.forEach(({ luminaires }, layer) => {
    luminaires.forEach((placed, index) => {
      const { luminaire, frame } = placed;
      const { origin, rotation: r } = frame;
      const { emission } = luminaire;
      const most = emission.kind === "surfaces" ? shadeSampleCount(emission, AROUND) : samples;
      const positions = new Float64Array(3 * most);
      const weights = new Float64Array(most);
      const emitter = sources.of(luminaire, 0.0005);
      const opening = new OpeningQuadrature(luminaire.distribution, emission.opening);
      const receiver = new Receiver("planar", normal, r);
      const local = new LocalPoint(origin, r);
      const own = surroundings.ownBody(layer, index);
      const reach = emitter.radius;
      const box = Float64Array.of(...origin.map((x) => x - reach), ...origin.map((x) => x + reach));
      for (let i = 0; i < count; i++) {
        local.set(points, i);
        if (emitter.unseen(local.x, local.y, local.z, receiver)) continue;
        const E = emitter.illuminance(local.x, local.y, local.z, receiver, 0);
        clear[i] += E;
        const [x, y, z] = [0, 1, 2].map((k) => points[3 * i + k] + LIFT * normal[k]);
        const inTheWay = surroundings.between(boxOfPoints([x, y, z]), box, own);
        if (E === 0 || isClear(inTheWay)) {
          light[i] += E;
          continue;
        }
        let drawn = samples;
        if (emission.kind === "surfaces")
          drawn = scatterShade(emission, [local.x, local.y, local.z], AROUND, positions, weights);
        else scatterOpening(opening, local.x, local.y, local.z, 0, samples, 0.37, 0.61, positions, weights);
        let all = 0;
        let passed = 0;
        for (let k = 0; k < drawn; k++) {
          const px = positions[3 * k];
          const py = positions[3 * k + 1];
          const pz = positions[3 * k + 2];
          const vx = local.x - px;
          const vy = local.y - py;
          const vz = local.z - pz;
          const dd = vx * vx + vy * vy + vz * vz;
          const w = (weights[k] * receiver.weight(vx, vy, vz, dd)) / Math.sqrt(dd);
          if (w <= 0) continue;
          all += w;
          const atX = r[0] * px + r[3] * py + r[6] * pz + origin[0];
          const atY = r[1] * px + r[4] * py + r[7] * pz + origin[1];
          const atZ = r[2] * px + r[5] * py + r[8] * pz + origin[2];
          passed += w * surroundings.transmittance(x, y, z, atX, atY, atZ, inTheWay);
        }
        const share = all > 0 ? passed / all : 1;
        if (share > 1e-9 && share < 1 - 1e-9) partly[i] = true;
        light[i] += E * share;
      }
    });
  });
  return { light, clear, partly };
}
