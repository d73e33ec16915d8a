/**
 * IES TM-33-18 and -23: XML text to photometry.
 *
 * The intensities of all emitters are summed, each from its `EmitterCenter` (emitters-together.ts), unless one is asked for. They are taken as the
 * light of all units of an emitter together, so `Quantity` does not multiply. Relative data are taken as candela
 * at the rated lumens. Radiant, photon and spectral data are not light and are refused when nothing else is
 * there. The opening comes from the emission areas; without any it is a point.
 *
 * References: ANSI/IES TM-33-18 and TM-33-23, Standard Format for the Electronic Transfer of Luminaire Optical
 * Data, by their schemas; how `Quantity` and relative data are meant is an assumption, said in a warning.
 */

import { failure, type Outcome } from "../../diagnostics/issue.ts";
import { sumIfAll } from "../../numerics/known-sum.ts";
import type { IntensityDistribution, PhotometryType } from "../intensity-distribution.ts";
import type { LuminousOpening } from "../luminous-opening.ts";
import type { FileGeneration, LampSet, Photometry } from "../photometry.ts";
import { emittersTogether, togetherWords } from "./emitters-together.ts";
import { checkFlux } from "./flux-check.ts";
import { allFinite, MOST_LAMPS, refuseNegative, verticalRangeWarning } from "./intensity-table.ts";
import { parseNumber } from "./number-scanner.ts";
import { expandPlanes } from "./plane-expansion.ts";
import type { ReadOptions } from "./read-options.ts";
import { relampFactor } from "./relamp.ts";
import { quote, SourceText } from "./source-text.ts";
import { sumDistributions } from "./sum-distributions.ts";
import { tm33Opening } from "./tm33-opening.ts";
import { readTm33Table, rowsOf } from "./tm33-table.ts";
import { child, childrenNamed, readXml, textOf, type XmlElement } from "./xml.ts";

const EDITIONS: Readonly<Record<string, string>> = {
  iestm33: "18",
  iestm3318: "18",
  iestm3322: "23",
  iestm3323: "23",
};

/** The photometry a TM-33 text holds. Candela are final; angles rad; opening m. */
export function readTm33(text: string, options: ReadOptions): Outcome<Photometry> {
  const source = new SourceText(text, options.file);
  const root = readXml(source);
  if (root === undefined) return failure(...source.errors);
  return source.outcome(read(root, source, options));
}

interface Emitter {
  readonly element: XmlElement;
  readonly lampSet: LampSet;
  readonly absolute: boolean;
  readonly distribution: IntensityDistribution;
}

function read(root: XmlElement, source: SourceText, options: ReadOptions): Photometry | undefined {
  const edition = EDITIONS[root.name.toLowerCase().replace(/[_-]/g, "")];
  if (edition === undefined)
    return source.error(root.at, "tm33-unknown-root", "The XML is not TM-33.", {
      expected: "IESTM33 or IESTM33-22",
      received: quote(root.name),
    });
  const type = typeOf(root, source);
  if (type === undefined) return undefined;
  const all = childrenNamed(root, "Emitter");
  const luminous = all.filter((element) => intensityData(element) !== undefined);
  if (luminous.length === 0) return refuseWithoutLight(root, all, source);
  const chosen = chooseEmitters(luminous, options, source);
  if (chosen === undefined) return undefined;
  const emitters: Emitter[] = [];
  for (const element of chosen) {
    const emitter = readEmitter(element, type, source);
    if (emitter === undefined) return undefined;
    emitters.push(emitter);
  }

  const absolute = emitters.every((emitter) => emitter.absolute);
  const ownFlux = sumIfAll(emitters.map((emitter) => emitter.lampSet.flux));
  const relamp = relampFactor(
    { absolute, ownFlux, wanted: options.flux, at: emitters[0].element.at },
    source,
  );
  if (relamp === undefined) return undefined;
  const summed =
    emitters.length === 1 ? emitters[0].distribution : sumDistributions(emitters.map((e) => e.distribution));
  const distribution =
    relamp === 1 ? summed : { ...summed, intensity: summed.intensity.map((value) => value * relamp) };
  if (!allFinite(distribution.intensity))
    return source.error(
      emitters[0].element.at,
      "tm33-overflow",
      "The multiplied intensities are not finite.",
    );
  const ratedFlux = options.flux ?? ownFlux;
  if (ratedFlux !== undefined)
    checkFlux(
      distribution,
      { rated: ratedFlux, ratio: absolute ? 1 : undefined, at: emitters[0].element.at },
      source,
    );

  const lampSets = luminous.map((element) => lampSetOf(element));
  return {
    format: "TM-33",
    edition,
    distribution,
    generation: generationOf(emitters[0].element),
    opening: emitters.length === 1 ? tm33Opening(chosen, source) : openingOfAll(emitters, summed, source),
    absolute,
    ratedFlux,
    watts: sumIfAll(emitters.map((emitter) => emitter.lampSet.watts)),
    lampSets,
    lampSet: options.lampSet ?? 0,
    labels: labelsOf(root),
    description: textOf(root, "Header", "Description"),
  };
}

