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
import { type Box, boxAround, type Drawing, type LuminaireMarks, type Mark } from "./drawing.ts";
import { clearances, spacings } from "./elevation-dimensions.ts";
import { luminaireMarks } from "./elevation-luminaires.ts";
import { eyeLines, people } from "./elevation-people.ts";
import { ceilingMarks, island, overhead } from "./elevation-room.ts";
import { type ElevationExtent, elevationExtent, elevationScale } from "./elevation-scale.ts";
import { cutAtWords } from "./free-stretches.ts";
import { islandAxes } from "./island-axes.ts";
import { withoutCollisions } from "./label-layout.ts";
import type { SheetScale } from "./sheet-scale.ts";

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
  const page = { scene, axes: islandAxes(scene), scale, words, extent, ...elevationScale(extent) };
  const luminaires = scene.layers.flatMap((layer, l) =>
    layer.luminaires.flatMap((_, i) => luminaireMarks(page, l, i) ?? []),
  );
  const figures = people(page);
  const marks: Mark[] = [
    ...eyeLines(page, lineBoxes(figures)),
    ...figures,
    ...island(page),
    ...overhead(page),
    ...ceilingMarks(
      page,
      luminaires.flatMap((each) => lineBoxes(each.marks)),
    ),
    ...(withSpacings ? spacings(page) : []),
    ...clearances(page, lineBoxes(figures)),
  ];
  return {
    width: scale.width,
    height: page.height,
    marks: cutAtWords(
      withoutCollisions(marks, { width: scale.width, height: page.height }, luminaires.flatMap(bodyBox)),
      "eye line",
    ),
    luminaires,
    summary: summary(scene, words),
  };
}

function lineBoxes(marks: readonly Mark[]): Box[] {
  return marks.flatMap((mark) => (mark.kind === "line" ? [boxAround(mark.points)] : []));
}

/** What a hanging body takes of the page: words behind it could not be read. */
function bodyBox({ marks }: LuminaireMarks): Box[] {
  return marks.flatMap((mark) => {
    if (mark.kind !== "line" || mark.depicts !== "pendant body") return [];
    return [boxAround(mark.points)];
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
