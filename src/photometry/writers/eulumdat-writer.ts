/**
 * Photometry to EULUMDAT text: CR LF, ASCII, decimal points, one value a line, the planes its symmetry needs.
 *
 *   table = I · 1000 / flux of the lamp set (cd per 1000 lm)
 *   light output ratio = luminaire flux / lamp flux, downward share = downward / luminaire flux, both integrated
 *
 * Absolute data carry a negative number of lamps and, where the file stated no flux, the flux integral. The ten
 * direct ratios are written as zero, as most published files have them: their tables of factors were not at hand.
 * Opening extents swap: EULUMDAT's length lies along C90–C270. Shapes it cannot name become the nearest it can,
 * with a warning; types A and B are resampled to planes of type C, with a warning that says how well.
 *
 * Reference: Stockmar, "EULUMDAT/2", CIBSE 1998. Error: ≤ 5e-10 relative on intensities, none on angles.
 */

import { failure, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import { degrees } from "../../units/quantities.ts";
import { resampleToC } from "../c-gamma-resampling.ts";
import type { Symmetry } from "../intensity-distribution.ts";
import { luminousFlux } from "../luminous-flux.ts";
import { isUprightRound, type LuminousOpening } from "../luminous-opening.ts";
import type { LampSet, Photometry } from "../photometry.ts";
import { LARGEST } from "../readers/eulumdat-header.ts";
import { asciiText } from "./ascii-text.ts";
import { foldPlanes } from "./fold-planes.ts";
import { angleText, decimalText } from "./number-text.ts";
import { refuseUnwritable } from "./unwritable.ts";

const ISYM: Record<Symmetry, 0 | 1 | 2 | 3 | 4> = {
  none: 0,
  "mirrored in H0": 0,
  rotational: 1,
  "mirrored in C0–C180": 2,
  "mirrored in C90–C270": 3,
  quadrant: 4,
};
const LONG_TEXT = 78;
const TYPE_TEXT = 24;
const DIRECT_RATIOS = 10;

/** EULUMDAT text of a photometry; issues when a value is not finite or there is no light to state a flux of. */
export function writeEulumdat(photometry: Photometry): Outcome<string> {
  const wrong = refuseUnwritable(photometry);
  if (wrong !== undefined) return failure(wrong);
  const warnings: Issue[] = [];
  const { distribution, worstError } = resampleToC(photometry.distribution);
  if (photometry.distribution.type !== "C")
    warnings.push(
      remark("eulumdat-resampled", `Type ${photometry.distribution.type} was resampled to C-planes of 1°.`, {
        received: `a worst error of ${(100 * worstError).toPrecision(2)} % of the peak`,
      }),
    );
  const flux = luminousFlux(distribution);
  const sets = lampSets(photometry, flux.total);
  const rated = sets[0].flux ?? 0;
  if (rated <= 0)
    return failure({
      ...remark("eulumdat-no-light", "The table is per 1000 lm, and there is no light."),
      severity: "error",
    });
  // A reader would take it for none, and not know what the table is per.
  if (rated > LARGEST)
    return failure({
      ...remark("photometry-not-writable", "The flux is more than the format has."),
      severity: "error",
      expected: `at most ${LARGEST} lm`,
      received: `${rated} lm`,
    });

  const { isym, stored, all } = planesOf(distribution);
  const rows = distribution.vertical.length;
  const label = (...keys: string[]) => photometry.labels.find(({ key }) => keys.includes(key))?.value ?? "";
  const area = luminousArea(photometry.opening, warnings);
  const lines: (string | number)[] = [
    plainText(label("maker", "MANUFAC", "Manufacturer"), LONG_TEXT),
    isym === 1 ? 1 : 3,
    isym,
    all.length,
    spacing(all),
    rows,
    spacing(distribution.vertical),
    plainText(label("report number", "TEST", "ReportNumber"), LONG_TEXT),
    plainText(photometry.description, LONG_TEXT),
    plainText(label("luminaire number", "LUMCAT"), LONG_TEXT),
    plainText(label("file name"), 8),
    plainText(label("date", "ISSUEDATE", "ReportDate"), LONG_TEXT),
    ...(housing(label("housing (mm)")) ?? [area[0], area[1], area[2]]).map((side) => decimalText(side)),
    ...[area[0], area[1], area[2], area[2], area[2], area[2]].map((side) => decimalText(side)),
    decimalText(100 * flux.downwardShare, 6),
    decimalText((100 * flux.total) / rated, 6),
    1,
    0,
    sets.length,
    ...sets.flatMap((set) => lampSetLines(set, photometry.absolute || photometry.ratedFlux === undefined)),
    ...Array.from({ length: DIRECT_RATIOS }, () => 0),
    ...all.map((angle) => angleText(angle)),
    ...Array.from(distribution.vertical, angleText),
    ...stored.flatMap((h) =>
      Array.from(distribution.intensity.subarray(h * rows, (h + 1) * rows), (i) =>
        decimalText((i * 1000) / rated),
      ),
    ),
  ];
  return success(`${lines.join("\r\n")}\r\n`, warnings);
}

/** The symmetry that holds, the planes to store in their order, and the angles (rad) of all planes below 360°. */
function planesOf(distribution: Photometry["distribution"]) {
  const { horizontal } = distribution;
  const { symmetry, planes } = foldPlanes(distribution);
  const all = horizontal.length === 1 ? [0] : Array.from(horizontal.subarray(0, horizontal.length - 1));
  const every = Array.from(all.keys());
  const isym = ISYM[symmetry];
  if (isym !== 3) return { isym, stored: isym === 0 ? every : planes, all };
  // Readers that count planes find C270 at three quarters of the list; unless it is there, store every plane.
  const quarter = all.length / 4;
  const at = (index: number, angle: number) => Math.abs(degrees(all[index] ?? Number.NaN) - angle) < 1e-7;
  if (!Number.isInteger(quarter) || !at(quarter, 90) || !at(3 * quarter, 270))
    return { isym: 0 as const, stored: every, all };
  return { isym, stored: [...every.slice(3 * quarter), ...every.slice(0, quarter + 1)], all };
}

/** The set whose flux is in the distribution first, its flux made certain. */
function lampSets(photometry: Photometry, integral: number): LampSet[] {
  const chosen = photometry.lampSets[photometry.lampSet];
  const first: LampSet = {
    ...(chosen ?? { count: 1, type: "", colourTemperature: "", colourRendering: "" }),
    // As written, so that the table is per 1000 lm of the very number a reader will find.
    flux: Number(decimalText(photometry.ratedFlux ?? integral)),
    watts: photometry.watts ?? chosen?.watts,
  };
  const others = photometry.lampSets.filter((set, i) => i !== photometry.lampSet && (set.flux ?? 0) > 0);
  return [first, ...others];
}

function lampSetLines(set: LampSet, absolute: boolean): (string | number)[] {
  return [
    absolute ? -set.count : set.count,
    plainText(set.type, TYPE_TEXT),
    decimalText(set.flux ?? 0),
    plainText(set.colourTemperature, LONG_TEXT),
    plainText(set.colourRendering, LONG_TEXT),
    decimalText(set.watts ?? 0),
  ];
}

/** Length (or diameter), width (0 for round) and height of the luminous area (mm). */
function luminousArea(opening: LuminousOpening, warnings: Issue[]): [number, number, number] {
  const { shape, length, width, height } = opening;
  const millimetres = (metres: number) => Math.round(metres * 1e6) / 1e3;
  const round = isUprightRound(opening) && length === width;
  const exact = round || shape === "rectangle" || shape === "box" || shape === "point";
  if (round) return [millimetres(width), 0, millimetres(height)];
  if (shape === "ellipsoid" && length === width) {
    warnings.push(
      remark("eulumdat-opening", "A sphere has no name in EULUMDAT; a cylinder of its size was written."),
    );
    return [millimetres(width), 0, millimetres(height)];
  }
  if (!exact)
    warnings.push(
      remark(
        "eulumdat-opening",
        "The opening's shape has no name in EULUMDAT; its bounding box was written.",
        {
          received: shape,
        },
      ),
    );
  // A width of zero would mean round.
  const thin = shape === "point" ? 0 : 1;
  return [Math.max(thin, millimetres(width)), Math.max(thin, millimetres(length)), millimetres(height)];
}

/** Even spacing in degrees, or 0. */
function spacing(angles: ArrayLike<number>): string {
  if (angles.length < 2) return "0";
  const step = (angles[angles.length - 1] - angles[0]) / (angles.length - 1);
  for (let i = 1; i < angles.length; i++) if (Math.abs(angles[i] - angles[i - 1] - step) > 1e-9) return "0";
  return decimalText(degrees(step), 9);
}

/** A text that no reader takes for the line with which LM-63 begins its numbers. */
function plainText(text: string, longest: number): string {
  return asciiText(text, longest).replace(/^(\s*TILT)(?=\s*=)/i, "$1:");
}

function housing(text: string): number[] | undefined {
  const sides = text.split("×").map(Number);
  return sides.length === 3 && sides.every((side) => Number.isFinite(side) && side >= 0) ? sides : undefined;
}

function remark(code: string, message: string, detail: Partial<Issue> = {}): Issue {
  return { code, severity: "warning", message, where: {}, ...detail };
}
