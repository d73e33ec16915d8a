/**
 * On the plan: the share of light a body takes from the top, as lines of equal loss, and the places where someone
 * sees the image of a luminaire in a polished top.
 */

import type { BodyShadow } from "../advice/body-shadow.ts";
import { isoluxField } from "../app/isolux-field.ts";
import { ellipse } from "../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { gridToRoom } from "../scene/grid-metres.ts";
import { type Box, line, type Mark, overlaps, segment, text, textBox } from "./drawing.ts";
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
      let labelled = false;
      for (const points of lines) {
        if (points.length < 3) continue;
        const drawn = points.map(page);
        marks.push(line(drawn, "body shadow", "ink", 0.75, { dash: "dotted" }));
        if (labelled) continue;
        const label = text(middle(drawn), `−${Math.round(level * 100)} %`, "share of light lost", {
          ink: "ink",
          anchor: "middle",
          size: 11,
        });
        if (blocked.some((box) => overlaps(box, textBox(label), 2))) continue;
        blocked.push(textBox(label));
        marks.push(label);
        labelled = true;
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
): Mark[] {
  const places = images.map(({ spot }) => place([spot[0], spot[1]]));
  const blocked = [...taken, ...places.map(([x, y]): Box => ({ x: x - 7, y: y - 7, width: 14, height: 14 }))];
  return images.flatMap(({ person, tag }, i) => {
    const [x, y] = places[i];
    const ray = (dx: number, dy: number): Mark =>
      segment(x + 4.5 * dx, y + 4.5 * dy, x + 9 * dx, y + 9 * dy, "mirror image", "ink", 1);
    const words = [tag, person === undefined ? "" : `to ${person}`].filter(Boolean).join(" ");
    const style = { ink: "ink", size: 11 } as const;
    const label = [
      text([x + 10, y + 4], words, "mirror image", { ...style, anchor: "start" }),
      text([x - 10, y + 4], words, "mirror image", { ...style, anchor: "end" }),
      text([x, y - 11], words, "mirror image", { ...style, anchor: "middle" }),
      text([x, y + 19], words, "mirror image", { ...style, anchor: "middle" }),
    ].find((each) => words !== "" && !blocked.some((box) => overlaps(box, textBox(each), 1)));
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

function middle(points: readonly Vec2[]): Vec2 {
  const [x, y] = points[Math.floor(points.length / 2)];
  return [x, y + 4];
}
