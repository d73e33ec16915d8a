/** `shade STUDY --compare`: one shade as clear, frosted, opal and solid, in its place in the study. */

import { compareShades, type ShadeComparison } from "../app/shades.ts";
import { orThrow } from "../diagnostics/candlespan-error.ts";
import { shadeComparisonText } from "../words/shade-comparison-text.ts";
import { type Arguments, EXIT, type Io } from "./command.ts";
import { openGiven } from "./open-study.ts";
import { progressOf } from "./progress.ts";

/** What `shade STUDY --compare --json` prints. */
export interface ShadeComparisonJson extends Omit<ShadeComparison, "scene" | "layer"> {
  readonly arrangement: string;
  readonly layer: string;
}

export async function compare(args: Arguments, io: Io): Promise<number> {
  const opened = await openGiven(args, io);
  const [arrangement, luminaire] = [args.text("arrangement"), args.text("luminaire")];
  const progress = progressOf(io);
  const options = {
    ...(arrangement === undefined ? {} : { arrangement }),
    ...(luminaire === undefined ? {} : { luminaire }),
  };
  const {
    scene,
    layer,
    luminaire: name,
    variants,
  } = orThrow(await compareShades(opened, options, progress.observer));
  progress.done();
  const facts: ShadeComparisonJson = {
    arrangement: scene.name,
    layer: scene.layers[layer].name,
    luminaire: name,
    variants,
  };
  io.out(
    args.flag("json")
      ? `${JSON.stringify(facts, null, 2)}\n`
      : shadeComparisonText(opened.study, scene, name, variants),
  );
  return EXIT.met;
}
