/**
 * The brightest thing an eye meets when it looks at a traced shade: the bare lamp where a sight line reaches
 * it, else the brightest ring of the shade.
 *
 * Lamp: mean luminance over its outline, less what the shade's glass keeps along the line. Shade: L = M / π of
 * the side that faces the eye, past the other parts.
 */

import { passedAlong, type RingPlace, ringPlace } from "../../geometry/revolved-surface.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Luminaire } from "../luminaire.ts";
import { lawAt } from "./lamp.ts";
import { eachLampPlace, type ShadeLight } from "./shade-light.ts";

export interface SeenLuminance {
  /** cd/m² */
  readonly luminance: number;
  readonly source: "lamp" | "shade";
  /** Share of the lamp's outline in sight, 0…1. */
  readonly lampInSight: number;
}

const AZIMUTHS = 12;
const SKIN = 1e-7;
/** Less than this share of a lamp is a glint past an edge, not a lamp in view. */
const GLINT = 0.01;

/** The brightest luminance that the local point (m) meets, and whether it is the lamp itself, where lamp and shade
 * are known; undefined elsewhere: only the mean over the opening can be told. */
export function luminanceTowards({ emission }: Luminaire, [x, y, z]: Vec3): SeenLuminance | undefined {
  if (emission.kind !== "surfaces") return undefined;
  const { light, size, strength } = emission;
  const seen = brightestTowards(light, [x / size, y / size, z / size + light.assembly.centre]);
  return { ...seen, luminance: (strength * seen.luminance) / (size * size) };
}

/** @param eye in the shade's rim frame (m), outside the shade */
export function brightestTowards(light: ShadeLight, eye: Vec3): SeenLuminance {
  const { surface, straight, lamps } = light.assembly;
  const r = Math.hypot(eye[0], eye[1]);
  const z = eye[2];
  let luminance = 0;
  let source: SeenLuminance["source"] = "shade";
  let lampInSight = 0;
  const place: RingPlace = { r: 0, z: 0, nr: 0, nz: 0, area: 0 };
  for (const lamp of lamps) {
    const distance = Math.hypot(r, z - lamp.z);
    const dx = r / distance;
    const dz = (z - lamp.z) / distance;
    const gamma = Math.acos(Math.min(1, Math.max(-1, -dz)));
    const peak = lamp.law.reduce((a, b) => Math.max(a, b), 0);
    let seen = 0;
    let places = 0;
    let clearest = 0;
    eachLampPlace(lamp, dx, 0, dz, (x, y, h, along) => {
      const fx = x + along * dx;
      const fz = h + along * dz;
      const passed = passedAlong(surface, straight, fx, y, fz, r - fx, -y, z - fz, SKIN, 1);
      places++;
      if (passed > 0) seen++;
      clearest = Math.max(clearest, passed);
    });
    const share = seen / places;
    lampInSight = Math.max(lampInSight, share);
    const value = (lamp.luminance * clearest * lawAt(lamp.law, gamma)) / peak;
    if (share >= GLINT && value > luminance) {
      luminance = value;
      source = "lamp";
    }
  }
  for (let i = 0; i < light.assembly.shadeCount; i++) {
    ringPlace(surface, i, 0.5, place);
    const { r: rc, z: zc, nr, nz } = place;
    for (let k = 0; k < AZIMUTHS; k++) {
      const angle = ((k + 0.5) * Math.PI) / AZIMUTHS;
      const x = rc * Math.cos(angle);
      const y = rc * Math.sin(angle);
      const facing = nr * (Math.cos(angle) * (r - x) - Math.sin(angle) * y) + nz * (z - zc);
      const exitance = facing > 0 ? light.outwardExitance[i] : light.inwardExitance[i];
      if (exitance / Math.PI <= luminance) continue;
      const passed = passedAlong(surface, straight, x, y, zc, r - x, -y, z - zc, SKIN, 1);
      if ((exitance * passed) / Math.PI > luminance) {
        luminance = (exitance * passed) / Math.PI;
        source = "shade";
      }
    }
  }
  return { luminance, source, lampInSight };
}
