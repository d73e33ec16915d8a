/** The key of a plan with light: the absolute scale with its steps, hatch, target line, and a scale bar. */

import { familiarPlace } from "../advice/illuminance-examples.ts";
import { rectangle, rectangleBetween } from "../geometry/polygon.ts";
import type { Scene } from "../scene/scene.ts";
import { METRES_PER_FOOT } from "../units/quantities.ts";
import { type Box, line, type Mark, segment, text, textWidth } from "./drawing.ts";
import { scaleBands, scaleSteps } from "./light-scale.ts";

export interface ScaleSwatch {
  readonly box: Box;
  readonly colour: string;
}

export interface LightLegend {
  readonly swatches: readonly ScaleSwatch[];
  readonly marks: readonly Mark[];
  readonly height: number;
}

/** The named steps, and as many more as what is drawn asks for; what lies above is one open band. */
const HIGHEST = { lx: 1000, fc: 100 } as const;

/** Swatches of every band from `x` over `width`, a tick and a figure at each step, words under three of them.
 * @param most the most light that is drawn with these colours (lx) */
export function scaleLegend(x: number, y: number, width: number, unit: "lx" | "fc", most = 0): LightLegend {
  const steps = scaleSteps(unit).filter(
    ({ label, level }) => Number(label) <= HIGHEST[unit] || level <= most,
  );
  const bands = scaleBands(unit).slice(0, steps.length + 1);
  const each = width / bands.length;
  const swatches = bands.map(({ colour }, i) => ({
    box: { x: x + i * each, y, width: each, height: 14 },
    colour,
  }));
  const marks: Mark[] = [line(rectangle(x, y, width, 14), "scale", "ink", 0.75, { closed: true })];
  steps.forEach((step, i) => {
    const at = x + (i + 1) * each;
    marks.push(
      segment(at, y, at, y + 18, "scale step", "ink", 0.75),
      text([at, y + 30], step.label, "scale step", { anchor: "middle", ink: "ink" }),
    );
  });
  marks.push(text([x + width, y + 30], unit, "scale unit", { anchor: "end", ink: "ink" }));
  // A word under the steps people know best, as far as they stand clear of one another.
  let free = x;
  for (const wanted of [50, 150, 300, 500]) {
    const i = steps.findIndex((step) => step.level >= wanted * 0.85);
    if (i < 0) continue;
    const words = familiarPlace(wanted);
    const at = x + (i + 1) * each;
    const half = textWidth(words, 11) / 2;
    if (at - half < free || at + half > x + width + 60) continue;
    marks.push(text([at, y + 45], words, "familiar place", { anchor: "middle", size: 11 }));
    free = at + half + 10;
  }
  return { swatches, marks, height: 50 };
}

/** A bar of a round length that is at most `most` units long. */
export function scaleBar(
  x: number,
  y: number,
  perMetre: number,
  most: number,
  feet: boolean,
): readonly Mark[] {
  const unit = feet ? METRES_PER_FOOT : 1;
  const lengths = feet ? [1, 2, 3, 5, 10, 20] : [0.25, 0.5, 1, 2, 5, 10];
  const count = lengths.filter((n) => n * unit * perMetre <= most).pop() ?? lengths[0];
  const end = x + count * unit * perMetre;
  const middle = (x + end) / 2;
  return [
    line(rectangleBetween(x, y, middle, y + 5), "scale bar", "ink", 0.75, { closed: true, fill: "ink" }),
    line(rectangleBetween(middle, y, end, y + 5), "scale bar", "ink", 0.75, { closed: true }),
    text([x, y - 5], "0", "scale bar", { ink: "ink" }),
    text([end, y - 5], `${count} ${feet ? "ft" : "m"}`, "scale bar", { anchor: "end", ink: "ink" }),
  ];
}

/** What the thin lines of a plan of the top are, of those that are drawn. */
export function planLineKey(scenes: readonly Scene[]): string {
  const has = (drawn: (scene: Scene) => boolean): boolean => scenes.some(drawn);
  const lines = [
    ...(has(({ zones }) => zones.length > 0) ? ["a dashed frame is a zone"] : []),
    ...(has(({ layers }) =>
      layers.some(({ role, luminaires }) => role === "recessed" && luminaires.length > 0),
    )
      ? ["a dotted ring is a light in the ceiling"]
      : []),
    ...(has(({ island }) => (island?.overhang?.depth ?? 0) > 0)
      ? ["a dotted line is the edge of the base under the overhang"]
      : []),
  ];
  return lines.length === 0 ? "" : `On the plan ${lines.join(", ")}.`;
}
