import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { isoluxSheet } from "../../papers/isolux-sheet.ts";
import { type Arguments, type Command, EXIT, type Io } from "../command.ts";
import { writeWhole } from "../files.ts";
import { lightArrangements } from "../light-arrangements.ts";
import { loadStudy } from "../load-study.ts";
import { LIGHT_OPTIONS } from "./check.ts";

export const isolux: Command = {
  name: "isolux",
  usage: "isolux STUDY [options]",
  summary:
    "The plan of the island with its isolux lines, as SVG: all arrangements on one sheet and one scale.",
  arguments: [1, 1],
  options: {
    out: { type: "string", value: "FILE", description: "where to write (default: standard output)" },
    ...LIGHT_OPTIONS,
  },
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const { study } = loadStudy(args.positionals[0], args.texts("allow-outside"));
  for (const issue of study.warnings) io.err(`${printable(formatIssue(issue), 1000)}\n`);
  const arrangements = lightArrangements(
    study,
    { arrangement: args.text("arrangement"), quick: args.flag("quick"), people: args.flag("with-people") },
    io,
  );
  const svg = isoluxSheet(study, arrangements);
  const out = args.text("out");
  if (out === undefined || out === "-") io.out(svg);
  else orThrow(writeWhole(out, svg));
  return EXIT.met;
}
