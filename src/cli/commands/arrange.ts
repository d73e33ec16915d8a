import { documentText } from "../../app/new-study.ts";
import { isMet } from "../../app/ranking.ts";
import { OBJECTIVES, type Objective, searchRows, withArrangements } from "../../app/search.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { printable } from "../../diagnostics/printable.ts";
import { arrangeJson, arrangeText } from "../../words/arrange-text.ts";
import { ALLOW_OUTSIDE, type Arguments, type Command, EXIT, flag, type Io, oneValue } from "../command.ts";
import { CONFIDENCE, confidenceOf } from "../confidence.ts";
import { writeWhole } from "../files/write.ts";
import { movedStudy } from "../moved-study.ts";
import { openGiven, openWithFolder } from "../open-study.ts";
import { listOf, wholeBetween } from "../option-values.ts";
import { progressOf } from "../progress.ts";
import { refuseToReplace } from "../replacing.ts";
import { ROW_OPTIONS, RULES_HELP, rowQuestion } from "../row-options.ts";

export const arrange: Command = {
  name: "arrange",
  usage: "arrange STUDY [options]",
  summary: "Searches rows of pendants and proposes the best few that differ in kind, with reasons.",
  arguments: [1, 1],
  options: {
    arrangement: oneValue("NAME", "start from this arrangement (default: the first)"),
    layer: oneValue("NAME", "the layer to search (default: the pendants)"),
    folder: oneValue("FOLDER", "try every photometric file in FOLDER, inside the study's"),
    ...ROW_OPTIONS,
    pairs: flag("try rows of two kinds in turn"),
    faces: flag("people must see each other's faces past the pendants"),
    heads: flag("no head may reach a pendant"),
    shielding: flag("no lamp may be in a person's eyes that should be shielded"),
    settings: flag("rows must serve every setting of the dimmers, at whatever levels take the least power"),
    best: {
      ...oneValue("LIST", `what counts, of ${OBJECTIVES.join(", ")} (default: all)`),
      names: OBJECTIVES,
    },
    show: oneValue("N", "how many to propose, 1 to 8", "4"),
    ...CONFIDENCE,
    out: oneValue("FILE", "write the study with the proposals added to it"),
    force: flag("let --out replace a file"),
    json: flag("one JSON object: metres, lux, watts"),
    ...ALLOW_OUTSIDE,
  },
  details: `Every proposal is checked in full, as \`check\` would, so its verdict is the one \`check\` gives. Exit code 0 when
every proposal meets every target as evenly as --evenness asks and everything in it can hang and be built as it is placed, else 1.
Rows hang about the island's middle, or as far from it as the "offset" of the row that is there; no pendant reaches beyond the top.
The written study opens from where it lies: paths are told from there, and what lies outside its folder is put inside.
${RULES_HELP}`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const wanted = wholeBetween(args.text("show") ?? "4", "--show", 1, 8);
  const objectives = listOf(args.text("best"), "--best", OBJECTIVES) as Objective[] | undefined;
  confidenceOf(args.text("confidence") ?? "");
  const folder = args.text("folder");
  const out = args.text("out");
  if (out !== undefined) refuseToReplace(out, "--out", args.flag("force"));
  const opened =
    folder === undefined
      ? { ...(await openGiven(args, io)), added: [] }
      : await openWithFolder(args, io, folder);
  const { study, document } = opened;
  const progress = progressOf(io, "", "lines");
  const options = {
    ...rowQuestion(args, opened, opened.added),
    faces: args.flag("faces"),
    heads: args.flag("heads"),
    shielding: args.flag("shielding"),
    settings: args.flag("settings"),
    ...(objectives === undefined ? {} : { objectives }),
    wanted,
  };
  const search = orThrow(await searchRows(opened, options, progress.observer));
  progress.done();
  const input = { study, ...search };
  io.out(args.flag("json") ? `${JSON.stringify(arrangeJson(input))}\n` : arrangeText(input));
  const { proposals } = search.result;
  if (out !== undefined && proposals.length === 0)
    io.err(`${printable(out, 200)}: not written, as nothing is proposed.\n`);
  else if (out !== undefined) {
    const added = withArrangements(
      document,
      proposals.map((proposal) => proposal.document),
    );
    const moved = orThrow(movedStudy(added, args, out));
    orThrow(writeWhole(out, documentText(moved)));
    io.err(`${printable(out, 200)}: written.\n`);
  }
  const all =
    proposals.length > 0 &&
    proposals.every(
      ({ assessment, uniformity, clashes }) =>
        isMet(assessment.verdict) && uniformity >= search.evenness && clashes.length === 0,
    );
  return all ? EXIT.met : EXIT.notMet;
}
