/**
 * From a study document to the light of one of its arrangements: checked, resolved, calculated, judged.
 *
 * What is dear is kept by what it depends on: the photometry of a file by its path, lamp set and flux until the
 * file is replaced; a luminaire by its part of the document and its photometry, so that a pendant that moved is
 * still the same luminaire to the engine, which keeps its tables by luminaire.
 */

import { assess } from "../assessment/assess.ts";
import { fixedBandJudge, type Judge } from "../assessment/fixed-band.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { unobstructedLight } from "../engine/direct/unobstructed-light.ts";
import type { LightEngine } from "../engine/light-engine.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { tiltedLuminaire } from "../luminaire/tilted.ts";
import type { Photometry } from "../photometry/photometry.ts";
import type { ReadOptions } from "../photometry/readers/read-options.ts";
import { isContainerOrXml, readTextPhotometry } from "../photometry/readers/read-text-photometry.ts";
import { fineGrid } from "../scene/calculation-grid.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import { photometryPaths } from "../scene/photometry-paths.ts";
import { namesShades, resolveStudyWith } from "../scene/resolve-with.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { checkStudy, type StudyDocument } from "../scene/study.ts";
import type { InterreflectedLight, LightAnswer, LightRequest, StudyFile } from "./protocol.ts";

/** Cells of the grid the light is drawn on (m). */
const DRAWN_CELL = 0.05;
/** Bound on the near-field error of the first light. */
const FIRST_NEAR_FIELD_ERROR = 0.02;

interface KnownLuminaire {
  readonly text: string;
  readonly photometry: Outcome<Photometry> | undefined;
  readonly luminaire: Luminaire;
}

/** The files of a study and what was made of them. */
export class Files {
  readonly #bytes = new Map<string, Uint8Array>();
  readonly #read = new Map<string, Outcome<Photometry>>();
  readonly #luminaires = new Map<string, KnownLuminaire>();
  #reader: (bytes: Uint8Array, options: ReadOptions) => Outcome<Photometry> = readTextPhotometry;

  /** Takes all files of a study in place of those before; what was read of a file that stays is kept. The readers
   * of XML and archives load with the first file that needs them. */
  async replace(files: readonly StudyFile[]): Promise<void> {
    if (files.some(({ content }) => isContainerOrXml(content))) {
      this.#reader = (await import("../photometry/readers/read-photometry.ts")).readPhotometry;
    }
    const before = new Map(this.#bytes);
    this.#bytes.clear();
    for (const { path, content } of files) this.#bytes.set(path, content);
    for (const key of [...this.#read.keys()]) {
      const path = key.slice(0, key.indexOf("\n"));
      if (!sameBytes(before.get(path), this.#bytes.get(path))) this.#read.delete(key);
    }
  }

  /** The photometry of a file, read once for each way of reading it. */
  photometry(path: string, options: { lampSet?: number; flux?: number } = {}): Outcome<Photometry> {
    const key = `${path}\n${options.lampSet ?? ""}\n${options.flux ?? ""}`;
    const known = this.#read.get(key);
    if (known !== undefined) return known;
    const bytes = this.#bytes.get(path);
    const outcome =
      bytes === undefined
        ? failure<Photometry>({
            code: "file-missing",
            severity: "error",
            message: "The study names a file that is not with it.",
            expected: "the file, dropped onto the page or carried in the study",
            received: JSON.stringify(path),
            where: { file: path },
          })
        : this.#reader(bytes, {
            file: path,
            ...options,
            tilt: (name) => this.#beside(path, name),
          });
    // A missing file may come yet.
    if (bytes !== undefined) this.#read.set(key, outcome);
    return outcome;
  }

  /** The luminaire made earlier from the same document and photometry, else the one just made. */
  same(made: Luminaire, document: unknown, photometry: Outcome<Photometry> | undefined): Luminaire {
    const text = JSON.stringify(document);
    const known = this.#luminaires.get(made.name);
    if (known !== undefined && known.text === text && known.photometry === photometry) return known.luminaire;
    this.#luminaires.set(made.name, { text, photometry, luminaire: made });
    return made;
  }

  /** A file named by another, in the same folder. */
  #beside(path: string, name: string): Outcome<Uint8Array> {
    const bytes = this.#bytes.get(path.replace(/[^/]*$/, "") + name);
    if (bytes !== undefined) return success(bytes);
    return failure({
      code: "file-missing",
      severity: "error",
      message: "The file names another that is not with it.",
      received: JSON.stringify(name),
      where: { file: path },
    });
  }
}

function sameBytes(a: Uint8Array | undefined, b: Uint8Array | undefined): boolean {
  return a !== undefined && a.length === b?.length && a.every((byte, i) => byte === b[i]);
}

/** Engines load after the first light; one remembers what a change does not touch. */
export class Engines {
  #engine: Promise<LightEngine> | undefined;
  #doubting: Promise<LightEngine> | undefined;

