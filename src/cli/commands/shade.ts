import { basename, extname, join } from "node:path";
import { CandlespanError, orThrow } from "../../diagnostics/candlespan-error.ts";
import { FILE_LIMITS } from "../../diagnostics/file-limits.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import { printable } from "../../diagnostics/printable.ts";
import { POLAR_MARK, polarDiagramSvg } from "../../drawing/polar-diagram-svg.ts";
import { type BuiltShade, buildShadeLuminaire } from "../../luminaire/shade/build.ts";
import { SHADE_FILE_MARK, shadeFile } from "../../luminaire/shade/shade-file.ts";
import { type PhotometrySummary, summarise } from "../../photometry/summary.ts";
import { writeLm63 } from "../../photometry/writers/lm63-writer.ts";
import { readShades } from "../../study/shade-file.ts";
import type { LengthUnit } from "../../units/length-text.ts";
import { briefValue } from "../../words/brief-value.ts";
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
import { readUtf8 } from "../files/read.ts";
import { writeWhole } from "../files/write.ts";
import { FORCE, refuseToReplace } from "../replacing.ts";

export const shade: Command = {
  name: "shade",
  usage: "shade FILE [options]",
  summary:
    "Photometry from lamp and shade, traced and written as LM-63-2019 (by simulation), with its polar diagram.",
  arguments: [1, 1],
  options: {
    luminaire: oneValue("NAME", "only this luminaire of the study"),
    out: oneValue("FOLDER", "where the files go", "."),
    svg: flag("draw the polar diagrams too"),
    unit: oneOf(["mm", "m", "ft-in"], "of lengths in words (default: the study's, else mm)"),
    json: flag("figures as one JSON array"),
    compare: flag(
      "FILE is a study: the shade clear, frosted, opal and solid, or a trough open and covered, each in its place",
    ),
    ...FORCE,
    arrangement: oneValue("NAME", "with --compare: in this arrangement"),
    ...ALLOW_OUTSIDE,
  },
  details: `FILE is a study, of which every luminaire with "lamp" and "shade" is traced, or one
{ "lamp": {…}, "shade": {…} } alone. Figures are computed from typical finishes unless the maker's are given:
±22 % on the light, no source. Heat, weight and lamp limits are the maker's to state.`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [file] = args.positionals;
  // The engine loads only for those who compare.
  if (args.flag("compare")) return (await import("../shade-comparison.ts")).compare(args, io);
  if (args.text("arrangement") !== undefined)
    throw usageError("--arrangement says where to compare.", "--compare beside it");
  const text = orThrow(readUtf8(file, FILE_LIMITS.study));
  const alone = file === "-" ? "shade" : basename(file).replace(/\.[a-z.]*json$/i, "");
  const luminaireName = args.text("luminaire");
  const all = orThrow(readShades(text, file, alone));
  const chosen = all.filter(({ name }) => luminaireName === undefined || name === luminaireName);
  if (chosen.length === 0) {
    throw usageError(
      "No luminaire with lamp and shade was found.",
      all.length === 0
        ? '"lamp" and "shade" in a luminaire'
        : `one of ${all.map(({ name }) => printable(name)).join(", ")}`,
      luminaireName === undefined ? undefined : printable(luminaireName),
    );
  }
  const rows: ShadeJson[] = [];
  for (const { name, lamp, shade: document, path, unit: own } of chosen) {
    const unit = (args.text("unit") as LengthUnit | undefined) ?? own ?? "mm";
    const outcome = buildShadeLuminaire(name, lamp, document, { file, path, unit });
    if (!outcome.ok) throw new CandlespanError(outcome.issues);
    const built = outcome.value;
    for (const issue of outcome.warnings) io.err(`${printable(formatIssue(issue), 1000)}\n`);
    const photometry = shadeFile(built, new Date().toISOString().slice(0, 10));
    const stem = name.replace(/[^\p{L}\p{N} ._-]/gu, "_").slice(0, 80) || "shade";
    const target = join(args.text("out") ?? ".", `${stem}.ies`);
    refuseToReplace(target, "--out", args.flag("force"), SHADE_FILE_MARK);
    orThrow(writeWhole(target, orThrow(writeLm63(photometry, { edition: "2019" })), "make folders"));
    let diagram: string | undefined;
    if (args.flag("svg")) {
      diagram = target.slice(0, -extname(target).length) + ".svg";
      refuseToReplace(diagram, "--out", args.flag("force"), POLAR_MARK);
      orThrow(
        writeWhole(
          diagram,
          polarDiagramSvg(built.luminaire.distribution, name, built.description),
          "make folders",
        ),
      );
    }
    const summary = summarise(photometry, []);
    rows.push({
      name,
      lightOutputRatio: built.lightOutputRatio,
      lightOutputRatioBand: built.band.ratio,
      downwardShare: built.downwardShare,
      flux: built.luminaire.flux,
      axialIntensity: summary.axial,
      axialIntensityBand: built.band.axial,
      ...(built.traced === undefined ? {} : { axialIntensityWithin6: built.traced.wideAxial }),
      beamAngle: summary.beamAngle.ofMaximum,
      photons: built.traced?.traced.photons ?? 0,
      evidence: "traced from shade",
      written: target,
      ...(diagram === undefined ? {} : { diagram }),
      assumptions: built.assumptions.map(({ path: key, value, why }) => ({ key, value, why })),
    });
    if (!args.flag("json")) io.out(sentence(built, summary, target, diagram, unit));
  }
  if (args.flag("json")) io.out(`${JSON.stringify(rows, null, 2)}\n`);
  return EXIT.met;
}

