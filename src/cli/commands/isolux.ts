import { orThrow } from "../../diagnostics/candlespan-error.ts";
import { ISOLUX_MARK, isoluxSheet } from "../../papers/isolux-sheet.ts";
import { type Arguments, type Command, EXIT, flag, type Io, oneValue } from "../command.ts";
import { writeWhole } from "../files/write.ts";
import { LIGHT_OPTIONS, lightOf } from "../light-options.ts";
import { openGiven } from "../open-study.ts";
import { FORCE, refuseToReplace } from "../replacing.ts";

export const isolux: Command = {
  name: "isolux",
  usage: "isolux STUDY [options]",
  summary:
    "The plan of the island with its isolux lines, as SVG: all arrangements on one sheet and one scale.",
  arguments: [1, 1],
  options: {
    out: oneValue("FILE", "where to write (default: standard output)"),
    values: flag("a second plan with the light at the points that are judged, as numbers"),
    ...LIGHT_OPTIONS,
    ...FORCE,
  },
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const out = args.text("out");
  if (out !== undefined && out !== "-") refuseToReplace(out, "--out", args.flag("force"), ISOLUX_MARK);
  const opened = await openGiven(args, io);
  const svg = isoluxSheet(opened.study, await lightOf(opened, args.text("arrangement"), args, io), {
    values: args.flag("values"),
  });
  if (out === undefined || out === "-") io.out(svg);
  else orThrow(writeWhole(out, svg));
  return EXIT.met;
}
