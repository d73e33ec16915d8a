import { extname, resolve } from "node:path";
import { CandlespanError, orThrow } from "../../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../../diagnostics/file-limits.ts";
import { formatIssue, type Outcome, success } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { listed } from "../../diagnostics/sentence.ts";
import { LOAD_WRITER } from "../../photometry/format-modules.ts";
import { photometricFormats } from "../../photometry/format-names.ts";
import { formatNamed, PHOTOMETRIC_FORMATS } from "../../photometry/photometric-formats.ts";
import type { Photometry } from "../../photometry/photometry.ts";
import { readPhotometry } from "../../photometry/readers/read-photometry.ts";
import {
  ALLOW_OUTSIDE,
  type Arguments,
  type Command,
  EXIT,
  flag,
  type Io,
  oneOf,
  oneValue,
  usageError,
} from "../command.ts";
import { photometricRefusal } from "../files/photometric-refusal.ts";
import { reachOf, readWithin } from "../files/reach.ts";
import { readBytes } from "../files/read.ts";
import { writeWhole } from "../files/write.ts";
import { refuseToReplace } from "../replacing.ts";

const WRITTEN = PHOTOMETRIC_FORMATS.filter(({ name }) => LOAD_WRITER[name] !== undefined);

export const convert: Command = {
  name: "convert",
  usage: "convert IN OUT [options]",
  summary: "A photometric file in another format.",
  arguments: [2, 2],
  options: {
    edition: oneOf(["2002", "2019"], "edition of LM-63 to write", "2002"),
    "lamp-set": oneValue(
      "N",
      "which lamp set or emitter, from 0 (default: the first lamp set, all emitters)",
    ),
    force: flag("let OUT replace a file"),
    flux: oneValue("LM", "rated flux to read a relative file with"),
    ...ALLOW_OUTSIDE,
  },
  details: `Reads ${photometricFormats("and")}, told by their content. Writes by OUT's extension:
${listed(WRITTEN.map(({ name, endings: [ending] }) => `${ending} ${name}`))}.
The lengths of the luminous opening swap between LM-63 and EULUMDAT as the formats want it. What a format
cannot hold is said on standard error.`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [from, to] = args.positionals;
  if (resolve(from) === resolve(to))
    throw usageError("IN and OUT are the same file.", "another name for OUT", to);
  refuseToReplace(to, "OUT", args.flag("force"));
  const write = await writerFor(to, args);
  const bytes = orThrow(readBytes(from, FILE_LIMITS.photometricArchive));
  const name = from === "-" ? "standard input" : from;
  const read = readPhotometry(bytes, {
    file: name,
    lampSet: numberOption(args, "lamp-set"),
    flux: numberOption(args, "flux"),
    tilt: (tilt) => {
      const file = readWithin(
        reachOf(from, args.texts("allow-outside")),
        tilt,
        FILE_LIMITS.photometricArchive,
        {
          file: from,
        },
      );
      return file.ok ? success(file.value.bytes) : file;
    },
  });
  if (!read.ok) throw new CandlespanError(photometricRefusal(read.issues, bytes, name));
  const photometry = read.value;
  const written = write(photometry);
  const text = orThrow(written);
  orThrow(writeWhole(to, text));
  const warnings = [read, written].flatMap((outcome) => (outcome.ok ? outcome.warnings : []));
  for (const warning of warnings) io.err(`${printable(formatIssue(warning), 1000)}\n`);
  return EXIT.met;
}

async function writerFor(
  path: string,
  args: Arguments,
): Promise<(photometry: Photometry) => Outcome<string>> {
  const format = formatNamed(path);
  const load = format && LOAD_WRITER[format.name];
  if (load === undefined)
    throw usageError(
      "OUT has no extension of a format that can be written.",
      `one of ${WRITTEN.flatMap((row) => [...row.endings]).join(", ")}`,
      extname(path).toLowerCase() || path,
    );
  const write = await load();
  return (photometry) => write(photometry, { edition: args.text("edition") === "2019" ? "2019" : "2002" });
}

function numberOption(args: Arguments, name: string): number | undefined {
  const text = args.text(name);
  if (text === undefined) return undefined;
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value))
    throw usageError(`--${name} is no number.`, "a number", text);
  return value;
}
