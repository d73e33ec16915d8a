/** The options by which commands that search rows say what to try. */

import type { OpenStudy } from "../app/open-document.ts";
import { LEAST_EVENNESS, type RowQuestion, RULE_IDS } from "../app/search.ts";
import { printable } from "../diagnostics/printable.ts";
import { type Arguments, type Command, oneValue, usageError } from "./command.ts";
import { confidenceOf } from "./confidence.ts";
import { lengthOf, listOf, rangeOf, wholeBetween } from "./option-values.ts";

/** Read by {@link rowQuestion}. */
export const ROW_OPTIONS = {
  luminaires: oneValue("NAMES", "the shortlist, separated by commas"),
  count: oneValue("A..B", "how many pendants (default 1..6)"),
  clearance: oneValue(
    "A..B",
    'lowest point above the top (default "30 in..36 in", 750 to 900 mm, and that of the study)',
  ),
  gap: oneValue("LENGTH", "least free distance between rims (default 100 mm)"),
  end: oneValue("LENGTH", "least free distance from rim to end of the top (default 150 mm)"),
  across: oneValue("LENGTH", "let the row move so far across the island (default 0)"),
  along: oneValue(
    "LENGTH",
    "let the row move so far along the island (default 0; off joists all of it moves alike)",
  ),
  evenness: oneValue(
    "E",
    "least evenness of the whole top, minimum to average, 0 to 0.9; 0 takes any",
    String(LEAST_EVENNESS),
  ),
  rules: {
    ...oneValue("IDS", "guideline cards that must agree, separated by commas; listed above"),
    names: RULE_IDS,
  },
} as const satisfies Command["options"];

/** Farthest a row may be let move (m). */
const FARTHEST = 2;

/** @param added names tried where none are given */
export function rowQuestion(
  args: Arguments,
  { study }: OpenStudy,
  added: readonly string[] = [],
): RowQuestion {
  const count = rangeOf(args.text("count"), "--count", (part, typed) =>
    wholeBetween(part, "--count", 1, 40, typed),
  );
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
    evenness: evennessOf(args.text("evenness") ?? String(LEAST_EVENNESS)),
    rules: listOf(args.text("rules"), "--rules", RULE_IDS) ?? [],
  };
  for (const name of ["along", "across"] as const)
    if ((question[name] ?? 0) > FARTHEST)
      throw usageError(`--${name} is farther than it looks.`, "at most 2 m (80 in)", args.text(name));
  const named = listOf(args.text("luminaires"), "--luminaires", [...study.luminaires.keys()]);
  const luminaires = named ?? (added.length > 0 ? added : undefined);
  return luminaires === undefined ? question : { ...question, luminaires };
}

function evennessOf(text: string): number {
  const value =
    /^\s*0?(\.\d{1,4})?\s*$|^\s*0\s*$/.test(text) && text.trim() !== "" ? Number(text) : Number.NaN;
  if (value >= 0 && value <= 0.9) return value;
  throw usageError("--evenness is not a share it can use.", "0 to 0.9", printable(text, 40));
}

/** The guideline cards by their identifiers, for the help of commands. */
export const RULES_HELP = `--rules takes: ${RULE_IDS.join(", ")}.`;

function text(name: "arrangement" | "layer", args: Arguments): object {
  const value = args.text(name);
  return value === undefined ? {} : { [name]: value };
}
