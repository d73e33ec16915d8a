/** Rows of pendants over a top, each of which papers dimension by itself. */

import { isPendant } from "../scene/is-pendant.ts";
import type { Scene } from "../scene/scene.ts";
import { type IslandAxes, placeOf } from "./island-axes.ts";

/** Layers nearer to one another across (m) hang in one row; places nearer along are one. */
const ONE_ROW = 0.1;
const ONE_PLACE = 0.01;

/** Places along the top of the pendants of the nearest and of the farthest layer (m); of one alone where others hang in its line, or in
 * the same places. */
export function pendantRows(scene: Scene, axes: IslandAxes): (readonly number[])[] {
  const rows: { readonly across: number; readonly alongs: number[] }[] = [];
  for (const layer of scene.layers) {
    const places = layer.luminaires
      .filter((placed) => isPendant(layer, placed))
      .map(({ frame }) => placeOf(axes, frame.origin))
      .filter(({ along }) => along > 0 && along < axes.length);
    if (places.length === 0) continue;
    const across = places.reduce((sum, place) => sum + place.across, 0) / places.length;
    const row = rows.find((each) => Math.abs(each.across - across) < ONE_ROW);
    const alongs = places.map(({ along }) => along);
    if (row === undefined) rows.push({ across, alongs });
    else row.alongs.push(...alongs);
  }
  const chains = rows
    .sort((a, b) => a.across - b.across)
    .map(({ alongs }) =>
      alongs.sort((a, b) => a - b).filter((a, i) => i === 0 || a - alongs[i - 1] > ONE_PLACE),
    );
  const [first, ...others] = chains;
  const last = others
    .reverse()
    .find(
      (alongs) =>
        alongs.length !== first.length || alongs.some((a, k) => Math.abs(a - first[k]) >= ONE_PLACE),
    );
  return [first ?? [], ...(last === undefined ? [] : [last])];
}
