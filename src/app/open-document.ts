/** From a study document to a study that can be asked: checked, its files read, resolved, luminaires as known before. */

import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import { tiltedLuminaire } from "../luminaire/tilted.ts";
import { LastKitchen } from "../scene/kitchen.ts";
import { resolveStudyWith } from "../scene/resolve-with.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import type { StudyContext } from "../scene/study-context.ts";
import { namesBeams, namesShades } from "../scene/study-luminaires.ts";
import { arrangementLetters } from "../study/arrangement-letters.ts";
import type { ArrangementDocument } from "../study/arrangement-schema.ts";
import { checkStudy } from "../study/study.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { Engines } from "./engines.ts";
import type { RoomLights } from "./room-light-cache.ts";
import { type ReadFile, StudyFiles } from "./study-files.ts";

/** What is remembered from one opening of a study to the next: its files, its luminaires, light. */
export class Workspace {
  readonly files = new StudyFiles();
  readonly engines = new Engines();
  readonly kitchens = new LastKitchen();
  /** Loaded with what first asks for it. */
  rooms: RoomLights | undefined;
}

export interface OpenOptions {
  /** Names the study in issues. */
  readonly file?: string;
  /** Fetches the photometric files that the study names and does not carry. */
  readonly read?: ReadFile;
  /** From openings before, so that what was learnt stays. */
  readonly workspace?: Workspace;
  /** Follows and stops the tracing of shades. */
  readonly observer?: Observer;
}

/** A study that can be asked. */
export interface OpenStudy {
  /** Checked; lengths in metres. */
  readonly document: StudyDocument;
  /** Resolved, its luminaires those of the workspace. */
  readonly study: ResolvedStudy;
  readonly engines: Engines;
  /** The scene of an arrangement that the document need not hold, hung with the study's own luminaires. */
  resolve(arrangement: ArrangementDocument): Outcome<Scene>;
}

/** Opens a study that is an object, such as one made by a program; every fault at once, each with its path. */
export async function openDocument(value: unknown, options: OpenOptions = {}): Promise<Outcome<OpenStudy>> {
  const checked = checkStudy(value, options.file);
  return checked.ok ? openChecked(checked.value, options) : checked;
}

export async function openChecked(
  document: StudyDocument,
  { file, read, workspace = new Workspace(), observer }: OpenOptions,
): Promise<Outcome<OpenStudy>> {
  const { files, engines, kitchens } = workspace;
  const photometry = await files.photometry(document, read, file);
  const beams = namesBeams(document) ? await import("../luminaire/beam-luminaire.ts") : undefined;
  const context: StudyContext = {
    photometry,
    ...(beams === undefined ? {} : { buildBeam: beams.beamLuminaire }),
    publishedTargets: PUBLISHED_TARGETS_BY_ID,
    kitchens,
    ...(observer === undefined ? {} : { observer }),
    ...(file === undefined ? {} : { file }),
  };
  const buildShade = namesShades(document)
    ? rememberShades((await import("../luminaire/shade/build.ts")).buildShadeLuminaire)
    : noShade;
  const resolved = resolveStudyWith(document, context, buildShade);
  if (!resolved.ok) return resolved;
  const luminaires = new Map(
    [...resolved.value.luminaires].map(([name, made]) => [
      name,
      files.same(made, document.luminaires?.[name], photometry.get(name)),
    ]),
  );
  const scenes = resolved.value.scenes.map((scene) => withKnownLuminaires(scene, luminaires));
  return success({
    document,
    study: { ...resolved.value, luminaires, scenes },
    engines,
    resolve(arrangement) {
      const proposed = resolveStudyWith({ ...document, arrangements: [arrangement] }, context, buildShade);
      if (!proposed.ok) return failure(...proposed.issues);
      return success(withKnownLuminaires(proposed.value.scenes[0], luminaires), proposed.warnings);
    },
  });
}

/** A study opened for one arrangement. */
export interface OpenArrangement extends OpenStudy {
  /** Number of the arrangement in {@link OpenStudy.study}. */
  readonly index: number;
  readonly scene: Scene;
  /** Issues with their paths in the whole study, where the paths of {@link ResolvedStudy.defaults} are too. */
  readonly restored: (issues: readonly Issue[]) => readonly Issue[];
}

