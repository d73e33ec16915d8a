/**
 * EULUMDAT (.ldt): text to photometry.
 *
 *   I = table (cd per 1000 lm) × conversion factor × flux of the chosen lamp set / 1000
 *
 * A negative number of lamps means absolute photometry; the arithmetic is the same. The integral of the table
 * over the sphere is ten times the light output ratio in percent, which `flux-check.ts` holds the file to.
 * The luminous length lies along C90–C270 and the width along C0–C180 (LM-63 has them the other way round), so
 * they swap into `LuminousOpening`; of the four side heights the largest counts.
 *
 * References: Stockmar, "EULUMDAT/2 – Extended Version of a Well Established Luminaire Data Format", CIBSE 1998;
 * order of the planes for Isym 3 checked against files published in both formats.
 */

import type { Outcome } from "../../diagnostics/issue.ts";
import type { Photometry } from "../photometry.ts";
import { checkedAngles } from "./angle-list.ts";
import { type EulumdatHeader, readEulumdatHeader } from "./eulumdat-header.ts";
import { openingOfSides } from "./eulumdat-opening.ts";
import { storedPlanes } from "./eulumdat-planes.ts";
import { checkFlux } from "./flux-check.ts";
import { allFinite, refuseNegative, verticalRangeWarning } from "./intensity-table.ts";
import type { Label } from "./lm63-header.ts";
import { NumberScanner } from "./number-scanner.ts";
import { expandPlanes } from "./plane-expansion.ts";
import { refuseRadiometric } from "./radiometric.ts";
import type { ReadOptions } from "./read-options.ts";
import { relampFactor } from "./relamp.ts";
import { quote, SourceText } from "./source-text.ts";

/** The photometry a EULUMDAT text holds. Candela are final; angles rad; opening m. */
export function readEulumdat(text: string, options: ReadOptions): Outcome<Photometry> {
  const source = new SourceText(text, options.file);
  return source.outcome(read(source, options));
}

function read(source: SourceText, options: ReadOptions): Photometry | undefined {
  const header = readEulumdatHeader(source);
  if (header === undefined) return undefined;
  const labels = labelsOf(header);
  if (refuseRadiometric(labels, source)) return undefined;
  const scale = scaleOf(header, options, source);
  if (scale === undefined) return undefined;
  const table = readTable(header, source);
  if (table === undefined) return undefined;

  const intensity = table.intensity.map((value) => value * scale.factor);
  if (!allFinite(intensity))
    return source.error(
      header.conversionOffset,
      "eulumdat-overflow",
      "The scaled intensities are beyond any light.",
    );
  const { distribution, conflict } = expandPlanes({ ...table, type: "C", intensity });
  if (conflict > 0)
    source.warn(
      header.end,
      "eulumdat-planes-differ",
      "Two planes of the same direction differ; the first was kept.",
      {
        received: `a difference of up to ${conflict} cd`,
      },
    );
  const ratio = header.lightOutputRatio > 0 ? header.lightOutputRatio / 100 : undefined;
  checkFlux(distribution, { rated: scale.flux, ratio, at: header.ratioOffset }, source);
  if (header.tilt !== 0)
    source.warn(
      header.tiltOffset,
      "eulumdat-tilt",
      "The luminaire was measured tilted; its angles are kept as filed.",
      {
        received: `${header.tilt}°`,
      },
    );
  const lampSets = header.lampSets.map(({ negative: _, at: __, ...set }, i) =>
    i === scale.set ? { ...set, flux: scale.flux } : set,
  );
  const [width, length, height] = header.housing.map((side) => side / 1000);
  return {
    format: "EULUMDAT",
    edition: "",
    stored: { planes: table.horizontal.length, angles: table.vertical.length },
    distribution,
    opening: openingOfSides(header.luminous, header.sides),
    housing: { length, width, height },
    absolute: scale.absolute,
    ratedFlux: scale.flux,
    watts: lampSets[scale.set]?.watts,
    lampSets,
    lampSet: scale.set,
    labels,
    description: header.texts.name,
  };
}

