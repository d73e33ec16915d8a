import { RULES } from "../../assessment/guidelines/cards.ts";
import { worstVerdict } from "../../assessment/verdict.ts";
import { OBJECTIVES, type Objective } from "../../design/search/pareto.ts";
import { searchArrangements } from "../../design/search/search.ts";
import { type SearchSpace, usualSpace } from "../../design/search/search-space.ts";
import { pendantShortlist } from "../../design/search/shortlist.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { nearestWord } from "../../diagnostics/nearest-word.ts";
import { printable } from "../../diagnostics/printable.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { arrangeJson, arrangeText } from "../../presentation/report/arrange-text.ts";
import type { Scene } from "../../scene/scene.ts";
import type { StudyDocument } from "../../scene/study.ts";
import { readLength } from "../../units/length-text.ts";
import { ALLOW_OUTSIDE, type Arguments, type Command, EXIT, type Io, usageError } from "../command.ts";
import { writeWhole } from "../files.ts";
import { fullCheck } from "../full-check.ts";
import { newEngines, progressOf } from "../light-arrangements.ts";
import { type LoadedStudy, loadStudy } from "../load-study.ts";
import { withFolder } from "../shortlist-folder.ts";
import { VERSION } from "../version.ts";
import { confidenceOf } from "./check.ts";

export const arrange: Command = {
  name: "arrange",
  usage: "arrange STUDY [options]",
  summary: "Searches rows of pendants and proposes the best few that differ in kind, with reasons.",
  arguments: [1, 1],
  options: {
    arrangement: {
      type: "string",
      value: "NAME",
      description: "start from this arrangement (default: the first)",
    },
    layer: { type: "string", value: "NAME", description: "the layer to search (default: the pendants)" },
    luminaires: { type: "string", value: "NAMES", description: "the shortlist, separated by commas" },
    folder: {
      type: "string",
      value: "FOLDER",
      description: "try every photometric file in FOLDER, inside the study's",
    },
    count: { type: "string", value: "A..B", description: "how many pendants (default 1..6)" },
    clearance: {
      type: "string",
      value: "A..B",
      description: 'lowest point above the top, e.g. "750 mm..900 mm"',
    },
    gap: {
      type: "string",
      value: "LENGTH",
      description: "least free distance between rims (default 100 mm)",
    },
    end: {
      type: "string",
      value: "LENGTH",
      description: "least free distance from rim to end of the top (default 150 mm)",
    },
    across: {
      type: "string",
      value: "LENGTH",
      description: "let the row move so far off the island's centreline",
    },
    along: { type: "string", value: "LENGTH", description: "let the row move so far along the island" },
    pairs: { type: "boolean", description: "try rows of two kinds in turn" },
    rules: {
      type: "string",
      value: "IDS",
      description: "guideline cards that must agree, separated by commas",
    },
    faces: { type: "boolean", description: "people must see each other's faces past the pendants" },
    heads: { type: "boolean", description: "no head may reach a pendant" },
    shielding: { type: "boolean", description: "no lamp may be in a person's eyes that should be shielded" },
    best: {
      type: "string",
      value: "LIST",
      description: `what counts, of ${OBJECTIVES.join(", ")} (default: all)`,
    },
    show: { type: "string", value: "N", default: "4", description: "how many to propose, 1 to 8" },
    confidence: {
      type: "string",
      value: "P",
      default: "0.9",
      description: "probability of reaching a target that counts as met",
    },
    out: { type: "string", value: "FILE", description: "write the study with the proposals added to it" },
    json: { type: "boolean", description: "one JSON object: metres, lux, watts" },
    ...ALLOW_OUTSIDE,
  },
  details: `Every proposal is checked in full, as \`check\` would, so its verdict is the one \`check\` gives. Exit code 0 when
something meets every target, 1 when nothing does.`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [path] = args.positionals;
  const confidence = confidenceOf(args.text("confidence") ?? "");
  const wanted = wholeBetween(args.text("show") ?? "4", "--show", 1, 8);
  const objectives = listOf(args.text("best"), "--best", OBJECTIVES) as Objective[] | undefined;
  const rules =
    listOf(
      args.text("rules"),
      "--rules",
      RULES.map(({ id }) => id),
    ) ?? [];
  const allowed = args.texts("allow-outside");
  const folder = args.text("folder");
  const { loaded, added } =
    folder === undefined
      ? { loaded: loadStudy(path, allowed), added: [] }
      : withFolder(path, folder, allowed, (words) => io.err(`${words}\n`));
  const { study, document } = loaded;
  const index = indexOfArrangement(study.scenes, args.text("arrangement"));
  const scene = study.scenes[index];
  const layer = indexOfLayer(scene, args.text("layer"));
  const kinds = shortlist(loaded, args.text("luminaires"), added);
  const space = spaceOf(args, scene, study.display.length);
  const engines = newEngines();
  const check = fullCheck(loaded, { confidence }, engines, { ...io, interactive: false });
  const progress = progressOf(io, "");
  const result = orThrow(
    searchArrangements(
      {
        study,
        scene,
        base: document.arrangements[index],
        layer,
        kinds,
        check,
        calculate: (...asked) => engines.light.calculate(...asked),
        space,
        constraints: {
          rules,
          faces: args.flag("faces"),
          heads: args.flag("heads"),
          shielding: args.flag("shielding"),
        },
        ...(objectives === undefined ? {} : { objectives }),
        wanted,
        confidence,
      },
      { progress: progress.report },
    ),
  );
  progress.done();
  const input = { study, result, step: space.step };
  io.out(args.flag("json") ? `${JSON.stringify(arrangeJson(input, VERSION))}\n` : arrangeText(input));
  const out = args.text("out");
  if (out !== undefined)
    orThrow(
      writeWhole(
        out,
        studyWith(
          document,
          result.proposals.map((p) => p.document),
        ),
      ),
    );
  const best = result.proposals.map(({ assessment }) => assessment.verdict);
  const met = best.length > 0 && ["meets", "no target"].includes(worstVerdict(best));
  return met ? EXIT.met : EXIT.notMet;
}

