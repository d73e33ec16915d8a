/**
 * People as boxes: legs, trunk, neck and head by stature, upright, leaning or seated.
 *
 * Body segments as fractions of stature H after Drillis and Contini (1966), from memory: hip 0.530, shoulder 0.818,
 * chin 0.870, shoulder breadth 0.259, hip breadth 0.191, sitting height 0.520. Depths 0.14 (trunk) and 0.113 (head),
 * head breadth 0.090, and the eye 0.11 m below the crown: common practice, no source. No arms, no hair, no shoes. Leaning: the trunk turns 15° about the hips.
 */

import { type Ledger, TYPICAL } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { type Frame, frame, pointToRoom } from "../geometry/frame.ts";
import type { Mesh } from "../geometry/mesh.ts";
import { depthInside } from "../geometry/polygon.ts";
import { box, placed, together } from "../geometry/solids.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import type { PersonDocument } from "../study/room-schema.ts";
import { degrees, radians } from "../units/quantities.ts";
import { overFloor, planOfRoom } from "./inside-room.ts";
import { roomToIsland } from "./island-frame.ts";
import type { Island, Person, RoomShape, Zone } from "./scene.ts";

/** Of whoever is not described (m): typical, no source. */
export const USUAL_STATURE = 1.7;
const LEAN = radians(15);
const EYE_BELOW_CROWN = 0.11;
/** How far from between the feet hands work (m): a zone further in front is not worked at; common practice, no source. */
export const REACH = 0.75;
/** Stool seat below the top, 10 to 12 in (m). */
const SEAT_BELOW_TOP = 0.28;
const CHAIR = 0.45;

const PART = {
  hip: 0.53,
  shoulder: 0.818,
  chin: 0.87,
  shoulderBreadth: 0.259,
  hipBreadth: 0.191,
  sitting: 0.52,
  trunkDepth: 0.14,
  legDepth: 0.11,
  headDepth: 0.113,
  headBreadth: 0.09,
  neck: 0.07,
  thigh: 0.245,
} as const;

export interface PlacedPerson {
  readonly person: Person;
  readonly mesh: Mesh;
}

/** Where a person stands: the kitchen, and the ledger from the person's own place on. */
interface Surroundings {
  readonly room: RoomShape;
  readonly island: Island | undefined;
  readonly zones: readonly Zone[];
  readonly ledger: Ledger;
}

export function personOf(
  document: PersonDocument,
  { room, island, zones, ledger }: Surroundings,
): PlacedPerson {
  const { name, at, age, hand } = document;
  const stature = ledger.fill(document.stature, "/stature", USUAL_STATURE, TYPICAL);
  const centre: Vec2 = island?.centre ?? [room.length / 2, room.width / 2];
  const towards = Math.atan2(centre[1] - at[1], centre[0] - at[0]);
  const facing = radians(
    ledger.fill(
      document.facing,
      "/facing",
      degrees(towards),
      island === undefined ? "not given; the middle of the room" : "not given; the middle of the island",
    ),
  );
  const tasks = zones.filter((zone) => zone.task !== undefined);
  const task = island === undefined ? undefined : zonesInReach({ at, facing }, island, tasks)[0]?.task;
  const posture = ledger.fill(
    document.posture,
    "/posture",
    task === undefined ? "standing" : task === "eating" ? "seated" : "leaning",
    task === undefined ? "not given; no zone in reach" : `not given; the usual one at the zone for ${task}`,
  );
  const seat =
    posture !== "seated"
      ? 0
      : ledger.fill(
          document.seat,
          "/seat",
          seatOf({}, island),
          island === undefined ? TYPICAL : `0.28 m below the top: ${TYPICAL}`,
        );
  if (!overFloor(at, room, 0))
    ledger.error(
      "person-outside",
      "/at",
      "The person stands outside the room.",
      planOfRoom(room),
      phrase`(${at[0]}, ${at[1]})`,
    );
  if (island !== undefined && depthInside(roomToIsland(island, at), island.outline) > 0)
    ledger.warn(
      "person-in-island",
      "/at",
      "The person stands in the island.",
      "a place beside the top",
      phrase`(${at[0]}, ${at[1]})`,
    );
  const { mesh, eye } = figure(at, facing, stature, posture, seat);
  const person: Person = {
    name,
    stature,
    at,
    facing,
    posture,
    eye,
    ...(document.seat === undefined ? {} : { seat: document.seat }),
    ...(age === undefined ? {} : { age }),
    ...(hand === undefined ? {} : { hand }),
  };
  return { person, mesh };
}

