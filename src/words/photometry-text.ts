/** A photometric file in a dozen lines for people: what it holds, how wide and how much, what is odd. */

import { formatLocation } from "../diagnostics/issue.ts";
import { oneLine } from "../diagnostics/one-line.ts";
import { printable } from "../diagnostics/printable.ts";
import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { BeamSummary, PhotometrySummary } from "../photometry/summary.ts";
import { formatLength, type LengthUnit } from "../units/length-text.ts";

/** Intensity asked for at one direction (°, cd). */
export interface IntensityQuery {
  readonly C: number;
  readonly gamma: number;
  readonly cd: number;
}

/** The lines of one file, its name first. Words from the file are made printable. */
export function photometryText(
  file: string,
  summary: PhotometrySummary,
  intensity: readonly IntensityQuery[] = [],
  unit: LengthUnit = "mm",
): string {
  const { flux, maximum } = summary;
  const rows: [string, string][] = [["holds", printable(holds(summary))]];
  if (summary.description.trim() !== "") rows.push(["says", oneLine(summary.description, 100)]);
  const { maker, order, lamp, driver } = summary;
  for (const [name, value] of Object.entries({ maker, "order no.": order, lamp, driver }))
    if (value !== undefined) rows.push([name, printable(value, 100)]);
  rows.push(
    ["flux", fluxText(summary)],
    [
      "maximum",
      `${figure(maximum.intensity)} cd at C ${figure(maximum.C)}°, γ ${figure(maximum.gamma)}°; ${figure(summary.axial)} cd on the axis`,
    ],
    ["beam, 50 %", widthText(summary.beamAngle)],
    ["field, 10 %", widthText(summary.fieldAngle)],
    ["flux code", `${summary.fluxCode} (CIE)`],
  );
  if (summary.watts !== null)
    rows.push([
      "power",
      `${figure(summary.watts)} W${summary.efficacy === null ? "" : `, ${figure(summary.efficacy, 3)} lm/W`}`,
    ]);
  rows.push(
    ["opening", openingText(summary.opening, unit)],
    ["table", `${count(summary.planes, "plane")} of ${count(summary.angles, "angle")}`],
  );
  if (flux.zones.length > 0 && summary.resampling !== undefined)
    rows.push([
      "resampled",
      `zones, beam and field at 1° of C and γ, worst error ${figure(100 * summary.resampling.intensityError, 2)} % of the peak`,
    ]);
  for (const { C, gamma, cd } of intensity)
    rows.push([
      `at ${figure(C)}, ${figure(gamma)}`,
      `${figure(cd, 6)} cd at C ${figure(C)}°, γ ${figure(gamma)}°`,
    ]);
  for (const warning of summary.warnings) {
    const place = formatLocation({
      line: warning.where.line,
      column: warning.where.column,
      path: warning.where.path,
    });
    rows.push(["warning", printable(`${place === "" ? "" : `${place}: `}${warning.message}`, 400)]);
  }
  const wide = Math.max(...rows.map(([name]) => name.length));
  return `${printable(file)}\n${rows.map(([name, value]) => `  ${name.padEnd(wide)}  ${value}`).join("\n")}\n`;
}

function holds({ format, edition, type, symmetry, measuredSymmetry, absolute }: PhotometrySummary): string {
  const declared = symmetry === "none" ? "no symmetry declared" : symmetry;
  const measured = symmetry === measuredSymmetry || type !== "C" ? "" : ` (in fact ${measuredSymmetry})`;
  return `${format}${edition === "" ? "" : ` ${edition}`}, type ${type}, ${declared}${measured}, ${absolute ? "absolute" : "relative to the lamps"}`;
}

function fluxText({ flux, absolute }: PhotometrySummary): string {
  const rated =
    flux.rated === null
      ? ""
      : ` of ${figure(flux.rated)} lm ${absolute ? "rated" : "of the lamps"} (${figure((100 * flux.integrated) / flux.rated, 3)} %)`;
  return `${figure(flux.integrated)} lm${rated}, ${figure(100 * flux.downwardShare, 3)} % downward`;
}

/** `36.1° of maximum; C90 40.2°`: planes told apart where they differ by more than half a degree. */
function widthText({ planes, ofMaximum, ofAxial }: BeamSummary): string {
  const angles = planes.flatMap((plane) =>
    plane.ofMaximum === null ? [] : [{ C: plane.C, ...plane.ofMaximum }],
  );
  if (ofMaximum === null || angles.length === 0) return "none";
  const least = angles.reduce((a, b) => (b.angle < a.angle ? b : a));
  const most = angles.reduce((a, b) => (b.angle > a.angle ? b : a));
  const maximum =
    most.angle - least.angle < 0.5
      ? `${figure(ofMaximum, 4)}° of the maximum`
      : `${figure(least.angle, 4)}° (C${figure(least.C)}) to ${figure(most.angle, 4)}° (C${figure(most.C)}) of each plane's maximum`;
  return `${maximum}, ${ofAxial === null ? "none" : `${figure(ofAxial, 4)}°`} of the axial value${angles.length > 1 ? " (mean of planes)" : ""}`;
}

function openingText({ shape, length, width, height }: LuminousOpening, unit: LengthUnit): string {
  if (shape === "point") return "point";
  const say = (metres: number): string =>
    unit === "ft-in" ? formatLength(metres, unit, 16) : `${figure(1000 * metres, 5)} mm`;
  return `${shape}, ${say(length)} along C0 × ${say(width)} along C90 × ${say(height)} high`;
}

function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? "" : "s"}`;
}

function figure(x: number, figures = 5): string {
  return String(Number(x.toPrecision(figures)));
}