/** The study with arrangements added, each under a name of its own. */
function studyWith(
  document: StudyDocument,
  proposals: readonly StudyDocument["arrangements"][number][],
): string {
  const names = new Set(document.arrangements.map(({ name }) => name));
  const added = proposals.map((proposal) => {
    let name = proposal.name;
    for (let n = 2; names.has(name); n++) name = `${proposal.name} (${n})`;
    names.add(name);
    return { ...proposal, name };
  });
  return `${JSON.stringify({ ...document, arrangements: [...document.arrangements, ...added] }, null, 2)}\n`;
}

export function indexOfArrangement(scenes: readonly Scene[], name: string | undefined): number {
  if (name === undefined) return 0;
  const index = scenes.findIndex((scene) => scene.name === name);
  if (index >= 0) return index;
  throw usageError(
    "The study has no arrangement of that name.",
    scenes.map((scene) => JSON.stringify(scene.name)).join(", "),
    JSON.stringify(name),
  );
}

export function indexOfLayer({ layers }: Scene, name: string | undefined): number {
  const index =
    name === undefined
      ? layers.findIndex(({ role }) => role === "pendant")
      : layers.findIndex((layer) => layer.name === name);
  if (index >= 0) return index;
  throw usageError(
    name === undefined ? "The arrangement has no layer of pendants." : "There is no such layer.",
    layers.map((layer) => JSON.stringify(layer.name)).join(", ") || "a layer",
    name === undefined ? undefined : JSON.stringify(name),
  );
}

/** The luminaires named; else those a folder brought; else all that hang as pendants somewhere in the study, and those
 * that hang nowhere. */
export function shortlist(
  { study, document }: LoadedStudy,
  names: string | undefined,
  added: readonly string[],
): Luminaire[] {
  const known = [...study.luminaires.keys()];
  const listed = listOf(names, "--luminaires", known);
  const chosen = listed ?? (added.length > 0 ? added : pendantShortlist(document, study.scenes));
  return chosen.flatMap((name) => study.luminaires.get(name) ?? []);
}

export function spaceOf(args: Arguments, scene: Scene, unit: "mm" | "m" | "ft-in"): SearchSpace {
  const usual = usualSpace(scene.room, unit, scene.island);
  const { step } = usual;
  const [least, most] = rangeOf(args.text("count"), "--count", (text) =>
    wholeBetween(text, "--count", 1, 40),
  ) ?? [1, 6];
  const clear = rangeOf(args.text("clearance"), "--clearance", (text) => lengthOf(text, "--clearance"));
  const shifts = (name: string, usually: readonly number[]): readonly number[] => {
    const text = args.text(name);
    if (text === undefined) return usually;
    const reach = Math.floor(lengthOf(text, `--${name}`) / (2 * step) + 1e-9);
    if (reach > 40) throw usageError(`--${name} is farther than it looks.`, "at most 2 m (80 in)");
    return [0, ...Array.from({ length: reach }, (_, k) => [2 * (k + 1) * step, -2 * (k + 1) * step]).flat()];
  };
  return {
    ...usual,
    counts: Array.from({ length: most - least + 1 }, (_, k) => least + k),
    clearances: clear === undefined ? usual.clearances : steps(clear[0], clear[1], 2 * step),
    leastGap: args.text("gap") === undefined ? usual.leastGap : lengthOf(args.text("gap") ?? "", "--gap"),
    leastEnd: args.text("end") === undefined ? usual.leastEnd : lengthOf(args.text("end") ?? "", "--end"),
    along: shifts("along", usual.along),
    across: shifts("across", usual.across),
    pairs: args.flag("pairs"),
  };
}

function steps(from: number, to: number, step: number): number[] {
  const count = Math.min(60, Math.floor((to - from) / step + 1e-9));
  return Array.from({ length: count + 1 }, (_, k) => from + k * step);
}

function rangeOf<T>(text: string | undefined, name: string, read: (text: string) => T): [T, T] | undefined {
  if (text === undefined) return undefined;
  const [from, to = from, ...more] = text.split("..");
  const [low, high] = [read(from), read(to)];
  if (more.length > 0 || low > high)
    throw usageError(`${name} is no range.`, "A..B, the lesser first", printable(text));
  return [low, high];
}

export function lengthOf(text: string, name: string): number {
  const bare = /^\s*\d+(\.\d+)?\s*$/.test(text)
    ? { ok: true as const, metres: Number(text) }
    : readLength(text);
  if (bare.ok && bare.metres >= 0 && bare.metres <= 10) return bare.metres;
  throw usageError(
    `${name} is not a length it can use.`,
    'metres, or a unit: "850 mm", "36 in"',
    printable(text),
  );
}

function wholeBetween(text: string, name: string, least: number, most: number): number {
  const value = /^\s*\d{1,3}\s*$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw usageError(`${name} is not a number it can use.`, `${least} to ${most}`, printable(text, 40));
}

function listOf(text: string | undefined, name: string, known: readonly string[]): string[] | undefined {
  if (text === undefined) return undefined;
  const words = text.split(",").map((word) => word.trim());
  for (const word of words) {
    if (known.includes(word)) continue;
    const meant = nearestWord(word, known);
    throw usageError(
      `${name} names something unknown.${meant === undefined ? "" : ` Did you mean "${meant}"?`}`,
      known.map((each) => printable(each, 60)).join(", "),
      printable(word, 60),
    );
  }
  return [...new Set(words)];
}
