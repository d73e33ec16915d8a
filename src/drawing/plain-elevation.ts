/** The island from its long side without figures: ceiling, pendants in true profile, top, and who is there. */

import type { SetOutBox } from "../app/set-out/set-out.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Scene } from "../scene/scene.ts";
import { islandAxes } from "./island-axes.ts";
import type { PaperMark } from "./paper/paper.ts";
import { figure } from "./person-figure.ts";
import { elevationRange, islandMarks, shell } from "./set-out-elevation.ts";
import { bodyMark, hangingMarks, hangingStations, widthInView } from "./set-out-elevation-pendants.ts";

/** @param perMetre paper points a metre; the floor under the end of the top is the origin */
export function plainElevation(scene: Scene, boxes: readonly SetOutBox[], perMetre: number): PaperMark[] {
  const axes = islandAxes(scene);
  const [from, to] = elevationRange(scene, "along");
  const at = (s: number, z: number): Vec2 => [s * perMetre, -z * perMetre];
  const scale = { x: (s: number): number => s * perMetre, perMetre };
  const people = scene.people.flatMap((person) => {
    const [eye] = axes.toIsland(person.eye);
    const [feet] = axes.toIsland(person.at);
    const along = person.posture === "seated" ? eye : feet;
    if (along < from || along > to) return [];
    return figure(person, along, eye, person.facing - axes.turn, axes.height, scale, (z) => -z * perMetre);
  });
  const pendants = boxes.flatMap((box): PaperMark[] => {
    const [s] = axes.toIsland(box.middle);
    if (box.heights === undefined || s < from || s > to) return [];
    const { bottom, bodyTop } = box.heights;
    const half = widthInView(axes, box, "along") / 2;
    return [
      ...hangingMarks({ hangsAt: hangingStations(scene, axes, box, "along"), at }, bodyTop),
      bodyMark(box.luminaire, at(s, 0)[0], at(s, bottom)[1], half, perMetre),
    ];
  });
  return [
    ...people,
    ...islandMarks(scene, "along", at),
    ...shell(scene, axes, "along", [from, to], at),
    ...pendants,
  ];
}
