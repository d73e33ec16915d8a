/** The outline of an island's top with the light at its judged points as numbers: the second plan of `isolux --values`. */

import type { JudgedArrangement } from "../app/judged-arrangement.ts";
import { line, text } from "../drawing/drawing.ts";
import { islandAxes } from "../drawing/island-axes.ts";
import { pointValues } from "../drawing/point-values.ts";
import type { SheetScale } from "../drawing/sheet-scale.ts";
import { marksSvg } from "../drawing/svg-text.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";

export interface IsoluxValues {
  readonly svg: string;
  /** Drawing units. */
  readonly height: number;
}

/** Undefined where the study has no plane to draw. @param top index of the plane of the whole top @param left where its caption begins */
export function isoluxValues(
  { scene, assessment }: JudgedArrangement,
  top: number,
  scale: SheetScale,
  unit: IlluminanceUnit,
  left: number,
): IsoluxValues | undefined {
  const plane = scene.planes[top];
  if (plane === undefined) return undefined;
  const axes = islandAxes(scene);
  const under = 28;
  const page = ([along, across]: Vec2): Vec2 => [
    scale.x(along),
    under + (axes.width - across) * scale.perMetre,
  ];
  const { illuminance } = assessment.planes[top];
  const numbers = pointValues(plane, illuminance, unit, (room) => page(axes.toIsland(room)));
  const words = `Light at the points that are judged, ${unit}, maintained; the least in bold. ${numbers.length} of ${illuminance.length} points.`;
  return {
    svg: marksSvg([
      text([left, 12], words, "subtitle", { size: 11.5 }),
      line(axes.outline.map(page), "island outline", "ink", 0.75, { closed: true }),
      ...numbers,
    ]),
    height: under + axes.width * scale.perMetre + 16,
  };
}
