/** Chains of dimensions along the top: from its end to each pendant of a row, and on to the other end. */

import type { Scene } from "../scene/scene.ts";
import { runningDimensions } from "../units/length-text.ts";
import { horizontalDimension } from "./dimension.ts";
import { type Mark, text, textWidth } from "./drawing.ts";
import { type IslandAxes, placeOf } from "./island-axes.ts";
import type { PlanPage } from "./plan-page.ts";

/** Drawing units; smaller is not read on paper. */
const LEAST_LETTERING = 11;
/** Height of figures over the size of their lettering. */
const CAPITALS = 0.75;
/** Layers nearer to one another across (m) hang in one row; places nearer along are one. */
const ONE_ROW = 0.1;
const ONE_PLACE = 0.01;

/** Places along the top of the pendants of each layer (m), the nearest first; layers in one line, or with the same places, are one row. */
export function pendantRows(scene: Scene, axes: IslandAxes): (readonly number[])[] {
  const rows: { readonly across: number; readonly alongs: number[] }[] = [];
  for (const { role, luminaires } of scene.layers) {
    const places = luminaires
      .map(({ frame }) => placeOf(axes, frame.origin))
      .filter(({ along }) => role === "pendant" && along > 0 && along < axes.length);
    if (places.length === 0) continue;
    const across = places.reduce((sum, place) => sum + place.across, 0) / places.length;
    const row = rows.find((each) => Math.abs(each.across - across) < ONE_ROW);
    const alongs = places.map(({ along }) => along);
    if (row === undefined) rows.push({ across, alongs });
    else row.alongs.push(...alongs);
  }
  return rows
    .sort((a, b) => a.across - b.across)
    .map(({ alongs }) =>
      alongs.sort((a, b) => a - b).filter((a, i) => i === 0 || a - alongs[i - 1] > ONE_PLACE),
    )
    .filter(
      (alongs, i, all) =>
        !all
          .slice(0, i)
          .some(
            (other) =>
              other.length === alongs.length && other.every((a, k) => Math.abs(a - alongs[k]) < ONE_PLACE),
          ),
    );
}

/** @param y of the chain @param above room for a figure that stands upright on it (drawing units) */
export function chainMarks(
  alongs: readonly number[],
  y: number,
  above: number,
  { axes, scale: { x }, words }: Pick<PlanPage, "axes" | "scale" | "words">,
): Mark[] {
  const stops = [0, ...alongs, axes.length];
  // Rounded as places, so that the pieces sum to the whole; with their unit where all have room for it.
  const gapTexts = runningDimensions(stops, words.lengthUnit).gaps.map(words.length);
  const roomOf = (i: number): number => x(stops[i + 1]) - x(stops[i]);
  const united = gapTexts.every((gap, i) => textWidth(gap, 11.5) + 6 < roomOf(i));
  return gapTexts.flatMap((gap, i) => {
    const room = roomOf(i);
    // A short piece keeps its figure: in one unit, as small as lettering may be.
    const bare = gap.split(" · ")[0].replace(/ m?m$/, "");
    const label = united ? gap : bare;
    const middle = (x(stops[i]) + x(stops[i + 1])) / 2;
    const fits = textWidth(label, 11.5) + 6 < room;
    const marks = horizontalDimension(x(stops[i]), x(stops[i + 1]), y, fits ? label : "", {
      ground: "paper",
    });
    if (fits) return marks;
    const style = { ground: "paper", size: LEAST_LETTERING } as const;
    const short = [11.5, LEAST_LETTERING].find((size) => textWidth(bare, size) + 2 < room);
    if (short !== undefined)
      marks.push(text([middle, y - 5], bare, "dimension", { ...style, anchor: "middle", size: short }));
    // Shorter still it stands upright on the chain.
    else if (room > CAPITALS * LEAST_LETTERING && textWidth(bare, LEAST_LETTERING) <= above)
      marks.push(text([middle + 4, y - 1], bare, "dimension", { ...style, turn: -90 }));
    return marks;
  });
}