/** Height of a person's seat (m): as stated, else of a stool at the island, else of a chair. */
export function seatOf({ seat }: Pick<Person, "seat">, island: Island | undefined): number {
  return seat ?? (island === undefined ? CHAIR : Math.max(0.3, island.height - SEAT_BELOW_TOP));
}

/** The first zones met going forward from a person, within reach: where they work or eat. */
export function zonesInReach(
  { at, facing }: Pick<Person, "at" | "facing">,
  island: Island,
  zones: readonly Zone[],
): readonly Zone[] {
  for (let reach = 0; reach <= REACH; reach += 0.025) {
    const p = roomToIsland(island, [at[0] + reach * Math.cos(facing), at[1] + reach * Math.sin(facing)]);
    const met = zones.filter(({ outline }) => depthInside(p, outline) >= 0);
    if (met.length > 0) return met;
  }
  return [];
}

/** The figure's closed mesh and its eye point (m), 10 mm in front of the face. */
export function figure(
  at: Vec2,
  facing: number,
  stature: number,
  posture: Person["posture"],
  seat = 0,
): { readonly mesh: Mesh; readonly eye: Vec3 } {
  const seated = posture === "seated";
  const H = stature;
  const hip = seated ? seat : PART.hip * H;
  // Seated, the feet rest under the middle of the thighs.
  const back = seated ? -0.5 * PART.thigh * H : 0;
  const ground = frame([at[0], at[1], 0], { turn: facing, tilt: 0, spin: 0 });
  // Leaning forward carries the crown towards local +x: a tilt of the nadir axis the other way.
  const lean = posture === "leaning" ? -LEAN : 0;
  const hips = frame(pointToRoom(ground, [back, 0, hip]), { turn: facing, tilt: lean, spin: 0 });
  // Heights above the hips, the same seated and standing for what lies above the shoulder.
  const crown = seated ? PART.sitting * H : H - hip;
  const shoulder = crown - (1 - PART.shoulder) * H;
  const chin = crown - (1 - PART.chin) * H;
  const head = PART.headDepth * H;
  const parts = [
    block(hips, [0, 0], 0, shoulder, PART.trunkDepth * H, PART.shoulderBreadth * H),
    block(hips, [0, 0], shoulder, chin, PART.neck * H, PART.neck * H),
    block(hips, [0, 0], chin, crown, head, PART.headBreadth * H),
    ...(seated
      ? sittingLegs(ground, back, hip, H)
      : [block(ground, [0, 0], 0, hip, PART.legDepth * H, PART.hipBreadth * H)]),
  ];
  return { mesh: together(parts), eye: pointToRoom(hips, [head / 2 + 0.01, 0, crown - EYE_BELOW_CROWN]) };
}

/** Centre and radius (m) of a sphere about the head of someone whose trunk leans `lean` (rad) forward about the hips,
 * which rest at `hip` above the floor: 0.53 of stature standing, the seat's height seated. */
export function headSphere(
  at: Vec2,
  facing: number,
  stature: number,
  lean: number,
  seat?: number,
): { readonly centre: Vec3; readonly radius: number } {
  const hip = seat ?? PART.hip * stature;
  const back = seat === undefined ? 0 : -0.5 * PART.thigh * stature;
  const ground = frame([at[0], at[1], 0], { turn: facing, tilt: 0, spin: 0 });
  const hips = frame(pointToRoom(ground, [back, 0, hip]), { turn: facing, tilt: -lean, spin: 0 });
  const crown = seat === undefined ? stature - hip : PART.sitting * stature;
  const radius = ((1 - PART.chin) / 2) * stature;
  return { centre: pointToRoom(hips, [0, 0, crown - radius]), radius };
}

function sittingLegs(ground: Frame, back: number, seat: number, H: number): Mesh[] {
  const thickness = Math.min(0.085 * H, seat / 2);
  const knee = back + PART.thigh * H;
  const depth = PART.legDepth * H;
  return [
    block(
      ground,
      [back + (PART.thigh * H + PART.trunkDepth * H) / 2, 0],
      seat - thickness,
      seat,
      PART.thigh * H - PART.trunkDepth * H,
      PART.hipBreadth * H,
    ),
    block(
      ground,
      [knee - depth / 2, 0],
      Math.max(0, seat - 0.285 * H),
      seat - thickness,
      depth,
      PART.hipBreadth * H,
    ),
  ];
}

/** A box from z₀ to z₁ in a frame, centred on a plan point, deep along local x. */
function block(where: Frame, [x, y]: Vec2, z0: number, z1: number, depth: number, breadth: number): Mesh {
  const origin = pointToRoom(where, [x, y, (z0 + z1) / 2]);
  return placed(box(depth, breadth, z1 - z0), { origin, rotation: where.rotation });
}
