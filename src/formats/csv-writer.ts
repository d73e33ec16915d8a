/**
 * Comma-separated values (RFC 4180) for spreadsheets: cells and tables, and illuminance, one line a point.
 *
 * Figures are metres and lux with a point for the decimals, whatever the screen shows. A text that a spreadsheet
 * would run as a formula is preceded by an apostrophe.
 */

import type { ArrangementAssessment } from "../assessment/assessment.ts";
import type { Scene } from "../scene/scene.ts";

/** One cell: quoted where it must be, harmless where it would be run. */
export function csvCell(value: string | number): string {
  if (typeof value === "number") return Number.isFinite(value) ? String(value) : "";
  // Leading white space does not stop a spreadsheet from reading a formula; tab and return start one in some.
  const harmless = /^\s*[=+\-@\t\r|]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(harmless) || harmless !== harmless.trim()
    ? `"${harmless.replaceAll('"', '""')}"`
    : harmless;
}

/** Spreadsheet programs take a file that begins with it for UTF-8, others pass over it: "°" and "×" stay what they are. */
export const BYTE_ORDER_MARK = "\ufeff";

export function csvLine(values: readonly (string | number)[]): string {
  return `${values.map(csvCell).join(",")}\r\n`;
}

/** A table with a line of titles: what stands in each column, by its title; nothing where a row has none of it. */
export function csvTable<R>(
  rows: readonly R[],
  columns: Readonly<Record<string, (row: R) => string | number | undefined>>,
): string {
  const cells = Object.values(columns);
  return [
    BYTE_ORDER_MARK,
    csvLine(Object.keys(columns)),
    ...rows.map((row) => csvLine(cells.map((cell) => cell(row) ?? ""))),
  ].join("");
}

/** Every point of every plane: place (m), total, and the direct and interreflected light of each layer (lx),
 * dimmed and maintained. `assessment.planes` follow the scene's order. */
export function illuminanceCsv(scene: Scene, assessment: ArrangementAssessment): string {
  const layers = scene.layers.map((layer) => layer.name);
  let text = BYTE_ORDER_MARK;
  text += csvLine([
    "plane",
    "x (m)",
    "y (m)",
    "z (m)",
    "illuminance (lx)",
    ...layers.flatMap((name) => [`${name} direct (lx)`, `${name} interreflected (lx)`]),
  ]);
  scene.planes.forEach((plane, p) => {
    const light = assessment.planes[p];
    for (let i = 0; i < light.illuminance.length; i++) {
      text += csvLine([
        plane.name,
        ...[0, 1, 2].map((axis) => rounded(plane.points[3 * i + axis], 4)),
        rounded(light.illuminance[i], 2),
        ...light.layers.flatMap((layer) => [
          rounded(layer.direct[i], 2),
          rounded(layer.interreflected[i], 2),
        ]),
      ]);
    }
  });
  return text;
}

function rounded(value: number, decimals: number): number {
  const power = 10 ** decimals;
  return Math.round(value * power) / power;
}