/** Which set, its flux, and the factor from cd per 1000 lm to cd. */
function scaleOf(header: EulumdatHeader, options: ReadOptions, source: SourceText) {
  const chosen = options.lampSet ?? 0;
  const set = header.lampSets[chosen];
  if (set === undefined && (header.lampSets.length > 0 || chosen !== 0))
    return source.error(header.tiltOffset, "lamp-set-unknown", "The file has no such lamp set.", {
      expected: header.lampSets.length === 0 ? "none" : `0 to ${header.lampSets.length - 1}`,
      received: String(chosen),
    });
  const at = set?.at ?? header.tiltOffset;
  const absolute = set?.negative ?? false;
  // The table is per 1000 lm whatever the lamp, so a new flux needs no old one.
  if (relampFactor({ absolute, ownFlux: set?.flux ?? 1000, wanted: options.flux, at }, source) === undefined)
    return undefined;
  const flux = options.flux ?? set?.flux;
  if (flux === undefined)
    return source.error(
      at,
      "eulumdat-no-flux",
      "The lamp flux is not stated, and the table is per 1000 lm of it.",
      {
        expected: "a positive flux in the file, or one given with the luminaire",
      },
    );
  let { conversion } = header;
  if (conversion <= 0) {
    source.warn(
      header.conversionOffset,
      "eulumdat-conversion",
      "The conversion factor is not positive; 1 was used.",
    );
    conversion = 1;
  } else if (conversion !== 1)
    source.warn(header.conversionOffset, "eulumdat-conversion", "A conversion factor was applied.", {
      received: String(conversion),
    });
  return { set: chosen, flux, absolute, factor: (conversion * flux) / 1000 };
}

function readTable(header: EulumdatHeader, source: SourceText) {
  const scanner = new NumberScanner(source, header.end, { comma: "decimal", code: "eulumdat" });
  const planesAt = scanner.offset;
  const list = scanner.numbers("the C angles", header.planes);
  if (list === undefined) return undefined;
  const place = (i: number) => scanner.placeOf(planesAt, i);
  const circle = { name: "C angles", least: 0, most: 360, code: "eulumdat", place };
  // With one plane for all C the list has no meaning.
  if (header.isym !== 1 && checkedAngles(list, circle, source) === undefined) return undefined;
  const stored = storedPlanes(header.isym, Array.from(list));
  if (stored.missing !== undefined)
    return source.error(
      place(0),
      "eulumdat-missing-plane",
      `Isym ${header.isym} needs a plane that is not listed.`,
      {
        expected: `a plane at C${stored.missing}`,
      },
    );

  const verticalAt = scanner.offset;
  const vertical = scanner.numbers("the γ angles", header.rows);
  if (vertical === undefined) return undefined;
  const placeVertical = (i: number) => scanner.placeOf(verticalAt, i);
  const upright = { name: "γ angles", least: 0, most: 180, code: "eulumdat", place: placeVertical };
  if (checkedAngles(vertical, upright, source) === undefined) return undefined;
  const odd = verticalRangeWarning(vertical[0], vertical[header.rows - 1], "C");
  if (odd !== undefined) source.warn(placeVertical(0), "eulumdat-vertical-range", odd.message, odd);

  const tableAt = scanner.offset;
  const intensity = scanner.numbers("the intensities", stored.angles.length * header.rows);
  if (intensity === undefined) return undefined;
  if (!refuseNegative(intensity, "eulumdat", (i) => scanner.placeOf(tableAt, i), source)) return undefined;
  const extra = scanner.token();
  if (extra !== undefined)
    source.warn(scanner.at, "eulumdat-trailing-text", "Text after the last intensity was ignored.", {
      received: quote(extra),
    });
  return { symmetry: stored.symmetry, horizontal: stored.angles, vertical, intensity };
}

function labelsOf(header: EulumdatHeader): Label[] {
  const { texts } = header;
  return [
    { key: "maker", value: texts.maker },
    { key: "report number", value: texts.report },
    { key: "luminaire", value: texts.name },
    { key: "luminaire number", value: texts.number },
    { key: "file name", value: texts.fileName },
    { key: "date", value: texts.date },
    { key: "housing (mm)", value: header.housing.join(" × ") },
    { key: "downward share (%)", value: String(header.downwardShare) },
    { key: "light output ratio (%)", value: String(header.lightOutputRatio) },
  ];
}
