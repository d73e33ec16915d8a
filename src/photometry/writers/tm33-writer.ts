/**
 * Photometry to IES TM-33-18 text: XML, UTF-8, one emitter, candela, metres, the planes its symmetry needs.
 *
 * Elements stand in the order of the schema. Absolute data state their luminous flux (the integral where the
 * file had none), relative data their rated lumens. Openings are emission areas on the faces of a box; shapes
 * that have no such area become their bounding box, with a warning. TM-33-18 knows no unknown date, so a report
 * whose date is nowhere stated, or not in one way, carries 1970-01-01.
 *
 * Reference: ANSI/IES TM-33-18, by its schema. Error: ≤ 5e-10 relative on intensities, none on angles.
 */

import { failure, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import { totalFlux } from "../luminous-flux.ts";
import { isUprightRound, type LuminousOpening } from "../luminous-opening.ts";
import type { LampSet, Photometry } from "../photometry.ts";
import { foldPlanes } from "./fold-planes.ts";
import { angleText, decimalText } from "./number-text.ts";
import { reportDate } from "./report-date.ts";
import { refuseUnwritable } from "./unwritable.ts";

const NO_DATE = "1970-01-01";

/** TM-33-18 text of a photometry; an issue when a value is not finite. */
export function writeTm33(photometry: Photometry): Outcome<string> {
  const wrong = refuseUnwritable(photometry);
  if (wrong !== undefined) return failure(wrong);
  const warnings: Issue[] = [];
  const label = (...keys: string[]) =>
    photometry.labels.find(({ key, value }) => keys.includes(key) && value !== "")?.value ?? "not stated";
  const lost = ["MANUFAC", "maker", "Manufacturer", "LUMCAT", "luminaire number", "CatalogNumber"].flatMap(
    (key) => photometry.labels.filter((each) => each.key === key && each.value.trim() !== ""),
  );
  if (lost.length > 0)
    warnings.push({
      code: "tm33-dropped",
      severity: "warning",
      message:
        "Maker and catalogue number were left out: of TM-33's header only the required elements are written.",
      received: lost.map(({ value }) => value.trim()).join(", "),
      where: {},
    });
  const { date, unread } = reportDate(photometry);
  if (date === undefined)
    warnings.push({
      code: "tm33-date",
      severity: "warning",
      message: `${unread === undefined ? "The file states no date of its report" : "The date of the report cannot be read in one way"}, and TM-33-18 asks one: ${NO_DATE} was written.`,
      ...(unread === undefined
        ? {}
        : { expected: "year-month-day, such as 2024-03-12", received: unread.slice(0, 60) }),
      where: {},
    });
  const { length, width, height } = photometry.opening;
  const dimension = (name: string, metres: number) => element(name, decimalText(metres));
  const text = element(
    "IESTM33",
    element("Version", "1.0"),
    element(
      "Header",
      element("Description", escaped(photometry.description || "not stated")),
      element("Laboratory", escaped(label("Laboratory", "TESTLAB"))),
      element("ReportNumber", escaped(label("ReportNumber", "TEST", "report number"))),
      element("ReportDate", date ?? NO_DATE),
    ),
    element(
      "Luminaire",
      element(
        "Dimensions",
        dimension("Length", length),
        dimension("Width", width),
        dimension("Height", height),
      ),
      element("NumEmitter", "1"),
    ),
    photometry.distribution.type === "C"
      ? element("Equipment")
      : element(
          "Equipment",
          element("Gonioradiometer", element("Type", `IES_${photometry.distribution.type}`)),
        ),
    emitter(photometry, warnings),
  );
  return success(`<?xml version="1.0" encoding="UTF-8"?>\n${text}\n`, warnings);
}

function emitter(photometry: Photometry, warnings: Issue[]): string {
  const set = photometry.lampSets[photometry.lampSet] as LampSet | undefined;
  const { absolute, ratedFlux } = photometry;
  const cct = numberIn(set?.colourTemperature);
  const ra = numberIn(set?.colourRendering);
  return element(
    "Emitter",
    element("Quantity", "1"),
    element("Description", escaped(set?.type || "not stated")),
    ratedFlux === undefined || absolute ? "" : element("RatedLumens", decimalText(ratedFlux)),
    element("InputWattage", decimalText(photometry.watts ?? 0)),
    cct === undefined ? "" : element("ColorTemperature", element("FixedCCT", cct)),
    ra === undefined ? "" : element("ColorRendering", element("CIE_CRI", element("Ra", ra))),
    generation(photometry),
    element("LuminousData", intensities(photometry), flux(photometry)),
    emissionAreas(photometry.opening, warnings),
  );
}

function intensities({ distribution, absolute, ratedFlux }: Photometry): string {
  const { horizontal, vertical, intensity } = distribution;
  const { planes } = foldPlanes(distribution);
  const rows = vertical.length;
  const v = Array.from(vertical, angleText);
  const samples = planes.flatMap((plane) => {
    const h = angleText(horizontal[plane]);
    return v.map(
      (angle, i) => `<IntData h="${h}" v="${angle}">${decimalText(intensity[plane * rows + i])}</IntData>`,
    );
  });
  return element(
    "LuminousIntensity",
    element("AbsolutePhotometry", String(absolute || ratedFlux === undefined)),
    element("NumberMeasured", String(samples.length)),
    element("NumberHorz", String(planes.length)),
    element("NumberVert", String(rows)),
    ...samples,
  );
}

function flux({ distribution, absolute, ratedFlux }: Photometry): string {
  const flux = absolute && ratedFlux !== undefined ? ratedFlux : totalFlux(distribution);
  return element("LuminousFlux", decimalText(flux));
}

function generation({ generation: how }: Photometry): string {
  if (how === undefined || how.source === "undefined") return "";
  return element(
    "DataGeneration",
    element("Simulation", String(how.source === "simulation")),
    how.source === "simulation" ? "" : element("Laboratory", how.source),
    element("IntensityScaling", String(how.scaled)),
    element("AngleInterpolation", String(how.interpolated)),
  );
}

function emissionAreas(opening: LuminousOpening, warnings: Issue[]): string {
  const { shape, length, width, height } = opening;
  if (shape === "point") return "";
  const round = isUprightRound(opening);
  if (!round && shape !== "rectangle" && shape !== "box")
    warnings.push({
      code: "tm33-opening",
      severity: "warning",
      message: "The opening's shape has no emission area in TM-33; its bounding box was written.",
      received: shape,
      where: {},
    });
  const area = (
    face: string,
    first: readonly [string, number],
    second: readonly [string, number],
    circle = false,
  ) =>
    element(
      `${face}Face`,
      element(
        `${face}Area`,
        element(first[0], decimalText(first[1])),
        element(second[0], decimalText(second[1])),
        circle ? element("Circular", "true") : "",
      ),
    );
  return element(
    "EmissionAreas",
    area("Bottom", ["Length", length], ["Width", width], round),
    height > 0 ? area("C0", ["Width", width], ["Height", height]) : "",
    height > 0 ? area("C90", ["Length", length], ["Height", height]) : "",
  );
}

/** The first whole number of a text such as `3000K` or `Ra > 80`. */
function numberIn(text: string | undefined): string | undefined {
  return /\d{2,5}/.exec(text?.slice(0, 80) ?? "")?.[0];
}

function element(name: string, ...content: readonly string[]): string {
  const inside = content.filter((part) => part !== "");
  if (inside.length === 0) return `<${name}/>`;
  return inside[0].startsWith("<")
    ? `<${name}>\n${inside.join("\n")}\n</${name}>`
    : `<${name}>${inside[0]}</${name}>`;
}

/** Text for an element: markup escaped, characters that XML 1.0 forbids dropped. */
function escaped(text: string): string {
  const allowed = Array.from(text)
    .filter((sign) => /[\t\n\r\x20-\ud7ff\ue000-\ufffd]|[\u{10000}-\u{10ffff}]/u.test(sign))
    .join("");
  return allowed.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
