/** Named viewpoints: where someone would stand or sit in this kitchen, people of the study at their own eye height, others at a typical one. */

import { eyeIn } from "../advice/people/eye-height.ts";
import { depthInside, rectangleBetween } from "../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { USUAL_STATURE } from "../scene/people.ts";
import type { Scene } from "../scene/scene.ts";

/** Eyes of an adult on a sofa, who leans back (m): common practice, no source. */
const SOFA = 1.1;
const INSET = 0.35;

/** Field of view of a picture, and of one from close by (degrees, top to bottom): our choice. */
export const FIELD = 50;
const WIDE = 66;

export interface NamedViewpoint {
  readonly id: string;
  readonly name: string;
  readonly eye: Vec3;
  readonly target: Vec3;
  /** Field of view from top to bottom (degrees), {@link FIELD} where not given. */
  readonly field?: number;
  /** The person whose eye it is: not drawn in their own picture. */
  readonly person?: string;
}

/** A person this near to where somebody would work or sit is who works or sits there (m). */
const THERE = 0.9;

/** The viewpoint of that name; a person's also where they stand in for the cook or the guest. */
export function viewpointOf(views: readonly NamedViewpoint[], id: string): NamedViewpoint | undefined {
  return views.find((view) => view.id === id) ?? views.find(({ person }) => id === `person ${person}`);
}

/** From the entrance, of whoever cooks, of whoever sits at the island, from across the room, and of everyone else in the
 * study: each eye once. */
export function namedViewpoints(scene: Scene): NamedViewpoint[] {
  const { room, island } = scene;
  const centre: Vec2 = island?.centre ?? [room.length / 2, room.width / 2];
  const level = island?.height ?? 0.9;
  const corners = rectangleBetween(INSET, INSET, room.length - INSET, room.width - INSET)
    .filter(
      (corner) =>
        !(scene.bodies ?? []).some(
          ({ outline, bottom }) => bottom < 1.8 && depthInside(corner, outline) > -0.15,
        ),
    )
    .sort((a, b) => distance(b, centre) - distance(a, centre));
  const turn = island?.turn ?? 0;
  const across: Vec2 = [-Math.sin(turn), Math.cos(turn)];
  const half = (island?.width ?? 1) / 2;
  const guestSide = island?.overhang?.side === "y+" ? 1 : -1;
  const beside = (side: number, away: number): Vec2 =>
    clampTo(room, [
      centre[0] + side * (half + away) * across[0],
      centre[1] + side * (half + away) * across[1],
    ]);
  const entrance = corners[0] ?? [INSET, INSET];
  const sofa = corners.find((corner) => corner !== entrance) ?? entrance;
  const at = ([x, y]: Vec2, z: number): Vec3 => [x, y, z];
  const [standing, seated] = (["standing", "seated"] as const).map(
    (posture) => eyeIn({ at: [0, 0], facing: 0, stature: USUAL_STATURE }, posture, island)[2],
  );
  const views: NamedViewpoint[] = [
    { id: "entrance", name: "Entrance", eye: at(entrance, standing), target: at(centre, level + 0.15) },
    {
      id: "cook",
      name: "At the working side",
      eye: at(beside(-guestSide, 0.55), standing),
      target: at([centre[0] - 0.35 * across[1], centre[1] + 0.35 * across[0]], level + 0.52),
      field: WIDE,
    },
    {
      id: "guest",
      name: "At the seating side",
      eye: at(beside(guestSide, 0.5), seated),
      target: at(centre, level + 0.36),
      field: WIDE,
    },
    { id: "sofa", name: "Across the room", eye: at(sofa, SOFA), target: at(centre, level + 0.35) },
  ];
  // Whoever stands where the eye is would fill the picture.
  for (const [i, view] of views.entries()) {
    const near = scene.people.find((person) => distance(person.at, [view.eye[0], view.eye[1]]) < THERE);
    if (near === undefined) continue;
    const isTheirs = view.id === "cook" || view.id === "guest";
    views[i] = {
      ...view,
      ...(isTheirs ? { name: `Eye of ${near.name}`, eye: near.eye } : {}),
      person: near.name,
    };
  }
  for (const person of scene.people) {
    const { eye, facing } = person;
    if (views.some(({ id, person: whose }) => whose === person.name && (id === "cook" || id === "guest")))
      continue;
    views.push({
      id: `person ${person.name}`,
      name: `Eye of ${person.name}`,
      eye,
      target: [eye[0] + Math.cos(facing), eye[1] + Math.sin(facing), eye[2] - 0.4],
      person: person.name,
    });
  }
  return views;
}

function distance(a: Vec2, b: Vec2): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function clampTo({ length, width }: Scene["room"], [x, y]: Vec2): Vec2 {
  return [Math.min(length - 0.15, Math.max(0.15, x)), Math.min(width - 0.15, Math.max(0.15, y))];
}