/** The opening of several emitters, which covers them where all say where they are. */
function openingOfAll(
  emitters: readonly Emitter[],
  sum: IntensityDistribution,
  source: SourceText,
): LuminousOpening {
  const places = emitters.map(({ element }) => child(element, "EmitterCenter"));
  const { at } = emitters[1].element;
  const count = `${emitters.length} emitters`;
  if (places.includes(undefined)) {
    const received = `${count}, not all with an EmitterCenter`;
    source.warn(at, "tm33-emitters-summed", "The light of all emitters is summed about one centre.", {
      received,
    });
    return tm33Opening(
      emitters.map(({ element }) => element),
      source,
    );
  }
  const together = emittersTogether(
    emitters.map(({ element, distribution }, i) => {
      const offset = (axis: string): number => parseNumber(textOf(places[i], `${axis}Offset`)) ?? 0;
      const centre = [offset("Length"), offset("Width"), offset("Height")] as const;
      return { distribution, opening: tm33Opening([element], source), centre };
    }),
    sum,
  );
  const { message, ...detail } = togetherWords(together, count);
  source.warn(at, "tm33-emitters-summed", message, detail);
  return together.opening;
}

/** What holds the rows of an emitter's intensities: `LuminousIntensity`, or the luminous data themselves, as some programs write. */
function intensityData(emitter: XmlElement): XmlElement | undefined {
  const data = child(emitter, "LuminousData");
  return (
    child(data, "LuminousIntensity") ?? (data !== undefined && rowsOf(data).length > 0 ? data : undefined)
  );
}

function typeOf(root: XmlElement, source: SourceText): PhotometryType | undefined {
  const element =
    child(root, "Equipment", "Gonioradiometer", "Type") ?? child(root, "Equipment", "Goniometer", "Type");
  // Blanks stand at underscores where a text was extracted from a page.
  const text = element?.text.replace(/[\s_-]+/g, "").toUpperCase() ?? "";
  if (element === undefined || text === "") return "C";
  const letter = /^(?:CIE|IES|TYPE)*([ABC])$/.exec(text)?.[1] as PhotometryType | undefined;
  if (letter !== undefined) return letter;
  return source.error(element.at, "tm33-unknown-type", "The photometric type is not known.", {
    expected: "IES_A, IES_B, IES_C, CIE_A, CIE_B or CIE_C",
    received: quote(element.text),
  });
}

function refuseWithoutLight(
  root: XmlElement,
  emitters: readonly XmlElement[],
  source: SourceText,
): undefined {
  const other = emitters
    .flatMap((element) => element.children)
    .find(({ name }) => /^(Radiant|Photon|Spectral|Irrad|PFD|SpecIrrad)Data$/i.test(name));
  if (other === undefined)
    return source.error(root.at, "tm33-no-light", "No emitter holds luminous intensities.", {
      expected: "LuminousData with LuminousIntensity, or with rows IntData or IntensityData",
      received: quote(
        emitters
          .flatMap((element) => (child(element, "LuminousData") ?? element).children)
          .map(({ name }) => name)
          .join(" ") || "no emitter",
      ),
    });
  return source.error(
    other.at,
    "radiometric-file",
    "The file is radiometric: its intensities are not luminous, so no illuminance follows from it.",
    { expected: "LuminousData", received: quote(other.name) },
  );
}

