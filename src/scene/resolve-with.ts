/**
 * A study resolved: every reference followed, every default filled in and listed, everything in its place.
 */

import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { Ledger } from "../diagnostics/ledger.ts";
import type { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import { arrangementLetters } from "../study/arrangement-letters.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { layerOf } from "./arrangement.ts";
import { type CalculationOptions, DEFAULT_OPTIONS } from "./calculation-options.ts";
import { checkHungOverlaps } from "./hanging-bodies.ts";
import { knownKitchen } from "./kitchen.ts";
import { luminaireBlockers } from "./luminaire-blockers.ts";
import { checkTrapped } from "./luminaires-inside-solids.ts";
import { type NamedTarget, targetsOf } from "./named-targets.ts";
import type { ResolvedStudy } from "./resolved-study.ts";
import type { Scene } from "./scene.ts";
import { settingsOf, targetsOfSettings } from "./settings.ts";
import type { StudyContext } from "./study-context.ts";
import { checkReference, luminairesOf } from "./study-luminaires.ts";
import type { PlannedZone } from "./zones.ts";

const MAINTENANCE = 0.8;
/** Most luminaires of one arrangement, and of a study. */
const MOST_LUMINAIRES = 1000;
const MOST_IN_STUDY = 5000;

/** Resolves a checked study. Every fault is reported, not the first alone. `buildShade` is handed in so that a
 * page without shades need not load their tracing; only a study that {@link namesShades} calls it. */
export function resolveStudyWith(
  study: StudyDocument,
  context: StudyContext,
  buildShade: typeof buildShadeLuminaire,
): Outcome<ResolvedStudy> {
  const ledger = new Ledger(context.file, study.display?.length);
  const luminaires = luminairesOf(study, context, buildShade, ledger);
  const kitchen = knownKitchen(study, context, ledger);
  const targets = targetsOf(
    study.targets,
    context.publishedTargets,
    targetsAsked(study, kitchen.zones),
    ledger,
  );
  const maintenance = maintenanceOf(study, ledger);
  const names = study.arrangements.map(({ name }) => name);
  const letters = arrangementLetters(study.arrangements);
  if (tooMany(study, ledger)) return failure(...ledger.errors);
  const scenes = study.arrangements.map((arrangement, i): Scene => {
    const path = `/arrangements/${i}`;
    if (letters.indexOf(letters[i]) < i)
      ledger.error("arrangement-letter", `${path}/letter`, `Two arrangements bear the letter ${letters[i]}.`);
    ledger.named("arrangement", names, i, `${path}/name`);
    const layerNames = arrangement.layers.map(({ name }) => name);
    const layers = arrangement.layers.flatMap((layer, k) => {
      const here = ledger.at(`${path}/layers/${k}`);
      here.named("layer", layerNames, k, "/name");
      checkReference(layer.luminaire, study, "/luminaire", here);
      return layerOf(layer, { ...kitchen, luminaires, ledger: here }) ?? [];
    });
    const { room, island, zones, people, bodies, surfaces, blockers, planes } = kitchen;
    checkHungOverlaps(layers, kitchen.solids, path, ledger);
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
      blockers: [...blockers, ...luminaireBlockers(layers)],
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
  if (ledger.errors.length > 0) return failure(...causes(ledger.errors, study, kitchen));
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

/** What follows from an island that could not be made: the study has one, with its zones. */
const OF_THE_ISLAND: readonly string[] = ["row-island", "plane-island", "plane-zone", "setting-zone"];

const OF_A_ZONE: readonly string[] = ["setting-zone", "plane-zone"];

/** By the code of an error, those of others that it may bring about: who asks for the name that a second bears in its place, or hangs
 * over an island that stands elsewhere. */
const BROUGHT_ABOUT: Readonly<Record<string, readonly string[]>> = {
  "layer-name": ["setting-layer"],
  "zone-name": OF_A_ZONE,
  "zone-outside": OF_A_ZONE,
  "plane-name": ["setting-zone"],
  "island-outside": ["luminaire-outside"],
};

/** The errors without those that others bring about. */
function causes(
  errors: readonly Issue[],
  study: StudyDocument,
  { island }: Pick<Scene, "island">,
): readonly Issue[] {
  const isLost = study.island !== undefined && island === undefined;
  const brought = new Set([
    ...(isLost ? OF_THE_ISLAND : []),
    ...errors.flatMap(({ code }) => BROUGHT_ABOUT[code] ?? []),
  ]);
  const own = errors.filter(({ code }) => !brought.has(code));
  return own.length === 0 ? errors : own;
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
