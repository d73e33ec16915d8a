/**
 * An intensity distribution as the shaders read it (`shaders/light/intensity.glsl`):
 *
 *   type, planes, angles, first cell | first plane, first angle, planes and angles per step | least and greatest plane
 *   and angle; then a record an angle (this, next, 1 / difference); then a record a cell (I00, I01, I10, I11)
 */

import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import type { RecordWriter } from "./record-writer.ts";

const TYPES = { A: 0, B: 1, C: 2 } as const;

/** Steps of an angle list this even count as one step (rad). */
const EVEN = 1e-9;

/** Writes a distribution; its first record. */
export function writeDistribution(writer: RecordWriter, distribution: IntensityDistribution): number {
  const { type, horizontal, vertical, intensity } = distribution;
  const planes = horizontal.length;
  const angles = vertical.length;
  const first = writer.put(TYPES[type], planes, angles, 0);
  const h = first + 3;
  const v = h + planes;
  const cells = v + angles;
  writer.put(h, v, perStep(horizontal), perStep(vertical));
  writer.put(horizontal[0], horizontal[planes - 1], vertical[0], vertical[angles - 1]);
  for (const list of [horizontal, vertical])
    for (let i = 0; i < list.length; i++) {
      const next = list[i + 1] ?? list[i];
      writer.put(list[i], next, next > list[i] ? 1 / (next - list[i]) : 0);
    }
  for (let i = 0; i < Math.max(1, planes - 1); i++)
    for (let j = 0; j < Math.max(1, angles - 1); j++) {
      const i1 = Math.min(i + 1, planes - 1) * angles;
      const j1 = Math.min(j + 1, angles - 1);
      const i0 = i * angles;
      writer.put(intensity[i0 + j], intensity[i0 + j1], intensity[i1 + j], intensity[i1 + j1]);
    }
  writer.amend(first, 3, cells);
  return first;
}

/** Steps per radian of an evenly spaced list, 0 of any other. */
function perStep(list: Float64Array): number {
  if (list.length < 2) return 0;
  const step = (list[list.length - 1] - list[0]) / (list.length - 1);
  for (let i = 1; i < list.length; i++) if (Math.abs(list[i] - list[0] - i * step) > EVEN) return 0;
  return 1 / step;
}

/** How many times more nodes than a smooth lobe a distribution asks for, by its steepest change with angle: 1 where
 * it takes 0.6 rad and more to fall by its maximum, 4 at a cut-off. */
export function sharpness({ horizontal, vertical, intensity }: IntensityDistribution): number {
  let peak = 0;
  let steepest = 0;
  const size = vertical.length;
  for (let h = 0; h < horizontal.length; h++)
    for (let v = 0; v < size; v++) {
      const I = intensity[h * size + v];
      peak = Math.max(peak, I);
      if (v > 0)
        steepest = Math.max(
          steepest,
          Math.abs(I - intensity[h * size + v - 1]) / (vertical[v] - vertical[v - 1]),
        );
    }
  return peak === 0 ? 1 : Math.min(4, Math.max(1, (0.6 * steepest) / peak));
}
