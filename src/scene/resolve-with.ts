/**
 * A study resolved: every reference followed, every default filled in and listed, everything in its place.
 */

import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import { Ledger } from "../diagnostics/resolve-log.ts";
import { type BuiltLuminaire, buildLuminaire, furnishLuminaire } from "../luminaire/build-luminaire.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { isShadeLamp } from "../luminaire/shade/shade-document.ts";
import type { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import { arrangementLetters } from "../study/arrangement-letters.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { layerOf } from "./arrangement.ts";
import { type CalculationOptions, DEFAULT_OPTIONS } from "./calculation-options.ts";
import { checkHanging } from "./hanging-bodies.ts";
import { islandOf } from "./island.ts";
import { checkTrapped } from "./luminaires-inside-solids.ts";
import { pendantBlockers } from "./pendant-blockers.ts";
import { personOf } from "./people.ts";
import { planesOf } from "./planes.ts";
import { openPlanes } from "./points-in-solids.ts";
import type { ResolvedStudy } from "./resolved-study.ts";
import { roomOf } from "./room.ts";
import type { Blocker, Scene } from "./scene.ts";
import { settingsOf, targetsOfSettings } from "./settings.ts";
import { bodySolid, checkOverlaps, islandSolid, type Solid, solidBlockers } from "./solids.ts";
import type { StudyContext } from "./study-context.ts";
import { surfacesOf } from "./surfaces.ts";
import { type NamedTarget, targetsOf } from "./named-targets.ts";
import { type PlannedZone, zonesOf } from "./zones.ts";

const MAINTENANCE = 0.8;
/** Most luminaires of one arrangement, and of a study. */
const MOST_LUMINAIRES = 1000;
const MOST_IN_STUDY = 5000;

/** Whether resolving needs the tracing of shades. */
export function namesShades(study: StudyDocument): boolean {
  return Object.values(study.luminaires ?? {}).some(
    ({ lamp, shade }) => isShadeLamp(lamp) && shade !== undefined,
  );
}

/** Whether resolving needs {@link StudyContext.buildBeam}. */
export function namesBeams(study: StudyDocument): boolean {
  return Object.values(study.luminaires ?? {}).some(({ beam }) => beam !== undefined);
}

/** Resolves a checked study. Every fault is reported, not the first alone. `buildShade` is handed in so that a
 * page without shades need not load their tracing; only a study that {@link namesShades} calls it. */
export function resolveStudyWith(
  study: StudyDocument,
  context: StudyContext,
  buildShade: typeof buildShadeLuminaire,
): Outcome<ResolvedStudy> {
  const ledger = new Ledger(context.file);
  const luminaires = luminairesOf(study, context, buildShade, ledger);
  const kitchen = knownKitchen(study, context, ledger);
  const targets = targetsOf(
    study.targets,
    context.publishedTargets,
    targetsAsked(study, kitchen.zones),
    ledger,
  );
  const maintenance = maintenanceOf(study, ledger);
  const names = new Set<string>();
  const letters = arrangementLetters(study.arrangements);
  if (tooMany(study, ledger)) return failure(...ledger.errors);
  const scenes = study.arrangements.map((arrangement, i): Scene => {
    const path = `/arrangements/${i}`;
    if (letters.indexOf(letters[i]) < i)
      ledger.error("arrangement-letter", `${path}/letter`, `Two arrangements bear the letter ${letters[i]}.`);
    if (names.has(arrangement.name))
      ledger.error(
        "arrangement-name",
        `${path}/name`,
        `Two arrangements are named "${arrangement.name}".`,
        "each a name of its own",
        JSON.stringify(arrangement.name),
      );
    names.add(arrangement.name);
    const layers = arrangement.layers.flatMap((layer, k) => {
      const at = `${path}/layers/${k}`;
      const first = arrangement.layers.findIndex((other) => other.name === layer.name);
      if (first < k)
        ledger.error(
          "layer-name",
          `${at}/name`,
          `Two layers are named "${layer.name}".`,
          "each a name of its own",
          JSON.stringify(layer.name),
        );
      checkReference(layer.luminaire, study, `${at}/luminaire`, ledger);
      return layerOf(layer, at, { ...kitchen, luminaires }, ledger) ?? [];
    });
    const { room, island, zones, people, bodies, surfaces, blockers, planes } = kitchen;
    const layerNames = arrangement.layers.map(({ name }) => name);
    checkHanging(layers, kitchen.solids, path, ledger);
    const pathOf = ({ name }: (typeof layers)[number]) =>
      `${path}/layers/${arrangement.layers.findIndex((layer) => layer.name === name)}`;
    checkTrapped(layers, kitchen.solids, room, pathOf, ledger);
    return {
      name: arrangement.name,
      letter: letters[i],
      room,
      ...(island === undefined ? {} : { island }),
      zones: zones.map(({ path: _, ownHeight: __, ...zone }) => zone),
      people,
      bodies,
      layers,
      surfaces,
      blockers: [...blockers, ...pendantBlockers(layers)],
      planes,
      maintenance,
      ...(study.tariff === undefined ? {} : { tariff: study.tariff }),
      ...(arrangement.settings === undefined
        ? {}
        : {
            settings: settingsOf(
              arrangement.settings,
              `${path}/settings`,
              {
                layers,
                zones: [...zones, ...planes.filter(({ target }) => target !== undefined)],
                layerNames,
              },
              ledger,
            ),
          }),
    };
  });
  if (ledger.errors.length > 0) return failure(...ledger.errors);
  const { warnings, defaults } = ledger;
  return success(
    {
      title: study.title ?? "Untitled study",
      display: {
        length: ledger.fill(study.display?.length, "/display/length", "mm", "not given"),
        illuminance: ledger.fill(study.display?.illuminance, "/display/illuminance", "lx", "not given"),
      },
      scenes,
      luminaires,
      targets,
      options: optionsOf(study, ledger),
      defaults,
      warnings,
    },
    warnings,
  );
}

function targetsAsked({ arrangements, planes }: StudyDocument, zones: readonly PlannedZone[]): NamedTarget[] {
  return [
    ...zones.flatMap(({ target, path }) =>
      target === undefined ? [] : [{ target, path: `${path}/target` }],
    ),
    ...(planes ?? []).flatMap(({ target }, i) =>
      target === undefined ? [] : [{ target, path: `/planes/${i}/target` }],
    ),
    ...arrangements.flatMap(({ settings }, i) => targetsOfSettings(settings, `/arrangements/${i}/settings`)),
  ];
}

/** Whether there are more luminaires than a kitchen has; asked before any is placed. */
function tooMany(study: StudyDocument, ledger: Ledger): boolean {
  const counts = study.arrangements.map(({ layers }) =>
    layers.reduce(
      (sum, { row, grid, at }) =>
        sum + (row?.count ?? 0) + (grid ? grid.columns * grid.rows : 0) + (at?.length ?? 0),
      0,
    ),
  );
  const most = Math.max(...counts);
  const all = counts.reduce((a, b) => a + b, 0);
  if (most <= MOST_LUMINAIRES && all <= MOST_IN_STUDY) return false;
  const count = most > MOST_LUMINAIRES ? `${most} in one` : `${all} in all`;
  const expected = `at most ${MOST_LUMINAIRES} in an arrangement and ${MOST_IN_STUDY} in all`;
  ledger.error("luminaires-too-many", "/arrangements", "There are too many luminaires.", expected, count);
  return true;
}

/** What all arrangements share, as it was resolved before where nothing of it is another. */
function knownKitchen(study: StudyDocument, { kitchens, file }: StudyContext, ledger: Ledger): Kitchen {
  const { room, island, bodies, people, planes } = study;
  const key = JSON.stringify([room, island, bodies, people, planes, file]);
  let kitchen = kitchens?.get(key);
  if (kitchen === undefined) {
    const own = new Ledger(file);
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
  const island = study.island === undefined ? undefined : islandOf(study.island, shape, ledger);
  const zones =
    island === undefined || study.island === undefined ? [] : zonesOf(study.island, island, ledger);
  const found = (study.bodies ?? []).flatMap(
    (body, i) => bodySolid(body, `/bodies/${i}`, shape, ledger) ?? [],
  );
  const solids: Solid[] = [
    ...(island === undefined ? [] : [islandSolid(island)]),
    ...found.map((f) => f.solid),
  ];
  checkOverlaps(solids, ledger);
  const { surfaces, openings } = surfacesOf(study.room, shape, solids, ledger);
  const people = (study.people ?? []).map((person, i) =>
    personOf(person, `/people/${i}`, shape, island, zones, ledger),
  );
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
    bodies: found.map(({ body }) => body),
  };
}

function luminairesOf(
  study: StudyDocument,
  context: StudyContext,
  buildShade: typeof buildShadeLuminaire,
  ledger: Ledger,
): Map<string, Luminaire> {
  const luminaires = new Map<string, Luminaire>();
  const keep = (built: Outcome<BuiltLuminaire>, path: string) => {
    ledger.take(built.ok ? built.warnings : built.issues, path);
    if (!built.ok) return;
    const { luminaire, defaults } = built.value;
    for (const { path: at, value, why } of defaults) ledger.note(at, value, why);
    luminaires.set(luminaire.name, luminaire);
  };
  for (const [name, document] of Object.entries(study.luminaires ?? {})) {
    const path = pathTo("/luminaires", name);
    const { photometry, beam, lamp, shade } = document;
    const traced = isShadeLamp(lamp) || shade !== undefined;
    const lights = [photometry, beam, traced ? true : undefined].filter(
      (light) => light !== undefined,
    ).length;
    if (lights !== 1) {
      const expected = '"photometry", "beam", or "lamp" with "shade"';
      const message = lights === 0 ? "The luminaire has no light." : "The luminaire's light is given twice.";
      ledger.error("luminaire-light", path, message, `one of ${expected}`);
      continue;
    }
    if (traced) {
      if (!isShadeLamp(lamp) || shade === undefined) {
        ledger.error("luminaire-light", path, "Lamp and shade belong together.", '"lamp" with "shade"');
        continue;
      }
      const where = { path, ...(context.file === undefined ? {} : { file: context.file }) };
      const built = buildShade(name, lamp, shade, where, context.observer);
      ledger.take(built.ok ? built.warnings : built.issues, path);
      if (!built.ok) continue;
      for (const each of built.value.assumptions) ledger.note(`${path}${each.path}`, each.value, each.why);
      keep(furnishLuminaire(built.value.luminaire, document, path), path);
      continue;
    }
    const file = photometry === undefined ? undefined : readPhotometry(name, context);
    if (photometry !== undefined && file === undefined) {
      ledger.error(
        "photometry-unread",
        `${path}/photometry`,
        "The photometric file was not read.",
        undefined,
        JSON.stringify(photometry),
      );
      continue;
    }
    if (file !== undefined)
      ledger.take(file.ok ? unsettledWarnings(file.warnings, document) : file.issues, `${path}/photometry`);
    if (file !== undefined && !file.ok) continue;
    keep(buildLuminaire(name, document, file?.value, path, context.buildBeam), path);
  }
  return luminaires;
}

/** What `fluxFrom` has settled is no warning any more. */
function unsettledWarnings(
  warnings: readonly Issue[],
  { fluxFrom }: { readonly fluxFrom?: string },
): readonly Issue[] {
  return fluxFrom === undefined ? warnings : warnings.filter(({ code }) => code !== "flux-mismatch");
}

function readPhotometry(name: string, { photometry }: StudyContext) {
  return typeof photometry === "function" ? photometry(name) : photometry.get(name);
}

function checkReference(name: string, study: StudyDocument, path: string, ledger: Ledger): void {
  const names = Object.keys(study.luminaires ?? {});
  if (names.includes(name)) return;
  ledger.unknown("luminaire", path, name, names, names.length === 0 ? 'an entry in "luminaires"' : undefined);
}

function maintenanceOf({ maintenance }: StudyDocument, ledger: Ledger): number {
  if (typeof maintenance !== "object")
    return ledger.fill(
      maintenance,
      "/maintenance",
      MAINTENANCE,
      "not given; usual for sealed sources, common practice",
    );
  const part = (key: keyof typeof maintenance) =>
    ledger.fill(maintenance[key], `/maintenance/${key}`, 1, "not given; no loss");
  return part("lampFlux") * part("survival") * part("luminaire") * part("surfaces");
}

function optionsOf({ calculation }: StudyDocument, ledger: Ledger): CalculationOptions {
  const fill = <K extends "interreflection" | "occlusion" | "nearFieldError">(key: K) =>
    ledger.fill(
      calculation?.[key],
      `/calculation/${key}`,
      DEFAULT_OPTIONS[key],
      "not given",
    ) as CalculationOptions[K];
  return {
    ...DEFAULT_OPTIONS,
    interreflection: fill("interreflection"),
    occlusion: fill("occlusion"),
    nearFieldError: fill("nearFieldError"),
  };
}
