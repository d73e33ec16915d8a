/** Dimensions of the elevation: distances between pendants, and their clearances over the top. */

import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { verticalExtent } from "../luminaire/vertical-extent.ts";
import { isPendant } from "../scene/is-pendant.ts";
import { hungPendants } from "../scene/suspended.ts";
import { horizontalDimension, verticalDimension } from "./dimension.ts";
import { type Box, type Mark, overlaps, segment, textBox, textWidth } from "./drawing.ts";
import { type ElevationPage, isCut } from "./elevation-scale.ts";
import { placeOf } from "./island-axes.ts";
import { halfWidth } from "./silhouette.ts";

export function spacings({ scene, axes, scale, y, extent, words }: ElevationPage): Mark[] {
  const marks: Mark[] = [];
  for (const layer of scene.layers) {
    const hung = layer.luminaires.filter((p) => isPendant(layer, p));
    const alongs = hung.map((p) => placeOf(axes, p.frame.origin).along).sort((a, b) => a - b);
    if (alongs.length < 2) continue;
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

/** The clearance of a pendant, the last where its figure covers nobody, and of any other that hangs at another height.
 * @param figures boxes of the people */
export function clearances({ scene, axes, scale, y, words }: ElevationPage, figures: readonly Box[]): Mark[] {
  const hung = hungPendants(scene)
    .map(({ placed }) => ({ placed, ...placeOf(axes, placed.frame.origin) }))
    .filter(({ along }) => along > 0 && along < axes.length)
    .sort((a, b) => b.along - a.along);
  const marks: Mark[] = [];
  const dimensions = new Map<number, typeof hung>();
  for (const each of hung) {
    const clearance = lowestOf(each.placed) - axes.height;
    if (clearance <= 0.02) continue;
    const same = [...dimensions.keys()].find((c) => Math.abs(c - clearance) < 0.0005) ?? clearance;
    dimensions.set(same, [...(dimensions.get(same) ?? []), each]);
  }
  for (const [clearance, alike] of dimensions) {
    const lowest = axes.height + clearance;
    const sides = ["right", "left"] as const;
    // In as many words as there is room for.
    const places = [`${words.length(clearance)} above top`, words.length(clearance)].flatMap((label) =>
      alike.flatMap(({ placed, along }) => {
        const x = scale.x(along) + halfWidth(placed.luminaire) * scale.perMetre + 12;
        return sides
          .filter((side) => side === "left" || x + 7 + textWidth(label, 11.5) < scale.width)
          .map((side) => ({
            x,
            dimension: verticalDimension(x, y(lowest), y(axes.height), label, side, { ground: "paper" }),
          }));
      }),
    );
    const covers = (all: readonly Mark[]): boolean =>
      all.some((mark) => mark.kind === "text" && figures.some((box) => overlaps(box, textBox(mark), 1)));
    const { x, dimension } = places.find((place) => !covers(place.dimension)) ?? places[0];
    marks.push(
      ...dimension,
      segment(x - 10, y(lowest), x + 3, y(lowest), "extension line", "quiet", 0.75),
      ...(isCut(clearance, y(axes.height) - y(lowest), scale)
        ? doubleStroke(x, y(axes.height) - (y(axes.height) - y(lowest)) / 4, 5, "quiet")
        : []),
    );
  }
  return marks;
}

function lowestOf({ frame, luminaire }: PlacedLuminaire): number {
  return frame.origin[2] + verticalExtent(luminaire)[0];
}

/** The double stroke over what is shorter on the page than it is. */
export function doubleStroke(x: number, y: number, half: number, ink: "quiet" | "luminaire"): Mark[] {
  return [-2.5, 2.5].map((dy) =>
    segment(x - half, y + dy + 2, x + half, y + dy - 2, "break line", ink, 0.75),
  );
}
