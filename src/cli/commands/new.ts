import {
  documentText,
  inFeet,
  type NewStudy,
  newStudy,
  TYPICAL_KITCHEN,
  TYPICAL_KITCHEN_FEET,
} from "../../app/new-study.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { formatLength } from "../../units/length-text.ts";
import { type Arguments, type Command, EXIT, flag, type Io, oneOf, oneValue } from "../command.ts";
import { writeWhole } from "../files/write.ts";
import { lengthOf, wholeBetween } from "../option-values.ts";
import { refuseToReplace } from "../replacing.ts";

export const create: Command = {
  name: "new",
  usage: "new FILE [options]",
  summary: "Writes a study to start from: your island, a typical pendant, every default written out.",
  arguments: [1, 1],
  options: {
    length: oneValue("LENGTH", 'of the island\'s top, e.g. "2.7 m" or "9\'" (default 2.4 m, or 8\')'),
    width: oneValue("LENGTH", "of the island's top (default 1.1 m, or 3'-6\")"),
    ceiling: oneValue("LENGTH", "height of the ceiling (default 2.6 m, or 8'-6\")"),
    pendants: oneValue("N", "how many, 1 to 12 (default one for each 0.8 m)"),
    seats: oneValue("N", "seats along the far side, 0 to 12 (default none)"),
    hob: flag("a hob in the island"),
    sink: flag("a sink in the island"),
    unit: oneOf(
      ["mm", "m", "ft-in"],
      "what texts and drawings show; with ft-in the file's lengths are feet and inches too",
      "mm",
    ),
    force: flag("overwrite FILE"),
  },
  details:
    "On a terminal, sizes that no option gives are asked for; elsewhere the typical kitchen stands in for them.\nThe pendant is a typical one, from flux and beam: replace it by a photometric file.",
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [path] = args.positionals;
  refuseToReplace(path, "FILE", args.flag("force"));
  const wanted = await sizes(args, io);
  const unit = args.text("unit") as "mm" | "m" | "ft-in";
  const inches = unit === "ft-in";
  const started = newStudy({
    ...wanted,
    hob: args.flag("hob"),
    sink: args.flag("sink"),
    display: { length: unit, illuminance: inches ? "fc" : "lx" },
  });
  const document = orThrow(started);
  orThrow(writeWhole(path, documentText(inches ? inFeet(document) : document)));
  for (const issue of started.ok ? started.warnings : []) io.err(`${printable(formatIssue(issue), 1000)}\n`);
  io.out(
    `${printable(path, 200)}: a study to start from. \`candlespan check ${printable(path, 200)}\` lights it.\n`,
  );
  return EXIT.met;
}

/** What options give; the rest is asked for where somebody can answer, or typical. */
async function sizes(args: Arguments, io: Io): Promise<NewStudy> {
  const { ask } = io;
  const given = async (name: string, question: string): Promise<string | undefined> => {
    const text = args.text(name);
    if (text !== undefined || ask === undefined) return text;
    const answer = (await ask(question)).trim();
    return answer === "" ? undefined : answer;
  };
  const unit = args.text("unit") as "mm" | "m" | "ft-in";
  const typical = unit === "ft-in" ? TYPICAL_KITCHEN_FEET : TYPICAL_KITCHEN;
  const enter = (metres: number): string => `Enter for ${formatLength(metres, unit === "mm" ? "m" : unit)}`;
  const length = await given(
    "length",
    `Length of the island's top ("2.4 m", "8'"; ${enter(typical.length)}): `,
  );
  const width = await given("width", `Its width (${enter(typical.width)}): `);
  const ceiling = await given("ceiling", `Height of the ceiling (${enter(typical.ceilingHeight)}): `);
  const pendants = await given("pendants", "How many pendants (Enter for one each 0.8 m): ");
  const seats = args.text("seats");
  const own = {
    length: length === undefined ? typical.length : lengthOf(length, "--length"),
    width: width === undefined ? typical.width : lengthOf(width, "--width"),
    ceilingHeight: ceiling === undefined ? typical.ceilingHeight : lengthOf(ceiling, "--ceiling"),
  };
  return {
    ...own,
    ...(pendants === undefined ? {} : { pendants: wholeBetween(pendants, "--pendants", 1, 12) }),
    ...(seats === undefined ? {} : { seats: wholeBetween(seats, "--seats", 0, 12) }),
  };
}
