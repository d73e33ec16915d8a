/**
 * A shade from the side as it is described, with its lamp and its two dimensions: what the designer checks before
 * any light is traced.
 */

import { ellipse } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { outlineOfRings } from "../luminaire/shade/shade-form.ts";
import { SHADE_FORMS } from "../luminaire/shade/shade-forms.ts";
import type { Wording } from "../words/wording.ts";
import { horizontalDimension, verticalDimension } from "./dimension.ts";
import { type Drawing, line, type Mark, segment, text } from "./drawing.ts";

/** Lengths in metres; heights of the outline and of the lamp above the lower rim. */
export interface ShadeShape {
  readonly profile: string | readonly (readonly [radius: number, height: number])[];
  readonly diameter: number;
  /** The form's own share of the diameter when absent. */
  readonly topDiameter?: number;
  readonly height: number;
  readonly lamp?: { readonly height: number; readonly diameter: number };
}

export function shadeSilhouette(shape: ShadeShape, width: number, words: Wording): Drawing {
  const half = outlineOf(shape);
  const widest = Math.max(...half.map(([r]) => r), 0.01);
  const low = Math.min(...half.map(([, z]) => z));
  const high = Math.max(...half.map(([, z]) => z), low + 0.01);
  const scale = Math.min((width - 110) / (2 * widest), 220 / (high - low));
  const middle = (width - 70) / 2;
  const y = (z: number): number => 14 + (high - z) * scale;
  const side = (sign: 1 | -1): Vec2[] => half.map(([r, z]) => [middle + sign * r * scale, y(z)] as const);
  const marks: Mark[] = [
    segment(middle, 0, middle, y(high), "cord", "luminaire", 1),
    line([...side(1), ...side(-1).reverse()], "shade", "luminaire", 1.5, { closed: true, fill: "sheet" }),
  ];
  if (shape.lamp !== undefined) {
    const r = Math.max(2, (shape.lamp.diameter / 2) * scale);
    const at = y(low + shape.lamp.height);
    marks.push(
      line(ellipse(middle, at, r), "lamp", "ink", 1, { closed: true }),
      text([middle + r + 5, at + 4], "lamp", "lamp"),
    );
  }
  marks.push(
    ...horizontalDimension(
      middle - widest * scale,
      middle + widest * scale,
      y(low) + 26,
      words.length(2 * widest),
    ),
    ...verticalDimension(middle + widest * scale + 12, y(high), y(low), words.length(high - low)),
  );
  return {
    width,
    height: Math.ceil(y(low) + 40),
    marks,
    luminaires: [],
    summary: `Shade ${words.length(2 * widest)} across, ${words.length(high - low)} high.`,
  };
}

function outlineOf({
  profile,
  diameter,
  topDiameter,
  height,
}: ShadeShape): readonly (readonly [number, number])[] {
  if (typeof profile !== "string" && profile.length > 1) return profile;
  const form = Object.entries(SHADE_FORMS).find(([name]) => name === profile)?.[1];
  // A linear housing from its long side.
  if (form === undefined)
    return [
      [diameter / 2, 0],
      [diameter / 2, height],
    ];
  const top = Math.min(topDiameter ?? form.topShare * diameter, diameter) / 2;
  return outlineOfRings(form.rings({ radius: diameter / 2, top, height }));
}