  get(): Promise<LightEngine> {
    this.#engine ??= import("../engine/light-engine.ts").then(({ LightEngine }) => new LightEngine());
    return this.#engine;
  }

  /** One for the doubts, whose many small changes would turn over the other's memory. */
  doubting(): Promise<LightEngine> {
    this.#doubting ??= import("../engine/light-engine.ts").then(({ LightEngine }) => new LightEngine());
    return this.#doubting;
  }
}

export interface Resolved {
  readonly study: ResolvedStudy;
  readonly scene: Scene;
  readonly restored: (issues: readonly Issue[]) => readonly Issue[];
}

/** The study resolved, and the scene asked for with the luminaires known from before. `alone` resolves that
 * arrangement without its neighbours. */
export async function resolved(
  { document, arrangement, people }: Omit<LightRequest, "quality">,
  alone: boolean,
  files: Files,
  observer: Observer,
): Promise<Outcome<Resolved>> {
  const restored = (issues: readonly Issue[]): readonly Issue[] =>
    alone ? issues.map((issue) => atArrangement(issue, arrangement)) : issues;
  const checked = checkStudy(alone ? onlyArrangement(document, arrangement) : document);
  if (!checked.ok) return failure(...restored(checked.issues));
  const photometry = photometryOf(checked.value, files);
  const outcome = resolveStudyWith(
    checked.value,
    { photometry, publishedTargets: PUBLISHED_TARGETS_BY_ID, observer },
    namesShades(checked.value) ? (await import("../luminaire/shade/build.ts")).buildShadeLuminaire : noShade,
  );
  if (!outcome.ok) return failure(...restored(outcome.issues));
  const scene = outcome.value.scenes[alone ? 0 : arrangement];
  if (scene === undefined) {
    return failure({
      code: "arrangement-missing",
      severity: "error",
      message: "There is no such arrangement.",
      received: String(arrangement),
      where: { path: "/arrangements" },
    });
  }
  const known = new Map(
    [...outcome.value.luminaires].map(([name, made]) => [
      name,
      files.same(made, checked.value.luminaires?.[name], photometry(name)),
    ]),
  );
  const { options } = outcome.value;
  const study = people === undefined ? outcome.value : { ...outcome.value, options: { ...options, people } };
  return success({ study, scene: withLuminaires(scene, known), restored });
}

/** The light of one arrangement, see {@link LightRequest.quality}. */
export async function lightOfStudy(
  request: LightRequest,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<LightAnswer>> {
  const { quality } = request;
  const alone = quality === "first" || quality === "quick";
  const found = await resolved(request, alone, files, observer);
  if (!found.ok) return found;
  const { study, restored } = found.value;
  const scene = forDrawing(found.value.scene, alone);
  const { title, targets, options, defaults, warnings } = study;
  const result = await calculated(scene, request, options, engines, observer);
  const judge = quality === "judged" ? await doubtful(scene, result, engines, observer) : fixedBandJudge;
  return success({
    title,
    scene: withoutFunctions(scene),
    assessment: assess(study, scene, result, { judge }),
    interreflected: alone ? [] : interreflectedOf(result),
    targets,
    options,
    defaults,
    warnings: restored(warnings),
  });
}

async function calculated(
  scene: Scene,
  { quality, interreflected = [] }: LightRequest,
  options: CalculationOptions,
  engines: Engines,
  observer: Observer,
): Promise<CalculationResult> {
  if (quality === "first") return unobstructedLight(scene, FIRST_NEAR_FIELD_ERROR, observer);
  const engine = await engines.get();
  if (quality !== "quick") return engine.calculate(scene, { ...options, quality: "full" }, observer);
  const direct = engine.calculate(scene, { ...options, quality, interreflection: false }, observer);
  return withInterreflected(direct, interreflected);
}

/** The judge of an answer that stands: every input's doubt, loaded with the rest of the full calculation. */
async function doubtful(
  scene: Scene,
  result: CalculationResult,
  engines: Engines,
  observer: Observer,
): Promise<Judge> {
  const [{ toleranceJudge }, engine] = await Promise.all([
    import("../assessment/tolerance/tolerance-judge.ts"),
    engines.doubting(),
  ]);
  return toleranceJudge(scene, result, (...asked) => engine.calculate(...asked), {
    observer: { cancelled: () => observer.cancelled?.() === true },
  });
}

function interreflectedOf(result: CalculationResult): InterreflectedLight {
  return result.planes.flatMap(({ plane, layers }) =>
    layers.map(({ layer, interreflected }) => ({ plane, layer, interreflected })),
  );
}

/** Direct light with the interreflected light of an earlier answer, where plane, layer and points are the same. */
function withInterreflected(direct: CalculationResult, earlier: InterreflectedLight): CalculationResult {
  if (earlier.length === 0) return direct;
  const planes = direct.planes.map((plane) => ({
    ...plane,
    layers: plane.layers.map((field) => {
      const found = earlier.find((each) => each.plane === plane.plane && each.layer === field.layer);
      if (found === undefined || found.interreflected.length !== field.direct.length) return field;
      return { ...field, interreflected: found.interreflected };
    }),
  }));
  const description = `${direct.method.description}; interreflected light of the arrangement before`;
  return { ...direct, planes, method: { ...direct.method, description } };
}

function noShade(): never {
  throw new Error("A shade was met in a study that names none.");
}

function onlyArrangement(document: unknown, arrangement: number): unknown {
  const { arrangements } = (document ?? {}) as { arrangements?: unknown };
  if (!Array.isArray(arrangements)) return document;
  return { ...(document as object), arrangements: arrangements.slice(arrangement, arrangement + 1) };
}

function atArrangement(issue: Issue, arrangement: number): Issue {
  const { path } = issue.where;
  if (path === undefined || !path.startsWith("/arrangements/0")) return issue;
  return {
    ...issue,
    where: { ...issue.where, path: `/arrangements/${arrangement}${path.slice("/arrangements/0".length)}` },
  };
}

/** Each luminaire's photometry by its name, read with its own lamp set and flux. */
export function photometryOf(
  study: StudyDocument,
  files: Files,
): (luminaire: string) => Outcome<Photometry> | undefined {
  const paths = new Map(photometryPaths(study).map((each) => [each.luminaire, each]));
  return (luminaire) => {
    const named = paths.get(luminaire);
    if (named === undefined) return undefined;
    const flux = study.luminaires?.[luminaire]?.flux;
    const { lampSet } = named;
    return files.photometry(named.path, {
      ...(lampSet === undefined ? {} : { lampSet }),
      ...(flux === undefined ? {} : { flux }),
    });
  };
}

/** The scene with a finer grid of the whole top beside the one that is judged, for isolux lines; and while the
 * hand moves, without the planes nobody looks at. */
function forDrawing(scene: Scene, topAlone: boolean): Scene {
  const { island } = scene;
  const atTop = (plane: Scene["planes"][number]): boolean =>
    plane.grid !== undefined &&
    plane.quantity === "planar" &&
    plane.normal[2] > 0.99 &&
    island !== undefined &&
    Math.abs(plane.grid.corner[2] - island.height) < 0.02;
  const kept = topAlone
    ? scene.planes.filter((plane) => plane.zone !== undefined || atTop(plane))
    : scene.planes;
  const top = kept.find((plane) => plane.zone === undefined && atTop(plane)) ?? kept.find(atTop);
  const fine = top === undefined ? undefined : fineGrid(top, DRAWN_CELL);
  if (fine === undefined) return { ...scene, planes: kept };
  const { zone: _zone, ...plane } = fine;
  return { ...scene, planes: [...kept, { ...plane, name: `${plane.name}, fine` }] };
}

/** The scene with its luminaires as they are known from before, by name. */
export function withLuminaires(scene: Scene, known: ReadonlyMap<string, Luminaire>): Scene {
  const layers = scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => ({
      ...placed,
      luminaire: tiltedLuminaire(known.get(placed.luminaire.name) ?? placed.luminaire, placed.frame.rotation),
    })),
  }));
  return { ...scene, layers };
}

const crossing = new WeakMap<Luminaire, Luminaire>();

/** Traced shades carry functions, which cannot cross between threads and which no drawing needs. One copy a
 * luminaire, so that all its places still share it. */
export function withoutFunctions(scene: Scene): Scene {
  const layers = scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => {
      let luminaire = crossing.get(placed.luminaire);
      if (luminaire === undefined) {
        const { emission } = placed.luminaire;
        const { opening } = emission;
        const plain = emission.kind === "opening" ? emission : { kind: "opening" as const, opening };
        luminaire = { ...placed.luminaire, emission: plain };
        for (const [key, value] of Object.entries(luminaire)) {
          if (holdsFunction(value)) delete (luminaire as unknown as Record<string, unknown>)[key];
        }
        crossing.set(placed.luminaire, luminaire);
      }
      return { ...placed, luminaire };
    }),
  }));
  return { ...scene, layers };
}

function holdsFunction(value: unknown): boolean {
  if (typeof value === "function") return true;
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return false;
  return Object.values(value).some(holdsFunction);
}
