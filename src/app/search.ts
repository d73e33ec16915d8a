/** The search for rows of pendants: the best few that differ in kind, each judged as every arrangement is. */

import { RULES } from "../advice/guidelines/cards.ts";
import { OBJECTIVES, type Objective } from "../design/search/pareto.ts";
import { type SearchResult, searchArrangements } from "../design/search/search.ts";
import { type SearchSpace, usualSpace } from "../design/search/search-space.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import type { LightingSetting, Scene } from "../scene/scene.ts";
import type { ArrangementDocument, LayerDocument, SettingDocument } from "../study/arrangement-schema.ts";
import { newLetter } from "../study/new-letter.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { studyCheck } from "./full-check.ts";
import { arrangementIndex, layerIndex, shortlist } from "./named-in-study.ts";
import type { OpenStudy } from "./open-document.ts";

export { OBJECTIVES, type Objective };
/** Identifiers of the guideline cards. */
export const RULE_IDS: readonly string[] = RULES.map(({ id }) => id);

export interface RowQuestion {
  /** The arrangement started from, by its name or number; the first by default. */
  readonly arrangement?: string | number;
  /** The layer whose pendants are sought; the first of them by default. */
  readonly layer?: string;
  /** Names of luminaires to try; all that hang as pendants, and those that hang nowhere and could, by default. */
  readonly luminaires?: readonly string[];
  /** How many pendants; 1 to 6 by default. */
  readonly counts?: readonly number[];
  /** Lowest points above the top to try (m), or the least and the greatest of them. */
  readonly clearances?: readonly number[] | { readonly from: number; readonly to: number };
  /** Least free distance between rims, and from rim to end of the top (m); 0.1 and 0.15 by default. */
  readonly gap?: number;
  readonly end?: number;
  /** How far the row may move along and across the island from where it is drawn (m). */
  readonly along?: number;
  readonly across?: number;
  /** Also rows of two kinds in turn. */
  readonly pairs?: boolean;
  /** Least evenness (minimum to average) of the whole top that is proposed, 0 to 0.9; 0.4 by default, below which light
   * is patchy. */
  readonly evenness?: number;
  /** Identifiers of guideline cards that must agree. */
  readonly rules?: readonly string[];
  /** Probability with which a target must be reached to be called met, 0.5 to 0.999; 0.9 by default. */
  readonly confidence?: number;
}

/** Below this light over a top is called patchy by `check`. */
export const LEAST_EVENNESS = 0.4;

export interface SearchOptions extends RowQuestion {
  /** People must see each other's faces; no head may reach a pendant; no lamp be seen that should be shielded. */
  readonly faces?: boolean;
  readonly heads?: boolean;
  readonly shielding?: boolean;
  /** Rows must serve every setting, at whatever levels of the layers do it with the least power. */
  readonly settings?: boolean;
  /** What counts; all by default. */
  readonly objectives?: readonly Objective[];
  /** How many proposals, 1 to 8; 4 by default. */
  readonly wanted?: number;
}

export interface SearchFindings {
  readonly result: SearchResult;
  /** The lattice rows are counted in (m). */
  readonly step: number;
  /** Least evenness that was asked for. */
  readonly evenness: number;
  /** Name of the layer whose pendants were sought, and names of the layers that stay as they are. */
  readonly sought: string;
  readonly standing: readonly string[];
}

export async function searchRows(
  opened: OpenStudy,
  options: SearchOptions,
  observer: Observer = {},
): Promise<Outcome<SearchFindings>> {
  const { study, document } = opened;
  const rows = rowsOf(opened, options);
  if (!rows.ok) return rows;
  const { index, layer, kinds, space } = rows.value;
  const check = await studyCheck(opened, options.confidence, observer);
  if (options.settings === true && study.scenes[index].settings === undefined)
    return failure({
      code: "search-settings",
      message: "The arrangement has no settings to serve.",
      expected: 'named levels or targets under its key "settings"',
      where: { path: `/arrangements/${index}` },
    });
  const isServing = options.settings === true;
  const { rules = [], faces = false, heads = false, shielding = false } = options;
  const outcome = searchArrangements(
    {
      study,
      scene: isServing ? atFull(study.scenes[index]) : study.scenes[index],
      base: isServing
        ? withSoughtLevels(document.arrangements[index], study.scenes[index])
        : document.arrangements[index],
      ...(isServing ? { settings: askingSettings(study.scenes[index]) } : {}),
      layer,
      kinds,
      check: { ...check, inSettings: isServing },
      calculate: check.calculate,
      space,
      constraints: { rules, faces, heads, shielding },
      objectives: options.objectives ?? OBJECTIVES,
      evenness: options.evenness ?? LEAST_EVENNESS,
      wanted: Math.min(8, Math.max(1, options.wanted ?? 4)),
      ...(options.confidence === undefined ? {} : { confidence: options.confidence }),
    },
    check.observer,
  );
  if (!outcome.ok) return outcome;
  const names = study.scenes[index].layers.map(({ name }) => name);
  return success({
    result: outcome.value,
    step: space.step,
    evenness: options.evenness ?? LEAST_EVENNESS,
    sought: names[layer],
    standing: names.filter((_, l) => l !== layer),
  });
}

