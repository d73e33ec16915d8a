/**
 * The absolute scale of illuminance as a table over ln E, from 1 to 20,000 lx, as `shaders/view/scale.glsl` reads it:
 * row 0 the colour of the band, row 1 the ln of the steps below and above it, rows 2 and 3 the inks of their lines.
 */

import type { DataTexture } from "three";
import { inkOver, scaleBands } from "../drawing/light-scale.ts";
import { floatTexture } from "./float-texture.ts";

const ENTRIES = 1024;
const SPAN = Math.log(20_000);

export function scaleTable(unit: "lx" | "fc"): DataTexture {
  const bands = scaleBands(unit);
  const table = new Float32Array(16 * ENTRIES);
  for (let i = 0; i < ENTRIES; i++) {
    // By its lower end: an entry that a step runs through belongs to the band below.
    const E = Math.exp((i / ENTRIES) * SPAN);
    const { colour, from, to } = bands.find((band) => E < band.to) ?? bands[bands.length - 1];
    const ends = [from > 0 ? Math.log(from) : -99, Number.isFinite(to) ? Math.log(to) : 99, 0, 0];
    const rows = [rgb(colour), ends, rgb(inkOver(from)), rgb(inkOver(Math.min(to, 1e9)))];
    for (const [k, row] of rows.entries()) table.set(row, 4 * (k * ENTRIES + i));
  }
  return floatTexture(table, ENTRIES, 4);
}

/** Shares of red, green and blue of `#rrggbb`, opaque. */
function rgb(colour: string): number[] {
  const n = Number.parseInt(colour.slice(1), 16);
  return [(n >> 16) / 255, ((n >> 8) & 255) / 255, (n & 255) / 255, 1];
}
