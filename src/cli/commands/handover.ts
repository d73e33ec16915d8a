import { createRequire } from "node:module";
import { ownShadows } from "../../app/beside-the-verdict.ts";
import { arrangementIndex } from "../../app/named-in-study.ts";
import { pendantTolerances } from "../../app/tolerances.ts";
import { type CandlespanError, orThrow, refused } from "../../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../../diagnostics/file-limits.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { VERSION } from "../../diagnostics/version.ts";
import { PAPER_NAMES, type PaperName, type Picture } from "../../drawing/paper/paper.ts";
import { ALWAYS_WRITTEN } from "../../formats/handover-names.ts";
import {
  chosenOption,
  type Handover,
  type HandoverOption,
  handoverFacts,
  handoverOption,
  headOf,
  lampsOf,
  studyFingerprint,
} from "../../papers/handover.ts";
import { pictureOf } from "../../papers/picture.ts";
import { verdictWords } from "../../words/arrangement-sentences.ts";
import { findingsSections } from "../../words/findings-sections.ts";
import { wording } from "../../words/wording.ts";
import {
  type Arguments,
  type Command,
  EXIT,
  flag,
  type Io,
  oneOf,
  oneValue,
  usageError,
} from "../command.ts";
import { reachOf, readWithin } from "../files/reach.ts";
import { readBytes } from "../files/read.ts";
import { writableFolder } from "../files/write.ts";
import { checkFolder, type FileOfFolder, writeFolder } from "../handover-folder.ts";
import { LIGHT_OPTIONS, lightOf } from "../light-options.ts";
import { openGiven } from "../open-study.ts";
import { progressOf } from "../progress.ts";

export const handover: Command = {
  name: "handover",
  usage: "handover STUDY --out FOLDER [options]",
  summary:
    "The papers for electrician, supplier and client in a folder: set-out sheet, elevations, schedule, comparison, report, mock-up; PDF, SVG, DXF, CSV, LM-63.",
  arguments: [1, 1],
  options: {
    out: oneValue("FOLDER", "where the files go; made when missing"),
    ...LIGHT_OPTIONS,
    arrangement: oneValue(
      "NAME",
      "the arrangement that is to be built (default: the first); the others are compared with it",
    ),
    paper: oneOf(PAPER_NAMES, "paper of the sheets (default A4, Letter with feet and inches)"),
    units: oneOf(["mm", "ft-in"], "units of the dimensions (default: as the study displays them)"),
    note: oneValue("TEXT", "what is new in this revision, for the title block"),
    revision: oneValue("LETTER", "revision of the sheets: one or two letters, or a number", "A"),
    date: oneValue("YYYY-MM-DD", "date of the sheets (default: today)"),
    tolerances: flag(
      "how far each pendant may be off with the same verdict, on the set-out sheet; takes longer",
    ),
    force: flag("replace another study or revision, or files of others, in the folder"),
  },
  details:
    "Every coordinate is rounded once, as a distance from the datum, so that printed parts sum to printed totals.\nPrint at 100 % and check the square on the sheet. What is not known is flagged HOLD.\nA folder holds one study in one revision: papers of ours that are no longer among them are taken away, files of others stay.\nExit code 0 once the papers are written, whatever the verdict on them; `check` tells verdicts by its exit code.",
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const out = args.text("out");
  if (out === undefined)
    throw usageError("`handover` was not told where to write.", `\`candlespan ${handover.usage}\``);
  const date = dateOf(args.text("date"));
  const revision = revisionOf(args.text("revision") ?? "A");
  const fonts = { regular: font("DejaVuSansCondensed"), bold: font("DejaVuSansCondensed-Bold") };
  const { DrawnSheets, letteredFiles, missingLettersWords, sheetsPdf } = await installed(
    "pdfkit",
    () => import("../../formats/pdf/pdf.ts"),
  );
  const opened = await openGiven(args, io);
  const { study, document, text } = opened;
  const chosen = orThrow(arrangementIndex(study.scenes, args.text("arrangement")));
  const unit = unitOf(args.text("units"), study.display.length);
  const issued = { project: study.title, study: studyFingerprint(JSON.parse(text)), revision, date };
  const force = args.flag("force");
  orThrow(writableFolder(out));
  if (!force) checkFolder(out, issued, ALWAYS_WRITTEN);
  const words = wording({ ...study.display, length: unit });
  const judged = await lightOf(opened, undefined, args, io, {
    findings: "brief",
    layersOff: false,
    inWords: true,
  });
  const options: HandoverOption[] = [];
  for (const each of judged) {
    const shadows = each.scene.people.length === 0 ? [] : await ownShadows(opened, each.scene);
    options.push(handoverOption(each, each.findings && findingsSections(each.findings, words), shadows));
  }
  if (args.flag("tolerances")) {
    const progress = progressOf(io, "");
    const tolerances = await pendantTolerances(opened, judged[chosen].scene, progress.observer);
    progress.done();
    options[chosen] = { ...options[chosen], tolerances };
  }
  const facts: Handover = {
    ...handoverFacts(study),
    ...headOf(document.project, logoOf(document.project?.logo, args, io)),
    options,
    chosen,
    lamps: lampsOf(document.luminaires),
    paper: (args.text("paper") as PaperName | undefined) ?? (unit === "mm" ? "A4" : "Letter"),
    unit,
    illuminance: study.display.illuminance,
    revision,
    ...(args.text("note") === undefined ? {} : { note: printable(args.text("note") ?? "", 300) }),
    date,
    fingerprint: issued.study,
    version: VERSION,
  };
  const { files, missing } = letteredFiles(facts, fonts);
  const unwritten = missingLettersWords(missing);
  if (unwritten !== undefined) io.err(`${printable(unwritten, 400)}\n`);
  const drawn = new DrawnSheets();
  const contents: FileOfFolder[] = [];
  for (const file of files)
    contents.push({
      path: file.path,
      content:
        "content" in file
          ? file.content
          : await sheetsPdf(
              file.sheets,
              fonts,
              { title: file.title, date: new Date(`${date}T12:00:00Z`) },
              drawn,
            ),
    });
  for (const path of writeFolder(out, issued, contents, force))
    io.err(`${printable(path, 200)}: no longer among the papers, but changed by somebody; it stays.\n`);
  const option = chosenOption(facts);
  io.out(
    `${printable(option.scene.name, 80)}: ${verdictWords(option.assessment, option.clashes)}${option.assessment.method.quality === "quick" ? ", by a quick calculation" : ""}. ${files.length} files in ${printable(out, 200)}\n` +
      files.map(({ path, about }) => `  ${path}  ${about}\n`).join(""),
  );
  return EXIT.met;
}

