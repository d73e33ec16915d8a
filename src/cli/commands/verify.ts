import { verifyReadings } from "../../app/verify.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../../diagnostics/file-limits.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { verifyJson, verifyText } from "../../words/verify-text.ts";
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
import { progressOf } from "../progress.ts";

export const verify: Command = {
  name: "verify",
  usage: "verify STUDY READINGS [options]",
  summary: "Site readings against the prediction: whether they agree, what explains it, what is wrong.",
  arguments: [2, 2],
  options: {
    arrangement: oneValue("NAME", "the arrangement that was built (default: the first)"),
    meter: oneValue(
      "CLASS",
      "how far off the meter may be, in percent (3, 5, 10 …), or phone: ratios alone",
      "5",
    ),
    maintenance: oneValue(
      "F",
      "what age and dirt have left of the light: 1, new and clean; 0.1 to 1; or aged, as in the study",
      "1",
    ),
    ...CONFIDENCE,
    json: flag("one JSON object: metres, lux"),
    ...ALLOW_OUTSIDE,
  },
  details: `READINGS is comma-separated text whose first line names its columns: "along" and "across" (from the island's
corner of least x and y) or "x" and "y" (room), perhaps "z"; "lx" or "fc"; perhaps "lit": layers joined by +, each perhaps
dimmed (pendants@0.5+ambient), "all" or "none". Read at night; with one layer lit at a time far more can be told.
Readings of new lamps are held against new light; papers and \`check\` state aged light: --maintenance aged for that.
Where they agree, it says how large a fault would have had to be to show at these places with this meter.
Exit code 0 when the readings, all together, are what was predicted (chi-squared at 1 %) and nothing is wrong, else 1.`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [path, file] = args.positionals;
  if (path === "-" && file === "-")
    throw usageError("Only one of the two can be standard input.", "a file for the other");
  const arrangement = args.text("arrangement");
  const options = {
    meter: meterOf(args.text("meter") ?? "5"),
    maintenance: maintenanceOf(args.text("maintenance") ?? "1"),
    confidence: confidenceOf(args.text("confidence") ?? ""),
    ...(arrangement === undefined ? {} : { arrangement }),
  };
  const opened = await openGiven(args, io);
  const readings = orThrow(readUtf8(file, FILE_LIMITS.readings));
  const progress = progressOf(io);
  const name = file === "-" ? "standard input" : file;
  const outcome = await verifyReadings(opened, { ...options, readings, file: name }, progress.observer);
  const verification = orThrow(outcome);
  progress.done();
  if (outcome.ok) for (const issue of outcome.warnings) io.err(`${printable(formatIssue(issue), 1000)}\n`);
  const input = { study: opened.study, ...verification };
  io.out(args.flag("json") ? `${JSON.stringify(verifyJson(input))}\n` : verifyText(input));
  return verification.verification.sound ? EXIT.met : EXIT.notMet;
}

function meterOf(text: string): number | "phone" {
  return text.trim() === "phone" ? "phone" : numberOf(text.replace(/\s*%$/, ""), "--meter", 0.5, 30) / 100;
}

function maintenanceOf(text: string): number | "aged" {
  if (text.trim() === "aged") return "aged";
  return text.trim() === "new" ? 1 : numberOf(text, "--maintenance", 0.1, 1);
}

function numberOf(text: string, name: string, least: number, most: number): number {
  const value = /^\s*\d{1,3}(\.\d{1,6})?\s*$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw usageError(`${name} is not a number it can use.`, `${least} to ${most}`, printable(text, 40));
}
