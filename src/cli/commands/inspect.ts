import { basename, extname, join } from "node:path";
import { FILE_LIMITS } from "../../diagnostics/file-limits.ts";
import { failure, formatIssue, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import type { Photometry } from "../../photometry/photometry.ts";
import { readerFor } from "../../photometry/readers/reader-for.ts";
import { intensityAt } from "../../photometry/reference-lookup.ts";
import { type PhotometrySummary, summarise } from "../../photometry/summary.ts";
import type { LengthUnit } from "../../units/length-text.ts";
import { radians } from "../../units/quantities.ts";
import { type IntensityQuery, photometryText } from "../../words/photometry-text.ts";
import {
  ALLOW_OUTSIDE,
  type Arguments,
  type Command,
  EXIT,
  flag,
  type Io,
  manyValues,
  oneOf,
  oneValue,
  usageError,
} from "../command.ts";
import { photometricRefusal } from "../files/photometric-refusal.ts";
import { reachOf, readWithin } from "../files/reach.ts";
import { readBytes } from "../files/read.ts";
import { writeWhole } from "../files/write.ts";
import { FORCE, refuseToReplace } from "../replacing.ts";

export const inspect: Command = {
  name: "inspect",
  usage: "inspect FILE… [options]",
  summary: "What photometric files hold: format, symmetry, flux, beam, opening, and what is odd about them.",
  arguments: [1, 100_000],
  options: {
    json: flag("one JSON array, an object a file"),
    at: manyValues("C,γ", "the intensity at C and γ in degrees; repeatable"),
    svg: flag("draw each file's polar diagram"),
    out: oneValue("PATH", "where --svg writes: a .svg file or - for one file, else a folder (default .)"),
    unit: oneOf(["mm", "ft-in"], "of the opening's lengths; JSON is metres", "mm"),
    ...FORCE,
    "lamp-set": oneValue(
      "N",
      "which lamp set or emitter of the file, from 0 (default: the first lamp set, all emitters)",
    ),
    ...ALLOW_OUTSIDE,
  },
  details:
    "One bad file does not stop the rest; the exit code is then 2 at the end.\nA diagram is named after its file; a last argument ending in .svg is taken as --svg --out, for one file.",
  run,
};

interface Inspected {
  readonly file: string;
  readonly photometry: Photometry;
  readonly summary: PhotometrySummary;
  readonly intensity: readonly IntensityQuery[];
}

async function run(args: Arguments, io: Io): Promise<number> {
  const directions = args.texts("at").map(direction);
  const lampSetText = args.text("lamp-set");
  const lampSet = lampSetText === undefined ? undefined : wholeNumber(lampSetText);
  const { files, out, svg } = filesAndTarget(args);
  if (!svg && out !== undefined)
    throw usageError("--out says where a diagram goes, and none was asked for.", "--svg beside it");
  const diagram = svg ? await diagramWriter(out, files, args.flag("force"), io) : undefined;
  const unit = args.text("unit") as LengthUnit;
  const allowed = args.texts("allow-outside");
  const json = args.flag("json");
  if (json && out === "-")
    throw usageError("Standard output cannot carry both JSON and a diagram.", "--out FILE.svg");
  const objects: unknown[] = [];
  let bad = false;
  for (const file of files) {
    const inspected = await inspectFile(file, directions, lampSet, allowed);
    const drawn = inspected.ok && diagram !== undefined ? await diagram(inspected.value) : success(undefined);
    const failed = [inspected, drawn].flatMap((outcome) => (outcome.ok ? [] : outcome.issues));
    for (const issue of failed) io.err(`${printable(formatIssue(issue), 1000)}\n`);
    if (drawn.ok && drawn.value !== undefined && out !== "-")
      io.err(`${printable(file)}: diagram in ${printable(drawn.value)}\n`);
    if (failed.length > 0) bad = true;
    if (json)
      objects.push(
        inspected.ok
          ? objectOf(inspected.value, directions.length > 0, drawn.ok ? drawn.value : undefined)
          : refusal(file, failed[0]),
      );
    else if (inspected.ok && out !== "-") {
      const { summary, intensity } = inspected.value;
      io.out(`${photometryText(file, summary, intensity, unit)}\n`);
    }
  }
  if (json) io.out(`${JSON.stringify(objects, null, 2)}\n`);
  return bad ? EXIT.badInput : EXIT.met;
}

async function inspectFile(
  file: string,
  directions: readonly { readonly C: number; readonly gamma: number }[],
  lampSet: number | undefined,
  allowed: readonly string[],
): Promise<Outcome<Inspected>> {
  const bytes = readBytes(file, FILE_LIMITS.photometricArchive);
  if (!bytes.ok) return bytes;
  const name = file === "-" ? "standard input" : file;
  const reader = await readerFor(bytes.value, name);
  const read = reader(bytes.value, {
    file: name,
    lampSet,
    tilt: (tilt) => {
      const tiltFile = readWithin(reachOf(file, allowed), tilt, FILE_LIMITS.photometricArchive, { file });
      return tiltFile.ok ? success(tiltFile.value.bytes) : tiltFile;
    },
  });
  if (!read.ok) return failure(...photometricRefusal(read.issues, bytes.value, name));
  const photometry = read.value;
  const intensity = directions.map(({ C, gamma }) => ({
    C,
    gamma,
    cd: intensityAt(photometry.distribution, radians(C), radians(gamma)),
  }));
  return success({ file, photometry, summary: summarise(photometry, read.warnings), intensity });
}

/** What `inspect --json` prints of a file. */
export interface InspectedJson extends PhotometrySummary {
  readonly file: string;
  readonly intensity?: readonly IntensityQuery[];
  /** Path of its diagram. */
  readonly svg?: string;
}

function objectOf(
  { file, summary, intensity }: Inspected,
  asked: boolean,
  svg: string | undefined,
): InspectedJson {
  return {
    file,
    ...summary,
    ...(asked ? { intensity } : {}),
    ...(svg === undefined ? {} : { svg }),
  };
}

/** And of one that was refused. */
export interface RefusedJson {
  readonly file: string;
  readonly error: {
    readonly code: string;
    readonly message: string;
    readonly line?: number;
    readonly column?: number;
  };
}

function refusal(file: string, issue: Issue): RefusedJson {
  const { line, column } = issue.where;
  return { file, error: { code: issue.code, message: formatIssue({ ...issue, where: {} }), line, column } };
}

/** What is read, and where the diagrams go: `inspect a.ies a.svg` means what it looks like, since no photometric file ends so. */
function filesAndTarget(args: Arguments): {
  readonly files: readonly string[];
  readonly out: string | undefined;
  readonly svg: boolean;
} {
  const { positionals } = args;
  const [out, svg] = [args.text("out"), args.flag("svg")];
  const last = positionals[positionals.length - 1];
  if (out === undefined && positionals.length > 1 && isSvg(last))
    return { files: positionals.slice(0, -1), out: last, svg: true };
  return { files: positionals, out, svg };
}

function isSvg(path: string): boolean {
  return extname(path).toLowerCase() === ".svg";
}

/** Writes diagrams under names of their own, none over a file that is no diagram; the path it wrote to is the outcome. */
async function diagramWriter(
  out: string | undefined,
  files: readonly string[],
  force: boolean,
  io: Io,
): Promise<(one: Inspected) => Promise<Outcome<string>>> {
  // Loaded only when something is drawn.
  const { POLAR_MARK, polarDiagramSvg } = await import("../../drawing/polar-diagram-svg.ts");
  const single = out !== undefined && (out === "-" || isSvg(out));
  if (single && files.length > 1)
    throw usageError("One file cannot hold the diagrams of several.", "--out FOLDER", `--out ${out}`);
  const taken = new Set<string>();
  const paths = files.map((file) => {
    const stem = file === "-" ? "photometry" : basename(file, extname(file));
    let name = `${stem}.svg`;
    for (let i = 2; taken.has(name.toLowerCase()); i++) name = `${stem}-${i}.svg`;
    taken.add(name.toLowerCase());
    return single ? out : join(out ?? ".", name);
  });
  // Before anything is read or written.
  for (const path of paths) if (path !== "-") refuseToReplace(path, "--out", force, POLAR_MARK);
  return async ({ file, photometry, summary }) => {
    const title = file === "-" ? "standard input" : basename(file);
    const path = paths[files.indexOf(file)];
    const drawing = polarDiagramSvg(photometry.distribution, title, subtitle(summary));
    if (path === "-") {
      io.out(drawing);
      return success(path);
    }
    const written = writeWhole(path, drawing, single ? "none made" : "make folders");
    return written.ok ? success(path) : written;
  };
}

function subtitle({ flux, format, edition }: PhotometrySummary): string {
  return `cd · ${Number(flux.integrated.toPrecision(4))} lm · ${format}${edition === "" ? "" : ` ${edition}`}`;
}

const DIRECTION = /^\s*([-+]?(?:\d+\.?\d*|\.\d+))\s*[,;]\s*([-+]?(?:\d+\.?\d*|\.\d+))\s*$/;

function direction(text: string): { C: number; gamma: number } {
  const parts = DIRECTION.exec(text);
  const C = Number(parts?.[1]);
  const gamma = Number(parts?.[2]);
  if (parts === null || !(gamma >= 0 && gamma <= 180) || !(Math.abs(C) <= 3600))
    throw usageError(
      "--at is not a direction.",
      "C,γ in degrees, γ from 0 to 180, such as 90,45",
      printable(text, 60),
    );
  return { C, gamma };
}

function wholeNumber(text: string): number {
  if (!/^\d{1,4}$/.test(text))
    throw usageError("--lamp-set is not a number.", "0 or more", printable(text, 60));
  return Number(text);
}
