/** The options by which commands that search rows say what to try. */

import type { OpenStudy } from "../app/open-document.ts";
import type { RowQuestion } from "../app/search.ts";
import { type Arguments, type Command, usageError } from "./command.ts";
import { confidenceOf } from "./confidence.ts";
import { lengthOf, listOf, rangeOf, wholeBetween } from "./option-values.ts";

/** Read by {@link rowQuestion}. */
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

/** Farthest a row may be let move (m). */
const FARTHEST = 2;

/** @param added names tried where none are given */
export function rowQuestion(
  args: Arguments,
  { study }: OpenStudy,
  added: readonly string[] = [],
): RowQuestion {
  const count = rangeOf(args.text("count"), "--count", (text) => wholeBetween(text, "--count", 1, 40));
  const clearance = rangeOf(args.text("clearance"), "--clearance", (text) => lengthOf(text, "--clearance"));
  const length = (name: "gap" | "end" | "along" | "across"): object => {
    const text = args.text(name);
    return text === undefined ? {} : { [name]: lengthOf(text, `--${name}`) };
  };
  const question: RowQuestion = {
    ...text("arrangement", args),
    ...text("layer", args),
    confidence: confidenceOf(args.text("confidence") ?? ""),
    ...(count === undefined
      ? {}
      : { counts: Array.from({ length: count[1] - count[0] + 1 }, (_, k) => count[0] + k) }),
    ...(clearance === undefined ? {} : { clearances: { from: clearance[0], to: clearance[1] } }),
    ...length("gap"),
    ...length("end"),
    ...length("along"),
    ...length("across"),
    pairs: args.flag("pairs"),
  };
  for (const name of ["along", "across"] as const)
    if ((question[name] ?? 0) > FARTHEST)
      throw usageError(`--${name} is farther than it looks.`, "at most 2 m (80 in)");
  const named = listOf(args.text("luminaires"), "--luminaires", [...study.luminaires.keys()]);
  const luminaires = named ?? (added.length > 0 ? added : undefined);
  return luminaires === undefined ? question : { ...question, luminaires };
}

function text(name: "arrangement" | "layer", args: Arguments): object {
  const value = args.text(name);
  return value === undefined ? {} : { [name]: value };
}
