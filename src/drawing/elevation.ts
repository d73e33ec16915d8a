/**
 * Elevation of the island seen from its long side: ceiling, drops, pendants in true profile, clearance, the
 * side of the island, eye lines and heads.
 *
 * Bodies are true; a drop that would only lengthen the drawing is cut, and in a given height so is the open air over
 * the top, each with its break mark and its true figure.
 */

import { verticalExtent } from "../luminaire/vertical-extent.ts";
import type { Scene } from "../scene/scene.ts";
import { suspended } from "../scene/suspended.ts";
import type { Wording } from "../words/wording.ts";
import type { Box, Drawing, LuminaireMarks, Mark } from "./drawing.ts";
import { clearances, spacings } from "./elevation-dimensions.ts";
import { luminaireMarks } from "./elevation-luminaires.ts";
import { eyeLines, people } from "./elevation-people.ts";
import { ceilingMarks, island, overhead } from "./elevation-room.ts";
import { type ElevationExtent, elevationExtent, elevationScale } from "./elevation-scale.ts";
import { islandAxes } from "./island-axes.ts";
import { withoutCollisions } from "./label-layout.ts";
import type { SheetScale } from "./sheet-scale.ts";

export { suspended } from "../scene/suspended.ts";

export interface ElevationParts {
  /** Distances between pendants; a plan beneath says the same. */
  readonly withSpacings?: boolean;
}

/** The drawing of one scene; `extent` may be held from an earlier one while a hand moves. */
export function elevation(
  scene: Scene,
  scale: SheetScale,
  words: Wording,
  extent: ElevationExtent = elevationExtent(scene, scale),
  { withSpacings = true }: ElevationParts = {},
): Drawing {
  const axes = islandAxes(scene);
  const vertical = elevationScale(extent);
  const { y } = vertical;
  const marks: Mark[] = [
    ...eyeLines(scene, axes, scale, vertical, words),
    ...people(scene, axes, scale, vertical),
    ...island(scene, axes, scale, vertical, extent, words),
    ...overhead(scene, axes, scale, vertical),
    ...ceilingMarks(scene, axes, scale, vertical, extent, words),
  ];
  const luminaires: LuminaireMarks[] = [];
  scene.layers.forEach((layer, l) => {
    layer.luminaires.forEach((placed, i) => {
      const drawn = luminaireMarks(scene, axes, scale, vertical, extent, layer, l, placed, i);
      if (drawn !== undefined) luminaires.push(drawn);
    });
  });
  if (withSpacings) marks.push(...spacings(scene, axes, scale, y, extent, words));
  marks.push(...clearances(scene, axes, scale, y, extent, words));
  return {
    width: scale.width,
    height: vertical.height,
    marks: withoutCollisions(
      marks,
      { width: scale.width, height: vertical.height },
      luminaires.flatMap(bodyBox),
    ),
    luminaires,
    summary: summary(scene, words),
  };
}

/** What a hanging body takes of the page: words behind it could not be read. */
function bodyBox({ marks }: LuminaireMarks): Box[] {
  return marks.flatMap((mark) => {
    if (mark.kind !== "line" || mark.depicts !== "pendant body") return [];
    const [xs, ys] = [mark.points.map(([x]) => x), mark.points.map(([, y]) => y)];
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    return [{ x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y }];
  });
}

function summary(scene: Scene, words: Wording): string {
  const hung = suspended(scene);
  const axes = islandAxes(scene);
  const parts = [`Elevation. Ceiling ${words.length(scene.room.ceilingHeight)}.`];
  if (hung.length > 0) {
    const clearances = hung.map(
      ({ placed }) => placed.frame.origin[2] + verticalExtent(placed.luminaire)[0] - axes.height,
    );
    const low = Math.min(...clearances);
    const high = Math.max(...clearances);
    parts.push(
      `${hung.length} hanging luminaires, ${words.length(low)}${high - low > 0.001 ? ` to ${words.length(high)}` : ""} above the top.`,
    );
  }
  for (const person of scene.people) parts.push(`${person.name}: eye at ${words.length(person.eye[2])}.`);
  return parts.join(" ");
}
