/**
 * What a study says that can be calculated and cannot be meant, each as a warning with its place: objects beyond the room, in one
 * another or in one place, and figures no luminaire has. The thresholds are common practice, no source, each far from
 * anything sold or built.
 *
 * Found beside the light, not before it: the light of a study does not depend on any of it.
 */

import type { Issue } from "../diagnostics/issue.ts";
import { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { area, depthInside, type Polygon, rectangle } from "../geometry/polygon.ts";
import { convexPieces, intersection } from "../geometry/polygon-pieces.ts";
import type { Vec2, Vec3 } from "../geometry/vector.ts";
import { insideRoom, planOfRoom } from "../scene/inside-room.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Island, RoomShape, Scene } from "../scene/scene.ts";
import { lowestCeiling } from "../scene/surfaces.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { checkDimmers } from "./odd-dimmers.ts";
import { checkHangingAsMeant } from "./odd-hanging.ts";
import { checkLuminaires } from "./odd-luminaires.ts";

/** Two people nearer to one another (m) stand in one place. */
const ONE_PLACE = 0.2;
/** Less light is not left in any kitchen that is cleaned once in its life. */
const LEAST_MAINTENANCE = 0.2;
/** m² */
const COMMON = 1e-4;

type Study = Pick<ResolvedStudy, "scenes" | "luminaires" | "display">;

/** @param file names the study in the warnings */
export function oddInputs(document: StudyDocument, study: Study, file?: string): readonly Issue[] {
  const ledger = new Ledger(file, study.display.length);
  const [scene] = study.scenes;
  if (scene === undefined) return [];
  checkCeiling(scene.room, ledger);
  checkDoors(scene.room, ledger);
  if (scene.island !== undefined) checkTop(scene.island, ledger);
  checkPeople(scene, ledger);
  checkNames(scene, ledger);
  checkAims(document, scene.room, ledger);
  checkLuminaires(study.luminaires, study.scenes, ledger);
  checkHangingAsMeant(document, study.scenes, ledger);
  checkDimmers(study.scenes, ledger);
  if (document.maintenance !== undefined && scene.maintenance < LEAST_MAINTENANCE)
    ledger.warn(
      "maintenance-low",
      "/maintenance",
      "Hardly any light is taken to be left.",
      `${LEAST_MAINTENANCE} to 1, usually 0.7 to 0.9`,
      String(scene.maintenance),
    );
  return ledger.warnings;
}

function checkCeiling(room: RoomShape, ledger: Ledger): void {
  const { keepOuts = [], joists, length, width } = room;
  const plan = rectangle(0, 0, length, width);
  keepOuts.forEach(({ name, outline }, i) => {
    if (meet(plan, outline)) return;
    ledger.warn(
      "keep-out-outside",
      `/room/keepOuts/${i}`,
      `The keep-out "${name}" lies wholly beyond the room: it keeps nothing out.`,
      planOfRoom(room),
      phrase`a corner at (${outline[0][0]}, ${outline[0][1]})`,
    );
  });
  if (joists === undefined) return;
  const across = joists.along === "y" ? length : width;
  if (joists.first <= across) return;
  ledger.warn(
    "joists-outside",
    "/room/joists/first",
    "The first joist lies beyond the room: none is over it.",
    phrase`at most ${across}`,
    phrase`${joists.first}`,
  );
}

function checkDoors(room: RoomShape, ledger: Ledger): void {
  const { doors = [], openings = [] } = room;
  doors.forEach((door, i) => {
    const lowest = lowestCeiling(room, door.wall, door.from, door.width);
    if (door.height > lowest + 1e-3)
      ledger.warn(
        "door-height",
        `/room/doors/${i}`,
        `The door "${door.name}" reaches above the ceiling.`,
        phrase`at most ${lowest}`,
        phrase`${door.height}`,
      );
    const window = openings.find(
      ({ wall, from, length, sill }) =>
        wall === door.wall &&
        sill < door.height - 1e-3 &&
        from < door.from + door.width - 1e-3 &&
        door.from < from + length - 1e-3,
    );
    if (window !== undefined)
      ledger.warn(
        "door-in-opening",
        `/room/doors/${i}`,
        `The door "${door.name}" and the opening "${window.name}" lie in one another.`,
        "a place beside it; a glazed door is an opening alone",
        phrase`${door.from} to ${door.from + door.width} and ${window.from} to ${window.from + window.length} along wall ${String(door.wall)}`,
      );
  });
}

function checkTop({ hob, sink }: Island, ledger: Ledger): void {
  if (hob === undefined || sink === undefined || !meet(hob, sink)) return;
  ledger.warn("hob-in-sink", "/island/hob", "Hob and sink lie in one another.", "places beside one another");
}

const meet = (a: Polygon, b: Polygon): boolean =>
  area(intersection(convexPieces(a), convexPieces(b))) > COMMON;

function checkPeople({ people, bodies = [] }: Scene, ledger: Ledger): void {
  people.forEach(({ name, at }, i) => {
    const other = people.slice(0, i).find((each) => distance(at, each.at) < ONE_PLACE);
    if (other !== undefined)
      ledger.warn(
        "people-in-one-place",
        `/people/${i}/at`,
        `"${name}" and "${other.name}" are in one place.`,
        phrase`at least ${ONE_PLACE} between them`,
        phrase`${distance(at, other.at)}`,
      );
    const body = bodies.find(({ outline, bottom }) => bottom < ONE_PLACE && depthInside(at, outline) > 0);
    if (body !== undefined)
      ledger.warn(
        "person-in-body",
        `/people/${i}/at`,
        `"${name}" stands in "${body.name}".`,
        "a place beside it",
        phrase`(${at[0]}, ${at[1]})`,
      );
  });
}

const distance = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Clashes name what stands there: one name for two tells nobody which. */
function checkNames({ bodies = [] }: Scene, ledger: Ledger): void {
  bodies.forEach(({ name }, i) => {
    if (bodies.findIndex((each) => each.name === name) < i)
      ledger.warn(
        "body-name",
        `/bodies/${i}/name`,
        `Two bodies are named "${name}".`,
        "each a name of its own",
      );
  });
}

function checkAims({ arrangements }: StudyDocument, room: RoomShape, ledger: Ledger): void {
  arrangements.forEach(({ layers }, a) => {
    layers.forEach(({ row, grid, at = [] }, l) => {
      const path = `/arrangements/${a}/layers/${l}`;
      if (row?.aim !== undefined) checkAim(row.aim, `${path}/row/aim`, room, ledger);
      if (grid?.aim !== undefined) checkAim(grid.aim, `${path}/grid/aim`, room, ledger);
      at.forEach(({ aim }, i) => {
        if (aim !== undefined) checkAim(aim, `${path}/at/${i}/aim`, room, ledger);
      });
    });
  });
}

function checkAim(aim: Vec3, path: string, room: RoomShape, ledger: Ledger): void {
  if (insideRoom(aim, room)) return;
  ledger.warn(
    "aim-outside",
    path,
    "The luminaire aims at a point beyond the room.",
    planOfRoom(room),
    phrase`(${aim[0]}, ${aim[1]}, ${aim[2]})`,
  );
}
