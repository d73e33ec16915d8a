/** Dimensions of the elevation: distances between pendants, and their clearances over the top. */

import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { hangs, suspended } from "../scene/suspended.ts";
import { horizontalDimension, verticalDimension } from "./dimension.ts";
import { type Mark, segment, textWidth } from "./drawing.ts";
import type { ElevationPage } from "./elevation-scale.ts";
import { placeOf } from "./island-axes.ts";
import { halfWidth } from "./silhouette.ts";

export function spacings({ scene, axes, scale, y, extent, words }: ElevationPage): Mark[] {
  const marks: Mark[] = [];
  for (const layer of scene.layers) {
    const hung = layer.luminaires.filter((p) => hangs(scene, p));
    const alongs = hung.map((p) => placeOf(axes, p.frame.origin).along).sort((a, b) => a - b);
    if (alongs.length < 2 || layer.role !== "pendant") continue;
    const highest = Math.max(...hung.map((p) => p.frame.origin[2] + verticalExtent(p.luminaire)[1]));
    const at = extent.drop.cut ? y(extent.drop.from) - 2 : y(highest) - 22;
    for (let i = 1; i < alongs.length; i++) {
      const gap = alongs[i] - alongs[i - 1];
      if (gap < 0.02) continue;
      marks.push(...horizontalDimension(scale.x(alongs[i - 1]), scale.x(alongs[i]), at, words.length(gap)));
    }
  }
  return marks;
}

/** The clearance of the last pendant, and of any other that hangs at another height. */
export function clearances({ scene, axes, scale, y, extent, words }: ElevationPage): Mark[] {
  const hung = suspended(scene)
    .map(({ placed, layer }) => ({ placed, layer, ...placeOf(axes, placed.frame.origin) }))
    .filter(({ layer, along }) => layer.role === "pendant" && along > 0 && along < axes.length)
    .sort((a, b) => b.along - a.along);
  const marks: Mark[] = [];
  const dimensions: number[] = [];
  for (const { placed, along } of hung) {
    const lowest = placed.frame.origin[2] + verticalExtent(placed.luminaire)[0];
    const clearance = lowest - axes.height;
    if (clearance <= 0.02 || dimensions.some((c) => Math.abs(c - clearance) < 0.0005)) continue;
    dimensions.push(clearance);
    const x = scale.x(along) + halfWidth(placed.luminaire) * scale.perMetre + 12;
    const label = `${words.length(clearance)} above top`;
    const side = x + 7 + textWidth(label, 11.5) < scale.width ? "right" : "left";
    marks.push(
      ...verticalDimension(x, y(lowest), y(axes.height), label, side, {
        ground: "paper",
      }),
      segment(x - 10, y(lowest), x + 3, y(lowest), "extension line", "quiet", 0.75),
      ...(extent.open.cut ? cut(x, y(axes.height) - (y(axes.height) - y(lowest)) / 4) : []),
    );
  }
  return marks;
}

/** The double stroke over a dimension line that is shorter on the page than its figure says. */
function cut(x: number, y: number): Mark[] {
  return [-2.5, 2.5].map((dy) => segment(x - 5, y + dy + 2, x + 5, y + dy - 2, "break line", "quiet", 0.75));
}
