/** What a photometric file holds, in one line for the person who dropped it. */

import type { StudyFile } from "../app/study-files.ts";
import type { Issue } from "../diagnostics/issue.ts";
import { printable } from "../diagnostics/printable.ts";
import { isUprightRound, type LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Photometry } from "../photometry/photometry.ts";
import { readPhotometry } from "../photometry/readers/read-photometry.ts";
import { type BeamSummary, summarise } from "../photometry/summary.ts";
import { beamText } from "../words/beam-text.ts";

/** `It read dome.ies: LM-63 2019, absolute, 1150 lm, beam 118°, 12 W, opening disc Ø 280 mm.` */
export function photometrySummaryLine(name: string, photometry: Photometry): string {
  const summary = summarise(photometry);
  const { format, edition, absolute, flux, beamAngle, watts, opening } = summary;
  const parts = [
    edition === "" ? format : `${format} ${edition}`,
    absolute ? "absolute" : "relative to its lamps",
    `${Math.round(flux.integrated)} lm`,
    beamWords(beamAngle),
    watts === null ? "" : `${Math.round(watts * 10) / 10} W`,
    opening.shape === "point" ? "no luminous opening given" : `opening ${openingWords(opening)}`,
  ];
  return `It read ${printable(name, 80)}: ${parts.filter((part) => part !== "").join(", ")}.`;
}

function beamWords({ ofMaximum, planes }: BeamSummary): string {
  const angles = planes.flatMap((plane) => (plane.ofMaximum === null ? [] : [plane.ofMaximum.angle]));
  return ofMaximum === null ? "" : `beam ${beamText(ofMaximum, angles)}`;
}

function openingWords(opening: LuminousOpening): string {
  const [length, width, height] = [opening.length, opening.width, opening.height].map((m) =>
    Math.round(m * 1000),
  );
  const across = isUprightRound(opening) && length === width ? `Ø ${length}` : `${length} × ${width}`;
  return `${opening.shape} ${across} mm${height > 0 ? `, ${height} mm high` : ""}`;
}

/** What one photometric file holds, in words for one line on screen. */
export interface FileReading {
  readonly path: string;
  readonly ok: boolean;
  readonly line: string;
  readonly issues: readonly Issue[];
}

/** One line a file, or why it could not be read. */
export function readings(files: readonly StudyFile[]): FileReading[] {
  return files.map(({ path, content }) => {
    const name = printable(path.replace(/^.*\//, ""), 80);
    const outcome = readPhotometry(content, { file: name });
    return outcome.ok
      ? { path, ok: true, line: photometrySummaryLine(name, outcome.value), issues: outcome.warnings }
      : { path, ok: false, line: `${name} could not be read.`, issues: outcome.issues };
  });
}