/** The picture the study names as its author's sign; a warning where it cannot be used. */
function logoOf(path: string | undefined, args: Arguments, io: Io): Picture | undefined {
  if (path === undefined) return undefined;
  const where = { path: "/project/logo" };
  const reach = reachOf(args.positionals[0], args.texts("allow-outside"));
  const bytes = readWithin(reach, path, FILE_LIMITS.logo, where);
  const read = bytes.ok ? pictureOf(bytes.value.bytes) : bytes;
  if (read.ok) return read.value;
  for (const issue of read.issues) io.err(`${printable(formatIssue({ ...issue, where }), 400)}\n`);
  return undefined;
}

function unitOf(given: string | undefined, display: "mm" | "m" | "ft-in"): Handover["unit"] {
  if (given === "mm" || given === "ft-in") return given;
  return display === "ft-in" ? "ft-in" : "mm";
}

function dateOf(given: string | undefined): string {
  const date = given ?? new Date().toISOString().slice(0, 10);
  const parsed = new Date(`${date}T12:00:00Z`);
  if (
    !/^\d{4}-\d\d-\d\d$/.test(date) ||
    Number.isNaN(parsed.getTime()) ||
    parsed.toISOString().slice(0, 10) !== date
  )
    throw usageError("--date is no date.", "YYYY-MM-DD", printable(date, 40));
  return date;
}

function revisionOf(given: string): string {
  if (/^([A-Z]{1,2}|[1-9]\d?)$/.test(given)) return given;
  throw usageError(
    "--revision is no revision.",
    "A to ZZ, or 1 to 99",
    given === "" ? "nothing" : printable(given, 40),
  );
}

/** Bytes of a face of the font that is embedded in PDFs. */
function font(face: string): Uint8Array {
  let path: string;
  try {
    path = createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${face}.ttf`);
  } catch {
    throw notInstalled("dejavu-fonts-ttf");
  }
  return orThrow(readBytes(path, FILE_LIMITS.served));
}

/** What a package that papers need holds, or how to install it. */
async function installed<T>(name: string, load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ERR_MODULE_NOT_FOUND") throw error;
    throw notInstalled(name);
  }
}

function notInstalled(name: string): CandlespanError {
  return refused({
    code: "package-missing",
    message: `PDFs need the package ${name}, which is not installed.`,
    expected: "`npm install pdfkit dejavu-fonts-ttf` beside candlespan",
  });
}
