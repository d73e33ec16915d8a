import { substitution } from "../../design/substitution.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { nearestWord } from "../../diagnostics/nearest-word.ts";
import { printable } from "../../diagnostics/printable.ts";
import { swapJson, swapText } from "../../words/swap-text.ts";
import { ALLOW_OUTSIDE, type Arguments, type Command, EXIT, type Io, usageError } from "../command.ts";
import { CONFIDENCE, confidenceOf } from "../confidence.ts";
import { fullCheck } from "../judge-candidate.ts";
import { newEngines } from "../light-arrangements.ts";
import { loadStudy } from "../load-study.ts";
import { indexOfArrangement, indexOfLayer } from "../select-layer.ts";
import { VERSION } from "../version.ts";

export const swap: Command = {
  name: "swap",
  usage: "swap STUDY [LUMINAIRE] [options]",
  summary:
    "Another luminaire of the study in place of a layer's own: every verdict before and after, words for the order.",
  arguments: [1, 2],
  options: {
    arrangement: { type: "string", value: "NAME", description: "the arrangement (default: the first)" },
    layer: { type: "string", value: "NAME", description: "the layer (default: the pendants)" },
    light: {
      type: "string",
      value: "F",
      description:
        "instead of LUMINAIRE: another lamp or trim that leaves F of the light, e.g. 0.6 for a black baffle",
    },
    ...CONFIDENCE,
    json: { type: "boolean", description: "one JSON object: lux, watts" },
    ...ALLOW_OUTSIDE,
  },
  details: "Exit code 0 when the arrangement still meets every target with the substitute, else 1.",
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [path, named] = args.positionals;
  const confidence = confidenceOf(args.text("confidence") ?? "");
  const loaded = loadStudy(path, args.texts("allow-outside"));
  const { study, document } = loaded;
  const index = indexOfArrangement(study.scenes, args.text("arrangement"));
  const layer = indexOfLayer(study.scenes[index], args.text("layer"));
  const instead = insteadOf(named, args.text("light"));
  if (typeof instead === "string" && !study.luminaires.has(instead)) {
    const known = [...study.luminaires.keys()];
    const meant = nearestWord(instead, known);
    throw usageError(
      `The study has no such luminaire.${meant === undefined ? "" : ` Did you mean "${printable(meant, 60)}"?`}`,
      known.map((name) => printable(name, 60)).join(", "),
      printable(instead, 60),
    );
  }
  const check = fullCheck(loaded, { confidence }, newEngines(), io);
  const swapped = orThrow(
    substitution(document.arrangements[index], layer, study.luminaires, instead, check),
  );
  io.out(
    args.flag("json") ? `${JSON.stringify(swapJson(study, swapped, VERSION))}\n` : swapText(study, swapped),
  );
  const { verdict } = swapped.after.assessment;
  return verdict === "meets" || verdict === "no target" ? EXIT.met : EXIT.notMet;
}

function insteadOf(named: string | undefined, light: string | undefined): string | number {
  if ((named === undefined) === (light === undefined))
    throw usageError("There is no one substitute.", "a LUMINAIRE of the study, or --light F");
  if (named !== undefined) return named;
  const value = /^\s*\d(\.\d{1,6})?\s*$/.test(light ?? "") ? Number(light) : Number.NaN;
  if (value > 0 && value <= 5) return value;
  throw usageError("--light is not a share it can use.", "above 0, at most 5", printable(light ?? "", 40));
}