/** Every layer at full output: what rows are mixed from. */
function atFull(scene: Scene): Scene {
  return { ...scene, layers: scene.layers.map((layer) => ({ ...layer, dim: 1 })) };
}

/** The settings in which something is asked of a zone. */
function askingSettings({ settings = [], zones }: Scene): readonly LightingSetting[] {
  return settings.filter(({ targets }) =>
    zones.some(({ name, target }) => (targets.has(name) ? targets.get(name) !== null : target !== undefined)),
  );
}

/** The arrangement with the levels of its settings left to be found, but where nothing is asked of the light then. */
function withSoughtLevels(base: ArrangementDocument, { zones }: Scene): ArrangementDocument {
  const { settings = [] } = base;
  const asks = ({ zones: own = {} }: SettingDocument): boolean =>
    zones.some(({ name, target }) => (Object.hasOwn(own, name) ? own[name] !== null : target !== undefined));
  return {
    ...base,
    settings: settings.map((setting) => {
      if (!asks(setting)) return setting;
      const { dim: _, ...rest } = setting;
      return { ...rest, find: rest.find ?? "least power" };
    }),
  };
}

/** The scene, layer, luminaires and space of a question about rows. */
export function rowsOf(opened: OpenStudy, question: RowQuestion) {
  const { study } = opened;
  const index = arrangementIndex(study.scenes, question.arrangement);
  if (!index.ok) return index;
  const scene = study.scenes[index.value];
  const layer = layerIndex(scene, question.layer);
  if (!layer.ok) return layer;
  const kinds = shortlist(opened, question.luminaires);
  if (!kinds.ok) return kinds;
  const own = opened.document.arrangements[index.value].layers[layer.value]?.row;
  const space = spaceOf(usualSpace(study.display.length, scene.island), question, own);
  return success({ index: index.value, scene, layer: layer.value, kinds: kinds.value, space });
}

/** Most clearances between two, and most shifts to one side. */
const MOST_CLEARANCES = 60;
const MOST_SHIFTS = 40;

/** @param own the row as it stands: its clearance is tried beside the usual ones, and rows hang where it is set off to */
function spaceOf(usual: SearchSpace, question: RowQuestion, own: LayerDocument["row"]): SearchSpace {
  const { counts, clearances, gap, end, along, across, pairs } = question;
  const { step } = usual;
  return {
    ...usual,
    counts: counts ?? usual.counts,
    clearances:
      clearances === undefined
        ? [...new Set([...usual.clearances, ...(own?.clearance === undefined ? [] : [own.clearance])])].sort(
            (a, b) => a - b,
          )
        : "from" in clearances
          ? steps(clearances.from, clearances.to, 2 * step)
          : clearances,
    leastGap: gap ?? usual.leastGap,
    leastEnd: end ?? usual.leastEnd,
    about: own?.offset ?? usual.about,
    along: along === undefined ? usual.along : shifts(along, 2 * step),
    across: across === undefined ? usual.across : shifts(across, 2 * step),
    pairs: pairs ?? usual.pairs,
  };
}

function shifts(reach: number, step: number): number[] {
  const count = Math.min(MOST_SHIFTS, Math.floor(reach / step + 1e-9));
  return [0, ...Array.from({ length: count }, (_, k) => [(k + 1) * step, -(k + 1) * step]).flat()];
}

function steps(from: number, to: number, step: number): number[] {
  const count = Math.min(MOST_CLEARANCES, Math.floor((to - from) / step + 1e-9));
  return Array.from({ length: count + 1 }, (_, k) => from + k * step);
}

/** The study with arrangements added, each under a name and a letter of its own. */
export function withArrangements(
  document: StudyDocument,
  proposals: readonly StudyDocument["arrangements"][number][],
): StudyDocument {
  const names = new Set(document.arrangements.map(({ name }) => name));
  const all = [...document.arrangements];
  const added = proposals.map((proposal) => {
    let name = proposal.name;
    for (let n = 2; names.has(name); n++) name = `${proposal.name} (${n})`;
    names.add(name);
    const letter = newLetter(all);
    const made = { ...proposal, name, letter };
    all.push(made);
    return made;
  });
  return { ...document, arrangements: [...document.arrangements, ...added] };
}