/** What `shade --json` prints of a luminaire. */
export interface ShadeJson {
  readonly name: string;
  readonly lightOutputRatio: number;
  readonly lightOutputRatioBand: number;
  readonly downwardShare: number;
  readonly flux: number;
  readonly axialIntensity: number;
  readonly axialIntensityBand: number;
  readonly axialIntensityWithin6?: number;
  readonly beamAngle: number | null;
  readonly photons: number;
  readonly evidence: string;
  /** Paths of the LM-63 file and of the polar diagram. */
  readonly written: string;
  readonly diagram?: string;
  readonly assumptions: readonly { readonly key: string; readonly value: unknown; readonly why: string }[];
}

function sentence(
  built: BuiltShade,
  { beamAngle, maximum, flux }: PhotometrySummary,
  target: string,
  diagram: string | undefined,
  unit: LengthUnit,
): string {
  const { luminaire, lightOutputRatio, downwardShare, band, description, assumptions } = built;
  const axial = luminaire.distribution.intensity[0];
  const wide = built.traced?.wideAxial ?? axial;
  const steep = Math.abs(wide - axial) > STEEP_AXIS * axial;
  const percent = (value: number, digits = 0) => (100 * value).toFixed(digits);
  const lines = [
    `${printable(luminaire.name)}: ${description}`,
    `  light output ratio ${percent(lightOutputRatio, 1)} % ± ${percent(band.ratio * lightOutputRatio, 1)} (95 %, statistical), ${luminaire.flux.toFixed(0)} lm, ${percent(downwardShare)} % of it downward`,
    `  straight down ${axial.toFixed(0)} cd ± ${percent(band.axial, 1)} %${beamWords(beamAngle.ofMaximum, steep && wide < axial)}${upwardWords(maximum)}`,
    ...(steep
      ? [
          `  that is the mean within 3° of straight down; within 6° it is ${wide.toFixed(0)} cd, as the mirror finish makes light change fast there`,
        ]
      : []),
    `  traced from shade; with typical finishes the light is known to ±22 % (engineering default, no source)`,
    ...assumptions.map(
      ({ path, value, why }) =>
        `  assumed ${path.slice(1).replace("/", " ")} ${briefValue(`/luminaires/x${path}`, value, { length: unit, illuminance: "lx" }, 60)}: ${why}`,
    ),
    `  written to ${printable(target)}${tableWords(luminaire.flux, flux.integrated)}${diagram === undefined ? "" : ` and ${printable(diagram)}`}`,
  ];
  return `${lines.join("\n")}\n`;
}

/** Where twice the cone about straight down has this much more or less, as a share, the light changes fast there. */
const STEEP_AXIS = 0.1;

/** @param beam degrees @param peaked whether the maximum is a peak on the axis, sharper than it is known: half of it is hardly known either */
function beamWords(beam: number | null, peaked: boolean): string {
  if (beam === null) return "";
  if (peaked) return ": too sharp a peak for a beam angle";
  return beam >= 360 ? ", nowhere under half its maximum" : `, beam ${beam.toFixed(0)}° at half its maximum`;
}

/** The light that the file's table adds up to, where that is another figure: between its directions it is interpolated. */
function tableWords(traced: number, integrated: number): string {
  const [here, there] = [traced.toFixed(0), integrated.toFixed(0)];
  return here === there
    ? ""
    : `, whose table of directions adds up to ${there} lm (${(100 * (integrated / traced - 1)).toFixed(1)} %)`;
}

/** Of which lobe the beam is, where it is not the one below. */
function upwardWords({ gamma, intensity }: PhotometrySummary["maximum"]): string {
  return gamma <= 90 ? "" : ` (the upward lobe: ${intensity.toFixed(0)} cd at γ ${gamma.toFixed(0)}°)`;
}
