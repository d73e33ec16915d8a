/**
 * Whether people over the island see each other's faces, or a pendant instead.
 *
 * From each eye, standing and seated, to a face across the island, to one at its far end, and to every other person of
 * the study: share hidden = mean over the face of 1 − transmittance along the line. A face is an ellipse 150 × 220 mm
 * about the eyes, square to the line (common practice, no source). Faces where nobody of the study is belong to
 * someone 1.70 m tall, standing as far from the top as the one who looks.
 *
 * Error: 37 points of the face, so a share is known to 1/37; people's own bodies hide nothing.
 */

import { type Box, shaftMeetsBox } from "../../geometry/box.ts";
import { cross, normalize, subtract, type Vec2, type Vec3 } from "../../geometry/vector.ts";
import { VisibilityTree } from "../../geometry/visibility-tree.ts";
import { boxTags } from "../../scene/ceiling-boxes.ts";
import { islandToRoom, roomToIsland } from "../../scene/island-frame.ts";
import { USUAL_STATURE } from "../../scene/people.ts";
import type { Blocker, Island, Person, Scene } from "../../scene/scene.ts";
import { eyeIn } from "./eye-height.ts";
import { viewBlockers } from "./view-blockers.ts";

export interface Sightline {
  readonly person: string;
  readonly posture: "standing" | "seated";
  readonly direction: "across" | "along" | "to a person";
  /** Whose face: `someone seated across`, or a person's name. */
  readonly towards: string;
  readonly eye: Vec3;
  readonly face: Vec3;
  /** Share of the face hidden, 0…1. */
  readonly hidden: number;
  /** What hides it, each on its own, the most first. */
  readonly by: readonly { readonly name: string; readonly hidden: number }[];
}

const POSTURES = ["standing", "seated"] as const;
const FACE = { halfWidth: 0.075, halfHeight: 0.11 };
const RINGS = 3;
/** Hidden by less than this, a face is seen (our own). */
export const FACE_SEEN = 0.1;

export function sightlines(scene: Scene): Sightline[] {
  const { blockers, boxes, tree } = viewBlockers(scene);
  const tagOf = boxTags(scene);
  const nameOf = ({ name, owner }: Blocker): string => (owner === undefined ? name : tagOf(owner));
  const alone = new Map<number, VisibilityTree>();
  const onlyBy = (solid: number): VisibilityTree => {
    const own = alone.get(solid) ?? new VisibilityTree([blockers[solid]]);
    alone.set(solid, own);
    return own;
  };
  return scene.people.flatMap((person) =>
    POSTURES.flatMap((posture) => {
      const eye = eyeIn(person, posture, scene.island);
      return facesSeenBy(scene, person, posture).map(({ direction, towards, face }): Sightline => {
        const hidden = hiddenShare(eye, face, tree);
        const near = hidden === 0 ? [] : boxes.flatMap((box, i) => (inTheWay(eye, face, box) ? [i] : []));
        const by = near
          .map((solid) => ({ name: nameOf(blockers[solid]), hidden: hiddenShare(eye, face, onlyBy(solid)) }))
          .filter((each) => each.hidden > 0)
          .sort((a, b) => b.hidden - a.hidden);
        return { person: person.name, posture, direction, towards, eye, face, hidden, by };
      });
    }),
  );
}

/** Whether a box can meet any line from the eye to the face. */
function inTheWay(eye: Vec3, face: Vec3, box: Box): boolean {
  const half = FACE.halfHeight;
  const around = Float64Array.of(...face.map((c) => c - half), ...face.map((c) => c + half));
  return shaftMeetsBox(Float64Array.of(...eye, ...eye), around, box);
}

interface Face {
  readonly direction: Sightline["direction"];
  readonly towards: string;
  readonly face: Vec3;
}

function facesSeenBy(scene: Scene, person: Person, posture: "standing" | "seated"): Face[] {
  const { island, people } = scene;
  const others = people
    .filter((other) => other !== person)
    .map((other): Face => ({ direction: "to a person", towards: other.name, face: other.eye }));
  if (island === undefined) return others;
  const opposite = POSTURES.map(
    (as): Face => ({
      direction: "across",
      towards: `someone ${as} across`,
      face: eyeAt(island, across(island, person.at), as),
    }),
  );
  const along: Face = {
    direction: "along",
    towards: `someone ${posture} at the far end`,
    face: eyeAt(island, farEnd(island, person.at), posture),
  };
  return [...opposite, along, ...others];
}

function eyeAt(island: Island, at: Vec2, posture: "standing" | "seated"): Vec3 {
  const facing = Math.atan2(island.centre[1] - at[1], island.centre[0] - at[0]);
  return eyeIn({ at, facing, stature: USUAL_STATURE }, posture, island);
}

/** The place mirrored over the island's long axis, or for someone at its end, over the other. */
function across(island: Island, at: Vec2): Vec2 {
  const [x, y] = roomToIsland(island, at);
  const beside = y < 0 || y > island.width;
  return islandToRoom(island, beside ? [x, island.width - y] : [island.length - x, y]);
}

/** The far end of the same side; for someone at an end, the farther corner of that end. */
function farEnd(island: Island, at: Vec2): Vec2 {
  const [x, y] = roomToIsland(island, at);
  const beside = y < 0 || y > island.width;
  if (beside) return islandToRoom(island, [x < island.length / 2 ? island.length : 0, y]);
  return islandToRoom(island, [x, y < island.width / 2 ? island.width : 0]);
}

/** Mean of 1 − transmittance over points of the face, rings of even area about its middle. */
function hiddenShare(eye: Vec3, face: Vec3, tree: VisibilityTree): number {
  const line = normalize(subtract(face, eye));
  const side = normalize(cross(line, [0, 0, 1]));
  const up = cross(side, line);
  let hidden = 0;
  let points = 0;
  for (let ring = 0; ring <= RINGS; ring++) {
    const count = ring === 0 ? 1 : 6 * ring;
    const r = ring / (RINGS + 0.5);
    for (let k = 0; k < count; k++) {
      const angle = (2 * Math.PI * (k + 0.5)) / count;
      const a = r * FACE.halfWidth * Math.cos(angle);
      const b = r * FACE.halfHeight * Math.sin(angle);
      const [x, y, z] = [0, 1, 2].map((i) => face[i] + a * side[i] + b * up[i]);
      hidden += 1 - tree.transmittance(eye[0], eye[1], eye[2], x, y, z);
      points++;
    }
  }
  return hidden / points;
}
