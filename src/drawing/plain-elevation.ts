/** The island from its near side without figures: ceiling, pendants in true profile, top, and who is there, by name. */

import type { SetOutBox } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { seatOf } from "../scene/people.ts";
import type { Scene } from "../scene/scene.ts";
import { line, text } from "./drawing.ts";
import { islandMarks } from "./island-in-view.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { figure } from "./person-figure.ts";
import { shell } from "./set-out-elevation.ts";
import { bodyMark, hangingMarks, hangingStations, widthInView } from "./set-out-elevation-pendants.ts";
import { sideView } from "./side-view.ts";

/** Names under the floor: lettering, and from row to row (points). */
const NAME = { size: 6.75, leading: 8.5 } as const;
/** A stool in front of the top: half its seat's width (m). */
const STOOL = 0.17;

export interface PlainElevation {
  readonly marks: readonly PaperMark[];
  /** What the names take below the floor (points). */
  readonly below: number;
}

/** @param perMetre paper points a metre; the floor under the end of the top is the origin */
export function plainElevation(scene: Scene, boxes: readonly SetOutBox[], perMetre: number): PlainElevation {
  const view = sideView(scene, "along", perMetre);
  const { axes, from, to, at } = view;
  const scale = { x: (s: number): number => s * perMetre, perMetre };
  const people = scene.people.flatMap((person) => {
    const [eye] = axes.toIsland(person.eye);
    const [feet, across] = axes.toIsland(person.at);
    const seated = person.posture === "seated";
    const along = seated ? eye : feet;
    if (along < from || along > to) return [];
    // Whoever is on the near side stands or sits in front of the top, whole.
    const near = across < axes.width / 2;
    const seat = seated ? seatOf(person, scene.island) : 0;
    const cutAt = near ? seat : axes.height;
    const marks: PaperMark[] = [
      ...figure(person, along, eye, person.facing - axes.turn, cutAt, scale, (z) => -z * perMetre),
      ...(near && seated ? stool(along, seat, at) : []),
    ];
    return [{ near, along, name: printable(person.name, 24), marks }];
  });
  const pendants = boxes.flatMap((box): PaperMark[] => {
    const [s] = axes.toIsland(box.middle);
    if (box.heights === undefined || s < from || s > to) return [];
    const { bottom, bodyTop } = box.heights;
    const half = widthInView(view, box) / 2;
    return [
      ...hangingMarks(view, hangingStations(view, box), bodyTop),
      bodyMark(box.luminaire, at(s, 0)[0], at(s, bottom)[1], half, perMetre),
    ];
  });
  const names = namesUnder(people, perMetre);
  return {
    marks: [
      ...people.filter(({ near }) => !near).flatMap(({ marks }) => marks),
      ...islandMarks(view),
      ...shell(view),
      ...pendants,
      ...people.filter(({ near }) => near).flatMap(({ marks }) => marks),
      ...names.marks,
    ],
    below: names.below,
  };
}

function stool(along: number, seat: number, at: (s: number, z: number) => Vec2): PaperMark[] {
  const [left, right] = [along - STOOL, along + STOOL];
  return [
    line([at(left, seat), at(right, seat)], "person", "quiet", 1),
    line([at(left, seat), at(left, 0)], "person", "quiet", 0.75),
    line([at(right, seat), at(right, 0)], "person", "quiet", 0.75),
  ];
}

/** Each name under its figure, in as many rows as keep them apart. */
function namesUnder(
  people: readonly { readonly along: number; readonly name: string }[],
  perMetre: number,
): PlainElevation {
  const ends: number[] = [];
  const marks = [...people]
    .sort((a, b) => a.along - b.along)
    .map(({ along, name }): PaperMark => {
      const half = paperTextWidth(name, NAME.size) / 2;
      const free = ends.findIndex((end) => end + 4 < along * perMetre - half);
      const row = free < 0 ? ends.length : free;
      ends[row] = along * perMetre + half;
      return text([along * perMetre, NAME.leading * (row + 1)], name, "person", {
        anchor: "middle",
        size: NAME.size,
      });
    });
  return { marks, below: ends.length * NAME.leading };
}
