/**
 * The absolute scale of illuminance as a table over ln E, from 1 to 20,000 lx, as `shaders/view/scale.glsl` reads it:
 * row 0 the colour of the band, row 1 the ln of the steps below and above it and whether their lines are drawn in dark ink.
 */

import type { DataTexture } from "three";
import { darkInkOver, scaleBands } from "../drawing/light-scale.ts";
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
    const below = from > 0 ? [Math.log(from), Number(darkInkOver(from))] : [-99, 0];
    const above = Number.isFinite(to) ? [Math.log(to), Number(darkInkOver(to))] : [99, 1];
    table.set([below[0], above[0], below[1], above[1]], 4 * (ENTRIES + i));
  }
  return floatTexture(table, ENTRIES, 2);
}