/** Which arrangement of which document is asked about. */
export interface ArrangementRequest {
  /** The study document, as JSON. */
  readonly document: unknown;
  /** Index of the arrangement. */
  readonly arrangement: number;
  /** Whether people stand in the light, whatever the study says. */
  readonly people?: boolean;
}

/** Opens a document for one of its arrangements. `alone` leaves its neighbours and what hangs only there unresolved. */
export async function openArrangement(
  { document, arrangement, people }: ArrangementRequest,
  alone: boolean,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<OpenArrangement>> {
  const restored = (issues: readonly Issue[]): readonly Issue[] =>
    alone ? issues.map((issue) => atArrangement(issue, arrangement)) : issues;
  const opened = await openDocument(alone ? onlyArrangement(document, arrangement) : document, {
    workspace,
    observer,
  });
  if (!opened.ok) return failure(...restored(opened.issues));
  const index = alone ? 0 : arrangement;
  const { study } = opened.value;
  const scene = study.scenes[index];
  if (scene === undefined)
    return failure({
      code: "arrangement-missing",
      message: "There is no such arrangement.",
      received: String(arrangement),
      where: { path: "/arrangements" },
    });
  const options = people === undefined ? study.options : { ...study.options, people };
  const defaults = alone
    ? study.defaults.map((used) => ({ ...used, path: atPath(used.path, arrangement) }))
    : study.defaults;
  return success({ ...opened.value, study: { ...study, options, defaults }, index, scene, restored });
}

function noShade(): never {
  throw new Error("A shade was met in a study that names none.");
}

/** The same lamp and shade are traced once, however many arrangements are made from a study. */
function rememberShades(build: typeof buildShadeLuminaire): typeof buildShadeLuminaire {
  const built = new Map<string, ReturnType<typeof buildShadeLuminaire>>();
  return (...of) => {
    const key = JSON.stringify(of.slice(0, 3));
    const luminaire = built.get(key) ?? build(...of);
    built.set(key, luminaire);
    return luminaire;
  };
}

/** The document with one arrangement and the luminaires that hang in it; whatever is not as it should be stays for
 * the check to name. */
function onlyArrangement(document: unknown, arrangement: number): unknown {
  const { arrangements, luminaires } = (document ?? {}) as { arrangements?: unknown; luminaires?: unknown };
  if (!Array.isArray(arrangements)) return document;
  const letter = arrangementLetters(arrangements)[arrangement];
  const chosen = arrangements
    .slice(arrangement, arrangement + 1)
    .map((each) => (typeof each === "object" && each !== null ? { letter, ...each } : each));
  const only = { ...(document as object), arrangements: chosen };
  const layers: unknown = arrangements[arrangement]?.layers;
  if (!Array.isArray(layers) || typeof luminaires !== "object" || luminaires === null) return only;
  const hung = new Set(layers.map((layer) => layer?.luminaire));
  if ([...hung].some((name) => typeof name !== "string" || !Object.hasOwn(luminaires, name))) return only;
  return {
    ...only,
    luminaires: Object.fromEntries(Object.entries(luminaires).filter(([name]) => hung.has(name))),
  };
}

function atArrangement(issue: Issue, arrangement: number): Issue {
  const { path } = issue.where;
  return path === undefined
    ? issue
    : { ...issue, where: { ...issue.where, path: atPath(path, arrangement) } };
}

/** A path of the document with one arrangement, in the document with all of them. */
const atPath = (path: string, arrangement: number): string =>
  path.replace(/^\/arrangements\/0(?=\/|$)/, `/arrangements/${arrangement}`);

/** The scene with its luminaires as they are known from before, by name. */
function withKnownLuminaires(scene: Scene, known: ReadonlyMap<string, Luminaire>): Scene {
  const layers = scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => ({
      ...placed,
      luminaire: tiltedLuminaire(known.get(placed.luminaire.name) ?? placed.luminaire, placed.frame.rotation),
    })),
  }));
  return { ...scene, layers };
}
