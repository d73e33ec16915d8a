import { boxPositions, builtBoxes } from "../../app/boxes.ts";
import type { OpenStudy } from "../../app/open-document.ts";
import { isMet } from "../../app/ranking.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../../diagnostics/file-limits.ts";
import { formatLength } from "../../units/length-text.ts";
import { asBuiltJson, asBuiltText, boxesJson, boxesText } from "../../words/boxes-text.ts";
import {
  ALLOW_OUTSIDE,
  type Arguments,
  type Command,
  EXIT,
  flag,
  type Io,
  oneValue,
  usageError,
} from "../command.ts";
import { CONFIDENCE, confidenceOf } from "../confidence.ts";
import { readUtf8 } from "../files/read.ts";
import { openGiven } from "../open-study.ts";
import { lengthOf } from "../option-values.ts";
import { progressOf } from "../progress.ts";
import { ROW_OPTIONS, RULES_HELP, rowQuestion } from "../row-options.ts";

export const boxes: Command = {
  name: "boxes",
  usage: "boxes STUDY [options]",
  summary:
    "Ceiling boxes good for any pendant of a shortlist, how far each may be off, the ceiling as built.",
  arguments: [1, 1],
  options: {
    arrangement: oneValue("NAME", "the arrangement (default: the first)"),
    layer: oneValue("NAME", "the layer of pendants (default: the first of them)"),
    error: oneValue("LENGTH", "how far a box may end up from its place", "25 mm"),
    ...ROW_OPTIONS,
    "as-built": oneValue(
      "FILE",
      "the real boxes, columns box, x, y, ceiling as on the set-out sheet, with their unit (1712 mm; without one, metres), or offsets: number, along, across, up; the new verdict and the cheapest remedy",
    ),
    ...CONFIDENCE,
    json: flag("one JSON object: metres, lux"),
    ...ALLOW_OUTSIDE,
  },
  details: `Positions are tried with every pendant of the shortlist, each at its best height, every box displaced at once in
its worst direction. Exit code 0 when the first set meets every target with all of them (with --as-built: when the
planned verdict stands and nothing new clashes or reaches beyond the top), else 1. Rows lie as for arrange.
${RULES_HELP}`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const confidence = confidenceOf(args.text("confidence") ?? "");
  const opened = await openGiven(args, io);
  const { study } = opened;
  const file = args.text("as-built");
  if (file !== undefined) return asBuilt(opened, file, confidence, args, io);
  const error = lengthOf(args.text("error") ?? "25 mm", "--error");
  if (error > 0.3)
    throw usageError(
      "--error is farther than any box is set out.",
      `at most ${formatLength(0.3, study.display.length)}`,
      args.text("error"),
    );
  const progress = progressOf(io, "", "lines");
  const question = { ...rowQuestion(args, opened), error };
  const boxes = orThrow(await boxPositions(opened, question, progress.observer));
  progress.done();
  const input = { study, ...boxes };
  io.out(args.flag("json") ? `${JSON.stringify(boxesJson(input))}\n` : boxesText(input));
  const { checked, kinds, sets } = boxes;
  const good =
    checked.length === kinds.length && checked.every(({ assessment }) => isMet(assessment.verdict));
  return good && sets[0]?.robust === true ? EXIT.met : EXIT.notMet;
}

async function asBuilt(
  opened: OpenStudy,
  file: string,
  confidence: number,
  args: Arguments,
  io: Io,
): Promise<number> {
  const progress = progressOf(io);
  const [arrangement, layer] = [args.text("arrangement"), args.text("layer")];
  const options = {
    confidence,
    ...(arrangement === undefined ? {} : { arrangement }),
    ...(layer === undefined ? {} : { layer }),
  };
  const offsets = { text: orThrow(readUtf8(file, FILE_LIMITS.offsets)), file };
  const boxes = orThrow(await builtBoxes(opened, options, offsets, progress.observer));
  progress.done();
  const { study } = opened;
  io.out(args.flag("json") ? `${JSON.stringify(asBuiltJson(study, boxes))}\n` : asBuiltText(study, boxes));
  const { worse, clashes, overhangs } = boxes;
  return worse || clashes.added.length > 0 || overhangs.length > 0 ? EXIT.notMet : EXIT.met;
}
