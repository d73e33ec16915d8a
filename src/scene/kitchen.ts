/** What all arrangements of a study share: room, island, zones, bodies, people, planes and the solids they make. Kept by
 * its parts of the document until the next kitchen is another. */

import { Ledger } from "../diagnostics/ledger.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { islandOf } from "./island.ts";
import { personOf } from "./people.ts";
import { planesOf } from "./planes.ts";
import { openPlanes } from "./points-in-solids.ts";
import { roomOf } from "./room.ts";
import type { Blocker } from "./scene.ts";
import { bodySolid, checkOverlaps, islandSolid, type Solid, solidBlockers } from "./solids.ts";
import { surfacesOf } from "./surfaces.ts";
import { zonesOf } from "./zones.ts";

/** What all arrangements share, as it was resolved before where nothing of it is another: its parts of the document, the unit of
 * length shown, the study's name in issues. Kept until the next kitchen. */
export function knownKitchen(
  study: StudyDocument,
  { kitchens, file }: { readonly kitchens?: LastKitchen; readonly file?: string },
  ledger: Ledger,
): Kitchen {
  const { room, island, bodies, people, planes, display } = study;
  const key = JSON.stringify([room, island, bodies, people, planes, display?.length, file]);
  let kitchen = kitchens?.get(key);
  if (kitchen === undefined) {
    const own = new Ledger(file, display?.length);
    kitchen = { kitchen: kitchenOf(study, own), ledger: own };
    kitchens?.set(key, kitchen);
  }
  ledger.add(kitchen.ledger);
  return kitchen.kitchen;
}

type Kitchen = ReturnType<typeof kitchenOf>;

/** The kitchen of a document resolved last, and what was said of it. */
export class LastKitchen {
  #key: string | undefined;
  #known: KnownKitchen | undefined;

  get(key: string): KnownKitchen | undefined {
    return key === this.#key ? this.#known : undefined;
  }

  set(key: string, known: KnownKitchen): void {
    this.#key = key;
    this.#known = known;
  }
}

interface KnownKitchen {
  readonly kitchen: Kitchen;
  readonly ledger: Ledger;
}

function kitchenOf(study: StudyDocument, ledger: Ledger) {
  const shape = roomOf(study.room, ledger);
  const island = study.island === undefined ? undefined : islandOf(study.island, shape, ledger.at("/island"));
  const zones =
    island === undefined || study.island === undefined ? [] : zonesOf(study.island, island, ledger);
  const bodies = (study.bodies ?? []).flatMap(
    (body, i) => bodySolid(body, `/bodies/${i}`, shape, ledger) ?? [],
  );
  const solids: Solid[] = [
    ...(island === undefined ? [] : [islandSolid(island)]),
    ...bodies.map((f) => f.solid),
  ];
  checkOverlaps(solids, ledger);
  const { surfaces, openings } = surfacesOf(study.room, shape, solids, ledger);
  const people = (study.people ?? []).map((person, i, all) => {
    if (all.findIndex(({ name }) => name === person.name) < i)
      ledger.warn(
        "person-name",
        `/people/${i}/name`,
        `Two people are named "${person.name}".`,
        "each a name of its own",
      );
    return personOf(person, { room: shape, island, zones, ledger: ledger.at(`/people/${i}`) });
  });
  const room = { ...shape, openings };
  const studyPlanes = planesOf(study.planes, { room, island, zones, ledger });
  const pathOf = (plane: (typeof studyPlanes)[number]) => {
    const written = (study.planes ?? []).findIndex((p) => p.name === plane.name);
    return written >= 0
      ? `/planes/${written}`
      : (zones.find((z) => z.name === plane.zone)?.path ?? "/planes");
  };
  const planes = openPlanes(studyPlanes, solids, pathOf, ledger);
  const blockers: Blocker[] = [
    ...solids.flatMap(solidBlockers),
    ...people.map(
      ({ person, mesh }): Blocker => ({ name: person.name, kind: "person", mesh, transmittance: 0 }),
    ),
  ];
  return {
    room,
    island,
    zones,
    planes,
    solids,
    surfaces,
    blockers,
    people: people.map(({ person }) => person),
    bodies: bodies.map(({ body }) => body),
  };
}
