import { checkJson, targetsJson } from "../../app/check-json.ts";
import { worstVerdict } from "../../assessment/verdict.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { checkText, targetsText } from "../../words/check-text.ts";
import {
  ALLOW_OUTSIDE,
  type Arguments,
  type Command,
  EXIT,
  type Io,
  type Option,
  usageError,
} from "../command.ts";
import { CONFIDENCE, confidenceOf } from "../confidence.ts";
import { lightArrangements } from "../light-arrangements.ts";
import { loadStudy } from "../load-study.ts";
import { VERSION } from "../version.ts";

/** What every command takes that calculates a study's light. */
export const LIGHT_OPTIONS: Readonly<Record<string, Option>> = {
  arrangement: { type: "string", value: "NAME", description: "this arrangement only" },
  quick: {
    type: "boolean",
    description: "a quick calculation; the result states its wider bound",
  },
  "with-people": { type: "boolean", description: "let the people of the study stand in the light" },
  ...ALLOW_OUTSIDE,
};

export const check: Command = {
  name: "check",
  usage: "check STUDY [options]",
  summary: "Light and verdict of every arrangement of a study, side by side, the evenest first.",
  arguments: [0, 1],
  options: {
    json: { type: "boolean", description: "one JSON object: metres, degrees, lux" },
    full: {
      type: "boolean",
      description: "all there is to say: every rule of thumb, each person's eyes and head, load, years, look",
    },
    fine: { type: "boolean", description: "with --json: the values on the fine grids too" },
    "fail-on": {
      type: "string",
      choices: ["never", "short", "close"],
      default: "close",
      description: "which verdict makes the exit code 1: falls short, or also too close to call",
    },
    confidence: {
      ...CONFIDENCE.confidence,
      description: "probability of reaching its target with which a zone is called met, 0.5 to 0.999",
    },
    targets: { type: "boolean", description: "list the published targets, their sources and conflicts" },
    ...LIGHT_OPTIONS,
  },
  details:
    "Exit code 0 when every zone meets its target, 1 when one falls short or is too close to call, over all\narrangements or the one named. A zone without a target asks nothing.",
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  if (args.flag("targets")) {
    io.out(args.flag("json") ? `${JSON.stringify(targetsJson(), null, 2)}\n` : targetsText());
    return EXIT.met;
  }
  const [path] = args.positionals;
  if (path === undefined)
    throw usageError("`check` was given nothing to work on.", "`candlespan check STUDY [options]`");
  if (args.flag("fine") && !args.flag("json"))
    throw usageError("--fine lists values, which only --json does.", "--json beside it");
  const { study } = loadStudy(path, args.texts("allow-outside"));
  for (const issue of study.warnings) io.err(`${printable(formatIssue(issue), 1000)}\n`);
  const arrangements = lightArrangements(
    study,
    {
      arrangement: args.text("arrangement"),
      quick: args.flag("quick"),
      people: args.flag("with-people"),
      findings: args.flag("full") || args.flag("json") ? "full" : "brief",
      confidence: confidenceOf(args.text("confidence") ?? ""),
    },
    io,
  );
  io.out(
    args.flag("json")
      ? `${JSON.stringify(checkJson(study, arrangements, { version: VERSION, fine: args.flag("fine") }))}\n`
      : checkText(study, arrangements, { full: args.flag("full") }),
  );
  const worst = worstVerdict(arrangements.map(({ assessment }) => assessment.verdict));
  const failOn = args.text("fail-on");
  const fails =
    (worst === "falls short" && failOn !== "never") || (worst === "too close to call" && failOn === "close");
  return fails ? EXIT.notMet : EXIT.met;
}
