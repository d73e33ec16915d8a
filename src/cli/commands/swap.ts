import { isMet } from "../../app/ranking.ts";
import { swapLuminaire } from "../../app/swap.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { printable } from "../../diagnostics/printable.ts";
import { swapJson, swapText } from "../../words/swap-text.ts";
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
import { openGiven } from "../open-study.ts";

export const swap: Command = {
  name: "swap",
  usage: "swap STUDY [LUMINAIRE] [options]",
  summary:
    "Another luminaire of the study in place of a layer's own: every verdict before and after, words for the order.",
  arguments: [1, 2],
  options: {
    arrangement: oneValue("NAME", "the arrangement (default: the first)"),
    layer: oneValue("NAME", "the layer (default: the pendants)"),
    light: oneValue(
      "F",
      "instead of LUMINAIRE: another lamp or trim that leaves F of the light, e.g. 0.6 for a black baffle",
    ),
    ...CONFIDENCE,
    json: flag("one JSON object: lux, watts"),
    ...ALLOW_OUTSIDE,
  },
  details:
    "Exit code 0 when the arrangement still meets every target with the substitute and everything in it can hang\nand be built as it is placed, else 1.",
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const confidence = confidenceOf(args.text("confidence") ?? "");
  const instead = insteadOf(args.positionals[1], args.text("light"));
  const [arrangement, layer] = [args.text("arrangement"), args.text("layer")];
  const options = {
    instead,
    confidence,
    ...(arrangement === undefined ? {} : { arrangement }),
    ...(layer === undefined ? {} : { layer }),
  };
  const opened = await openGiven(args, io);
  const { study } = opened;
  const swapped = orThrow(await swapLuminaire(opened, options));
  io.out(args.flag("json") ? `${JSON.stringify(swapJson(study, swapped))}\n` : swapText(study, swapped));
  const { after, setting, dimmer } = swapped;
  const hangs = after.clashes.length === 0 && setting.length === 0 && dimmer === undefined;
  return isMet(after.assessment.verdict) && hangs ? EXIT.met : EXIT.notMet;
}

function insteadOf(named: string | undefined, light: string | undefined): string | number {
  if ((named === undefined) === (light === undefined))
    throw usageError("There is no one substitute.", "a LUMINAIRE of the study, or --light F");
  if (named !== undefined) return named;
  const value = /^\s*\d(\.\d{1,6})?\s*$/.test(light ?? "") ? Number(light) : Number.NaN;
  if (value > 0 && value <= 5) return value;
  throw usageError("--light is not a share it can use.", "above 0, at most 5", printable(light ?? "", 40));
}
