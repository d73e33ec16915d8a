/**
 * Whether a head meets a pendant: leaning over the top from upright to 30°, anywhere along one's own side.
 *
 * gap = distance from the middle of the head to the pendant's body − radius of the head. The hips stay where the
 * person stands or sits; 30° is twice the lean of someone at work. Under 0.10 m is called close. All common practice,
 * no source.
 */

import { boxOfMesh, distanceToBox } from "../../geometry/box.ts";
import { distanceToMesh } from "../../geometry/closest-point.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { boxTags } from "../../scene/ceiling-boxes.ts";
import { islandDirection, roomToIsland } from "../../scene/island-frame.ts";
import { headSphere } from "../../scene/people.ts";
import type { Person, Scene } from "../../scene/scene.ts";
import { radians } from "../../units/quantities.ts";
import { seatHeight, standingEyeHeight } from "./eye-height.ts";

export interface HeadRoom {
  readonly person: string;
  /** Nearest that head and pendant come (m), negative where they meet. */
  readonly gap: number;
  readonly outcome: "clear" | "close" | "in reach";
  /** The pendant by its tag on paper, and how far the trunk leans then (rad). */
  readonly pendant: string;
  readonly lean: number;
  /** Lowest rim above the eye of the person in their own posture, and standing (m); negative below. */
  readonly rimAboveEye: number;
  readonly rimAboveStandingEye: number;
}

const STEPS = 30;
/** Pendants of a row come as near as one another but for rounding: the one a person stands before is named (m). */
const AS_NEAR = 1e-3;
const MOST = radians(30);
const CLOSE = 0.1;

/** One entry a person, over the pendants that have a body; none without such pendants. */
export function headRoom(scene: Scene): HeadRoom[] {
  const tagOf = boxTags(scene);
  const pendants = scene.blockers.flatMap(({ kind, owner, mesh }) => {
    if (kind !== "pendant" || owner === undefined || scene.layers[owner[0]].role !== "pendant") return [];
    const box = boxOfMesh(mesh);
    return [
      { mesh, name: tagOf(owner), box, middle: [(box[0] + box[3]) / 2, (box[1] + box[4]) / 2] as const },
    ];
  });
  if (pendants.length === 0) return [];
  const rim = Math.min(...pendants.map(({ box }) => box[2]));
  return scene.people.map((person): HeadRoom => {
    let nearest = { gap: Infinity, pendant: "", lean: 0 };
    const away = ({ middle: [x, y] }: (typeof pendants)[number]): number =>
      Math.hypot(x - person.at[0], y - person.at[1]);
    for (const { mesh, name, box, middle } of [...pendants].sort((a, b) => away(a) - away(b))) {
      const at = beside(scene, person, middle);
      for (let k = 0; k <= STEPS; k++) {
        const lean = (MOST * k) / STEPS;
        const seat = person.posture === "seated" ? seatHeight(scene.island) : undefined;
        const { centre, radius } = headSphere(at, person.facing, person.stature, lean, seat);
        // The box is never farther than the mesh in it: most pendants need no closer look.
        const nearer = nearest.gap - (name === nearest.pendant ? 0 : AS_NEAR);
        if (distanceToBox(centre, box) - radius >= nearer) continue;
        const gap = distanceToMesh(centre, mesh, nearer + radius) - radius;
        if (gap < nearer) nearest = { gap, pendant: name, lean };
      }
    }
    const { gap } = nearest;
    return {
      person: person.name,
      ...nearest,
      outcome: gap <= 0 ? "in reach" : gap < CLOSE ? "close" : "clear",
      rimAboveEye: rim - person.eye[2],
      rimAboveStandingEye: rim - standingEyeHeight(person),
    };
  });
}

/** The person's place moved along the island to stand before a pendant. */
function beside({ island }: Scene, person: Person, middle: Vec2): Vec2 {
  if (island === undefined) return person.at;
  const here = roomToIsland(island, person.at);
  // Someone at an end steps across instead.
  const axis = here[1] < 0 || here[1] > island.width ? 0 : 1;
  const step = roomToIsland(island, middle)[axis] - here[axis];
  const way = islandDirection(island, axis === 0 ? [1, 0] : [0, 1]);
  return [person.at[0] + step * way[0], person.at[1] + step * way[1]];
}