function chooseEmitters(luminous: readonly XmlElement[], options: ReadOptions, source: SourceText) {
  if (options.lampSet === undefined) return luminous;
  const one = luminous[options.lampSet];
  if (one !== undefined) return [one];
  return source.error(luminous[0].at, "lamp-set-unknown", "The file has no such emitter.", {
    expected: `0 to ${luminous.length - 1}`,
    received: String(options.lampSet),
  });
}

function readEmitter(element: XmlElement, type: PhotometryType, source: SourceText): Emitter | undefined {
  const data = intensityData(element);
  if (data === undefined) return undefined;
  const table = readTm33Table(data, type, source);
  if (table === undefined) return undefined;
  if (!refuseNegative(table.intensity, "tm33", () => data.at, source)) return undefined;
  const odd = verticalRangeWarning(table.vertical[0], table.vertical[table.vertical.length - 1], type);
  if (odd !== undefined) source.warn(data.at, "tm33-vertical-range", odd.message, odd);
  const { distribution, conflict } = expandPlanes({ ...table, type });
  if (conflict > 0)
    source.warn(
      data.at,
      "tm33-planes-differ",
      "Two planes of the same direction differ; the first was kept.",
      {
        received: `a difference of up to ${conflict} cd`,
      },
    );
  const absolute = !/^false$/i.test(textOf(data, "AbsolutePhotometry"));
  if (!absolute)
    source.warn(
      data.at,
      "tm33-relative",
      "The data are relative; they are taken as candela at the rated lumens.",
    );
  const lampSet = lampSetOf(element);
  if (lampSet.count > 1)
    source.warn(element.at, "tm33-quantity", "The intensities are taken as those of all units together.", {
      received: `${lampSet.count} units`,
    });
  const ballast = parseNumber(textOf(element, "BallastFactor")) ?? 1;
  if (ballast !== 1)
    source.warn(
      element.at,
      "tm33-ballast-factor",
      "A ballast factor is stated; the intensities are taken to hold it.",
    );
  if (child(element, "TiltAngles") !== undefined)
    source.warn(element.at, "tm33-tilt", "The lamp is sensitive to tilt; intensities are for none.");
  const stated = parseNumber(textOf(child(element, "LuminousData"), "LuminousFlux"));
  const flux = absolute ? (stated ?? lampSet.flux) : lampSet.flux;
  return { element, lampSet: { ...lampSet, flux }, absolute, distribution };
}

function lampSetOf(element: XmlElement): LampSet {
  const positive = (name: string) => {
    const value = parseNumber(textOf(element, name));
    return value !== undefined && value > 0 ? value : undefined;
  };
  return {
    count: Math.min(MOST_LAMPS, Math.max(1, Math.round(positive("Quantity") ?? 1))),
    type: textOf(element, "Description"),
    flux: positive("RatedLumens"),
    watts: positive("InputWattage"),
    colourTemperature: textOf(element, "ColorTemperature", "FixedCCT"),
    colourRendering: textOf(element, "ColorRendering", "CIE_CRI", "Ra"),
  };
}

function generationOf(element: XmlElement): FileGeneration | undefined {
  const data = child(element, "DataGeneration");
  if (data === undefined) return undefined;
  const yes = (name: string) => /^(true|1)$/i.test(textOf(data, name));
  const source = yes("Simulation")
    ? "simulation"
    : /accredited/i.test(textOf(data, "Laboratory"))
      ? "accredited laboratory"
      : "laboratory";
  const measured = source !== "simulation";
  const interpolated = measured && yes("AngleInterpolation");
  const scaled = measured && yes("IntensityScaling");
  const digits = [source === "accredited laboratory", interpolated, scaled, !measured, false];
  return { code: `1.${digits.map(Number).join("")}`, source, interpolated, scaled };
}

function labelsOf(root: XmlElement): { key: string; value: string }[] {
  return (child(root, "Header")?.children ?? []).map(({ name, text }) => ({ key: name, value: text }));
}
