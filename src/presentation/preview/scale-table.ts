/**
 * The absolute scale of illuminance as a table over ln E, from 1 to 20,000 lx, as `shaders/view/scale.glsl` reads it:
 * row 0 the colour of the band, row 1 the ln of the steps below and above it.
 */

import type { DataTexture } from "three";
import { scaleBands } from "../scale.ts";
import { floatTexture } from "./float-texture.ts";

const ENTRIES = 1024;
const SPAN = Math.log(20_000);

export function scaleTable(unit: "lx" | "fc"): DataTexture {
  const bands = scaleBands(unit);
  const table = new Float32Array(8 * ENTRIES);
  for (let i = 0; i < ENTRIES; i++) {
    // By its lower end: an entry that a step runs through belongs to the band below.
    const E = Math.exp((i / ENTRIES) * SPAN);
    const { colour, from, to } = bands.find((band) => E < band.to) ?? bands[bands.length - 1];
    const n = Number.parseInt(colour.slice(1), 16);
    table.set([(n >> 16) / 255, ((n >> 8) & 255) / 255, (n & 255) / 255, 1], 4 * i);
    table.set([from > 0 ? Math.log(from) : -99, Number.isFinite(to) ? Math.log(to) : 99], 4 * (ENTRIES + i));
  }
  return floatTexture(table, ENTRIES, 2);
}
