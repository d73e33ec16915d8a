/**
 * On the plan: the share of light a body takes from the top, as lines of equal loss, and the places where someone
 * sees the image of a luminaire in a polished top.
 */

import type { BodyShadow } from "../advice/body-shadow.ts";
import { isoluxField } from "../app/isolux-field.ts";
import { ellipse } from "../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { gridToRoom } from "../scene/grid-metres.ts";
import {
  type Box,
  boxAround,
  type LuminaireMarks,
  line,
  type Mark,
  overlaps,
  segment,
  text,
  textBox,
} from "./drawing.ts";
import { isolines } from "./isolux.ts";

/** Shares lost that are drawn. */
export const SHADOW_LEVELS = [0.1, 0.25, 0.5, 0.75] as const;

export interface ShadowOnPlan {
  /** Painted one over the other, each a little darker; rings by the even-odd rule. */
  readonly steps: readonly { readonly level: number; readonly rings: readonly (readonly Vec2[])[] }[];
  readonly marks: readonly Mark[];
}

/** Shadows as people stand now; `place` takes room coordinates (m) to the page. */
export function shadowsOnPlan(
  shadows: readonly BodyShadow[],
  place: (room: Vec2) => Vec2,
  taken: readonly Box[] = [],
): ShadowOnPlan {
  const steps: { level: number; rings: Vec2[][] }[] = [];
  const marks: Mark[] = [];
  const blocked = [...taken];
  for (const { map, usual } of shadows) {
    const { grid } = map.plane;
    if (!usual || grid === undefined) continue;
    const field = isoluxField(grid, map.lost);
    const toRoom = gridToRoom(grid);
    const page = (point: Vec2): Vec2 => {
      const [x, y] = toRoom(point);
      return place([x, y]);
    };
    for (const { level, rings, lines } of isolines(field, SHADOW_LEVELS)) {
      if (rings.length > 0) steps.push({ level, rings: rings.map((ring) => ring.map(page)) });
      for (const points of lines) {
        if (points.length < 3) continue;
        const drawn = points.map(page);
        marks.push(line(drawn, "body shadow", "ink", 0.75, { dash: "dotted" }));
        // Each patch has its figure.
        const label = PLACES.map((share) =>
          text(along(drawn, share), `−${Math.round(level * 100)} %`, "share of light lost", {
            ink: "ink",
            anchor: "middle",
            size: 11,
          }),
        ).find((each) => !blocked.some((box) => overlaps(box, textBox(each), 2)));
        if (label === undefined) continue;
        blocked.push(textBox(label));
        marks.push(label);
      }
    }
  }
  return { steps, marks };
}

export interface SeenImage {
  /** On the top, in the room (m). */
  readonly spot: Vec3;
  /** Who sees it. */
  readonly person?: string;
  /** Of the luminaire's box. */
  readonly tag?: string;
}

/** A glint where each image is seen, a small ring with four rays, and which luminaire it is of and to whose eye, where words find room. */
export function imagesOnPlan(
  images: readonly SeenImage[],
  place: (room: Vec2) => Vec2,
  taken: readonly Box[] = [],
  luminaires: readonly LuminaireMarks[] = [],
): Mark[] {
  const places = images.map(({ spot }) => place([spot[0], spot[1]]));
  const blocked = [...taken, ...places.map(([x, y]): Box => ({ x: x - 7, y: y - 7, width: 14, height: 14 }))];
  // Within a small outline there is no room: there words may cross it, and never the cross in it.
  const drawn = luminaires.flatMap(({ marks }) => marks);
  const crosses = drawn.filter(({ depicts }) => depicts === "centre").flatMap(boxesAlong);
  const outlines = drawn.flatMap(boxesAlong);
  return images.flatMap(({ person, tag }, i) => {
    const [x, y] = places[i];
    const ray = (dx: number, dy: number): Mark =>
      segment(x + 4.5 * dx, y + 4.5 * dy, x + 9 * dx, y + 9 * dy, "mirror image", "ink", 1);
    const words = [tag, person === undefined ? "" : `to ${person}`].filter(Boolean).join(" ");
    const style = { ink: "ink", size: 11 } as const;
    const options = [0, -13, 13, -26, 26].flatMap((dy) => [
      text([x + 10, y + 4 + dy], words, "mirror image", { ...style, anchor: "start" }),
      text([x - 10, y + 4 + dy], words, "mirror image", { ...style, anchor: "end" }),
      ...(dy === 0
        ? []
        : [text([x, y + 4 + 1.15 * dy], words, "mirror image", { ...style, anchor: "middle" })]),
    ]);
    const clearOf = (boxes: readonly Box[]) =>
      options.find((each) => words !== "" && !boxes.some((box) => overlaps(box, textBox(each), 1)));
    const label = clearOf([...blocked, ...outlines]) ?? clearOf([...blocked, ...crosses]);
    if (label !== undefined) blocked.push(textBox(label));
    return [
      line(ellipse(x, y, 2.5, 2.5, 14), "mirror image", "ink", 1, { closed: true }),
      ray(0.7, 0.7),
      ray(-0.7, 0.7),
      ray(0.7, -0.7),
      ray(-0.7, -0.7),
      ...(label === undefined ? [] : [label]),
    ];
  });
}

/** Places tried for a figure on its line, as shares of its points. */
const PLACES = [1 / 2, 1 / 4, 3 / 4, 1 / 8, 7 / 8, 3 / 8, 5 / 8, 0] as const;

function along(points: readonly Vec2[], share: number): Vec2 {
  const [x, y] = points[Math.floor(points.length * share)];
  return [x, y + 4];
}

/** Boxes along what is drawn of a luminaire, which nothing is written over. */
function boxesAlong(mark: Mark): Box[] {
  if (mark.kind === "text") return [];
  const points = mark.closed ? [...mark.points, mark.points[0]] : mark.points;
  return points.slice(1).map((point, i) => boxAround([points[i], point]));
}
