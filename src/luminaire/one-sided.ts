/** Which way a luminaire lights as it hangs, where one side gets more than the other. */

import { luminousFlux } from "../photometry/luminous-flux.ts";
import { degrees } from "../units/quantities.ts";
import type { PlacedLuminaire } from "./placed-luminaire.ts";

/** From this ratio of the two sides' flux it is worth a word; common practice, no source. */
const ONE_SIDED = 1.25;

export interface OneSided {
  /** Walls as the floor plan numbers them: the one it lights towards, and the one behind it. */
  readonly towards: number;
  readonly from: number;
  /** Flux below the horizon into the one half of the room over that into the other. */
  readonly times: number;
}

/** Sides of the drawings on screen, by the walls they face. */
export const SIDES = ["near", "right", "far", "left"] as const;

/** How far a luminaire hung plumb is turned (°, 0 to 360). */
export function turnOf({ frame: { rotation } }: Pick<PlacedLuminaire, "frame">): number {
  return (Math.round(degrees(Math.atan2(rotation[1], rotation[0]))) + 360) % 360;
}

/** Least share of the flux that goes up and is worth a word; common practice, no source. */
const UPWARD = 0.1;

/** Share of its flux that a luminaire hung plumb sends above the horizon; undefined below a tenth, and of one that is tilted or aimed. */
export function upwardShare({ luminaire, frame: { rotation } }: PlacedLuminaire): number | undefined {
  if (Math.abs(rotation[8] - 1) > 1e-6) return undefined;
  const share = 1 - luminousFlux(luminaire.distribution).downwardShare;
  return share >= UPWARD ? share : undefined;
}

/** Flux of one plane between two of its angles, by the trapezoid rule. */
function band(intensity: Float64Array, vertical: Float64Array, from: number, v: number): number {
  const [low, high] = [v, v + 1].map((i) => intensity[from + i] * Math.sin(vertical[i]));
  return ((low + high) / 2) * (vertical[v + 1] - vertical[v]);
}

/** Undefined of what lights both sides alike, of one table that is not type C, and of what is tilted or aimed. */
export function oneSided({ luminaire, frame: { rotation } }: PlacedLuminaire): OneSided | undefined {
  const { type, horizontal, vertical, intensity } = luminaire.distribution;
  if (type !== "C" || horizontal.length < 3 || Math.abs(rotation[8] - 1) > 1e-6) return undefined;
  // Halves to +x, +y, −x and −y of the room, by the trapezoid rule over the table's own angles.
  const halves = [0, 0, 0, 0];
  for (let h = 0; h + 1 < horizontal.length; h++) {
    const azimuth = (horizontal[h] + horizontal[h + 1]) / 2 + Math.atan2(rotation[1], rotation[0]);
    const flux = ((horizontal[h + 1] - horizontal[h]) * (planeFlux(h) + planeFlux(h + 1))) / 2;
    halves[Math.cos(azimuth) > 0 ? 0 : 2] += flux;
    halves[Math.sin(azimuth) > 0 ? 1 : 3] += flux;
  }
  function planeFlux(h: number): number {
    let sum = 0;
    for (let v = 0; v + 1 < vertical.length && vertical[v + 1] <= Math.PI / 2 + 1e-9; v++)
      sum += band(intensity, vertical, h * vertical.length, v);
    return sum;
  }
  const WALLS = [1, 2, 3, 0];
  const [side, times] = halves
    .map((flux, i) => [i, flux / halves[(i + 2) % 4]] as const)
    .reduce((most, each) => (each[1] > most[1] ? each : most));
  return times < ONE_SIDED ? undefined : { towards: WALLS[side], from: WALLS[(side + 2) % 4], times };
}
