/**
 * Whether a head meets a pendant: leaning over the top from upright to 30°, before each pendant in turn,
 * as near to it as one's own side of the top lets one come.
 *
 * gap = distance from the middle of the head to the pendant's body − radius of the head. The hips stay there; 30° is twice the lean of someone at work. Under 0.10 m is called close. All common practice,
 * no source.
 */

import { boxOfMesh, distanceToBox } from "../../geometry/box.ts";
import { distanceToMesh } from "../../geometry/closest-point.ts";
import { depthInside, distanceToSegment, isInside } from "../../geometry/polygon.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import { boxTags } from "../../scene/ceiling-boxes.ts";
import { isPendant } from "../../scene/is-pendant.ts";
import { islandDirection, roomToIsland } from "../../scene/island-frame.ts";
import { headSphere, seatOf } from "../../scene/people.ts";
import type { Island, Person, Scene } from "../../scene/scene.ts";
import { radians } from "../../units/quantities.ts";
import { standingEyeHeight } from "./eye-height.ts";

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
    if (kind !== "pendant" || owner === undefined) return [];
    const layer = scene.layers[owner[0]];
    if (!isPendant(layer, layer.luminaires[owner[1]])) return [];
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
        const seat = person.posture === "seated" ? seatOf(person, scene.island) : undefined;
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

/** The person's place moved along the edge they stand at, as near before a pendant as the top lets them come. */
function beside({ island }: Scene, person: Person, middle: Vec2): Vec2 {
  if (island === undefined) return person.at;
  const here = roomToIsland(island, person.at);
  const [ux, uy] = edgeDirection(here, island);
  const there = roomToIsland(island, middle);
  const whole = (there[0] - here[0]) * ux + (there[1] - here[1]) * uy;
  const stands = depthInside(here, island.outline) + 1e-9;
  let step = 0;
  for (let k = 1; k <= STEPS; k++) {
    const next = (whole * k) / STEPS;
    // In the notch of an L the other leg ends the way: nobody comes nearer to the top than they stand.
    if (depthInside([here[0] + next * ux, here[1] + next * uy], island.outline) > stands) break;
    step = next;
  }
  const way = islandDirection(island, [ux, uy]);
  return [person.at[0] + step * way[0], person.at[1] + step * way[1]];
}

/** Along the side somebody stands at, the ends across; in a notch along the nearest edge (unit, island frame). */
function edgeDirection(here: Vec2, { outline, length, width }: Island): Vec2 {
  if (here[1] < 0 || here[1] > width) return [1, 0];
  if (here[0] < 0 || here[0] > length || isInside(here, outline)) return [0, 1];
  let [nearest, direction]: [number, Vec2] = [Infinity, [0, 1]];
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length];
    const distance = distanceToSegment(here, a, b);
    if (distance >= nearest) return;
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
    [nearest, direction] = [distance, [(b[0] - a[0]) / size, (b[1] - a[1]) / size]];
  });
  return direction;
}
