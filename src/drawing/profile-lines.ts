/** The lines of a profile and their names: how each part is drawn, and which line is which. */

import type { Vec2 } from "../geometry/vector.ts";
import type { LayerRole } from "../scene/scene.ts";
import type { Dash } from "./drawing.ts";
import { type Ink, type Mark, segment, text, textWidth } from "./drawing.ts";
import { spreadLabels } from "./label-layout.ts";
import type { Profile, ProfileSeries } from "./profile.ts";
import type { ProfileFrame } from "./profile-frame.ts";
import type { SheetScale } from "./sheet-scale.ts";

export const STYLE: Readonly<Record<LayerRole | "total", { dash: Dash; ink: Ink; weight: 1.5 | 1 }>> = {
  total: { dash: "solid", ink: "ink", weight: 1.5 },
  pendant: { dash: "dashed", ink: "luminaire", weight: 1 },
  recessed: { dash: "dotted", ink: "quiet", weight: 1.5 },
  accent: { dash: "eye line", ink: "quiet", weight: 1 },
  other: { dash: "eye line", ink: "ink", weight: 1 },
};

export function curve(
  profile: Profile,
  series: ProfileSeries,
  x: (a: number) => number,
  y: (v: number) => number,
): Vec2[][] {
  const parts: Vec2[][] = [];
  let part: Vec2[] = [];
  series.values.forEach((value, i) => {
    if (Number.isFinite(value)) part.push([x(profile.along[i]), y(value)]);
    else if (part.length > 0) {
      parts.push(part);
      part = [];
    }
  });
  if (part.length > 0) parts.push(part);
  return parts;
}

/** Names where their lines end, pushed apart; under a narrow sheet they stand inside the field. */
export function endLabels(
  profile: Profile,
  curves: readonly (readonly (readonly Vec2[])[])[],
  x1: number,
  scale: SheetScale,
  frame: ProfileFrame,
): Mark[] {
  const ends = curves.map((parts) => parts.at(-1)?.at(-1) ?? ([x1, frame.y(0)] as Vec2));
  const outside = scale.width - x1 > 70;
  if (!outside) return keyRow(profile, scale, frame);
  const wishes = ends.map((p) => p[1] + 4);
  // Clear of the line of nothing, which would strike through the lowest.
  const places = spreadLabels(wishes, 15, 12, frame.y(0) - 4);
  const marks: Mark[] = [];
  profile.series.forEach((series, i) => {
    const style = STYLE[series.role];
    const [x, y] = ends[i];
    marks.push(
      segment(x + 2, y, x + 14, places[i] - 4, "leader", style.ink, 0.75),
      text([x + 18, places[i]], series.name, "line name", {
        ink: style.ink,
        strong: series.role === "total",
        ground: "paper",
      }),
    );
  });
  return marks;
}

/** Under a narrow sheet the names stand in a row beneath, each beside a sample of its line. */
function keyRow(profile: Profile, scale: SheetScale, frame: ProfileFrame): Mark[] {
  const y = frame.height + 15;
  let x = scale.left;
  return profile.series.flatMap((series) => {
    const style = STYLE[series.role];
    const marks: Mark[] = [
      segment(x, y - 4, x + 24, y - 4, "key", style.ink, style.weight, { dash: style.dash }),
      text([x + 30, y], series.name, "line name", { ink: style.ink, strong: series.role === "total" }),
    ];
    x += 30 + textWidth(series.name, 11.5, series.role === "total") + 18;
    return marks;
  });
}
