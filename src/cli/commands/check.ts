import { worstVerdict } from "../../app/ranking.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { checkJson, clashWarnings } from "../../words/check-json.ts";
import { checkText } from "../../words/check-text.ts";
import { targetsJson, targetsText } from "../../words/targets-text.ts";
import { type Arguments, type Command, EXIT, flag, type Io, oneOf, usageError } from "../command.ts";
import { CONFIDENCE, confidenceOf } from "../confidence.ts";
import { LIGHT_OPTIONS, lightOf } from "../light-options.ts";
import { openGiven } from "../open-study.ts";

export const check: Command = {
  name: "check",
  usage: "check STUDY [options]",
  summary: "Light and verdict of every arrangement of a study, side by side, the best first.",
  arguments: [0, 1],
  options: {
    json: flag("one JSON object: metres, degrees, lux"),
    full: flag("all there is to say: every rule of thumb, each person's eyes and head, load, years, look"),
    fine: flag("with --json: the values on the fine grids too"),
    "fail-on": oneOf(
      ["never", "short", "close"],
      "which verdict makes the exit code 1: falls short, or also too close to call",
      "close",
    ),
    confidence: {
      ...CONFIDENCE.confidence,
      description: "probability of reaching its target with which a zone is called met, 0.5 to 0.999",
    },
    targets: flag("list the published targets, their sources and conflicts"),
    ...LIGHT_OPTIONS,
  },
  details:
    "Best first: by verdict, then by how far a target is missed, then what can be built as it is placed, then by evenness.\nExit code 0 when every zone meets its target, 1 when one falls short or is too close to call, over all\narrangements or the one named; also 1 where something cannot hang or be built as it is placed. A zone without a target asks nothing.",
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  if (args.flag("targets")) {
    io.out(args.flag("json") ? `${JSON.stringify(targetsJson(), null, 2)}\n` : targetsText());
    return EXIT.met;
  }
  if (args.positionals[0] === undefined)
    throw usageError("`check` was given nothing to work on.", "`candlespan check STUDY [options]`");
  if (args.flag("fine") && !args.flag("json"))
    throw usageError("--fine lists values, which only --json does.", "--json beside it");
  const opened = await openGiven(args, io);
  const findings = args.flag("full") || args.flag("json") ? "full" : "brief";
  const confidence = confidenceOf(args.text("confidence") ?? "");
  const arrangements = await lightOf(opened, args.text("arrangement"), args, io, {
    findings,
    confidence,
    ownLevels: args.flag("json"),
    inWords: !args.flag("json"),
  });
  const { study } = opened;
  // The text has them as HOLD.
  for (const issue of args.flag("json") ? clashWarnings(study, arrangements) : [])
    io.err(`${printable(formatIssue(issue), 1000)}\n`);
  io.out(
    args.flag("json")
      ? `${JSON.stringify(checkJson(study, arrangements, args.flag("fine")))}\n`
      : checkText(study, arrangements, { full: args.flag("full") }),
  );
  const worst = worstVerdict(arrangements.map(({ assessment }) => assessment.verdict));
  const failOn = args.text("fail-on");
  const clashing = arrangements.some(({ clashes }) => clashes.length > 0);
  const fails =
    (clashing && failOn !== "never") ||
    (worst === "falls short" && failOn !== "never") ||
    (worst === "too close to call" && failOn === "close");
  return fails ? EXIT.notMet : EXIT.met;
}
