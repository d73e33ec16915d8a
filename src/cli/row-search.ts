/** What the commands that search rows share: the options that span the space of rows, and the shortlist. */

import { type SearchSpace, usualSpace } from "../design/search/search-space.ts";
import { pendantShortlist } from "../design/search/shortlist.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { Scene } from "../scene/scene.ts";
import { type Arguments, type Command, usageError } from "./command.ts";
import type { LoadedStudy } from "./load-study.ts";
import { lengthOf, listOf, rangeOf, wholeBetween } from "./option-values.ts";

/** Read by {@link spaceOf} and {@link shortlist}. */
export const ROW_OPTIONS = {
  luminaires: { type: "string", value: "NAMES", description: "the shortlist, separated by commas" },
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
} as const satisfies Command["options"];

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
