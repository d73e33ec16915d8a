import { CandlespanError } from "../diagnostics/candlespan-error.ts";
import { formatIssue } from "../diagnostics/issue.ts";
import { VERSION } from "../diagnostics/version.ts";
import {
  EXIT,
  flowing,
  glossary,
  helpOf,
  helpWidth,
  type Io,
  parseArguments,
  usageError,
} from "./command.ts";
import { COMMANDS } from "./commands.ts";

/** Runs one command line (without the program's own name) and returns the exit code. Never throws. */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  try {
    return await dispatch(argv, io);
  } catch (error) {
    if (error instanceof CandlespanError) {
      for (const issue of error.issues) io.err(`${oneLine(formatIssue(issue))}\n`);
      return EXIT.badInput;
    }
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    io.err(`Internal fault: the program failed where it should not. Please report this.\n${text}\n`);
    return EXIT.fault;
  }
}

async function dispatch(argv: readonly string[], io: Io): Promise<number> {
  const [name, ...rest] = argv;
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    const command = rest.find((word) => !word.startsWith("-"));
    if (name !== undefined && command !== undefined) return dispatch([command, "--help"], io);
    (name === undefined ? io.err : io.out)(overview(helpWidth(io)));
    return name === undefined ? EXIT.badInput : EXIT.met;
  }
  if (name === "--version" || name === "-v") {
    io.out(`candlespan ${VERSION}\n`);
    return EXIT.met;
  }
  const entry = COMMANDS.find((candidate) => candidate.name === name);
  const names = COMMANDS.map((each) => each.name);
  if (entry === undefined) {
    const { didYouMean } = await import("../diagnostics/did-you-mean.ts");
    throw usageError(`There is no such command.${didYouMean(name, names)}`, names.join(", "), name);
  }
  const command = await entry.load();
  const end = rest.indexOf("--");
  if ((end < 0 ? rest : rest.slice(0, end)).some((word) => word === "--help" || word === "-h")) {
    io.out(helpOf(command, helpWidth(io)));
    return EXIT.met;
  }
  return command.run(parseArguments(command, rest), io);
}

function overview(width: number): string {
  const list = glossary(
    COMMANDS.map(({ name, summary }) => [name, summary] as const),
    width,
  );
  return `${flowing(
    `candlespan COMMAND [options]

Light on a kitchen island from pendants and recessed luminaires: computed point by point, judged against published
targets, with its uncertainty.

`,
    width,
  )}${list}

${flowing(
  `\`candlespan COMMAND --help\` explains one. A path of - is standard input.
Guide, pages that \`candlespan serve\` shows:
  guide/study-format.html (every key of a study, and how places are counted)
  guide/kitchen.html (one kitchen from study to papers)
  guide/accuracy.html (what figures are worth)

Exit code: 0 all verdicts meet, 1 something falls short, is too close to call or cannot hang, 2 bad input, 3 internal
fault.
`,
  width,
)}`;
}

/** Text from files may hold control characters; a terminal must not obey them. */
function oneLine(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g, "\u00b7");
}
