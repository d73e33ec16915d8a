/** What every answer to an input must be: an outcome whose issues have a place, or values that are finite and in order. */

import type { RawStudy } from "../../site/edits/raw-study.ts";
import { packFragment, unpackFragment } from "../../site/storage/share.ts";
import { isWhole } from "../../site/storage/sound-study.ts";
import { loadReadings } from "../../site/storage/taken-readings.ts";
import { readReadings } from "../../src/design/verify/readings.ts";
import type { Issue, Outcome } from "../../src/diagnostics/issue.ts";
import type { Photometry } from "../../src/photometry/photometry.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { summarise } from "../../src/photometry/summary.ts";
import { writeEulumdat } from "../../src/photometry/writers/eulumdat-writer.ts";
import { writeLm63 } from "../../src/photometry/writers/lm63-writer.ts";
import { writeTm33 } from "../../src/photometry/writers/tm33-writer.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { readShades } from "../../src/study/shade-file.ts";
import { readStudy } from "../../src/study/study-text.ts";
import { resolveStudy } from "../support/resolve-study.ts";
import { CONTEXT } from "../support/studies.ts";
import type { Random } from "./mutations.ts";

export type Kind = "photometry" | "study" | "shades" | "readings" | "link" | "record";

/** An answer, and how long reading alone took. */
export interface Answer {
  readonly kind: "refused" | "read";
  /** Of the processor, so that other work on the machine counts for nothing (ms). */
  readonly time: number;
  /** What is wrong with the answer. */
  readonly fault?: string;
}

export interface Input {
  readonly kind: Kind;
  readonly name: string;
  readonly bytes: Uint8Array;
}

const textOf = (bytes: Uint8Array): string => Buffer.from(bytes).toString("utf8");

function timed<T>(work: () => T): { value: T; time: number } {
  const start = process.cpuUsage();
  const value = work();
  const { user, system } = process.cpuUsage(start);
  return { value, time: (user + system) / 1000 };
}

/** Reads an input as its kind and checks the answer. A throw is a fault. */
export function answerOf(input: Input, random: Random, scene: Scene): Answer {
  try {
    return ANSWERS[input.kind](input, random, scene);
  } catch (error) {
    return {
      kind: "refused",
      time: 0,
      fault: `threw ${error instanceof Error ? error.stack : String(error)}`,
    };
  }
}

const ANSWERS: Record<Kind, (input: Input, random: Random, scene: Scene) => Answer> = {
  photometry({ name, bytes }, random) {
    const { value, time } = timed(() => readPhotometry(bytes, { file: name }));
    return answered(value, time, (photometry, warnings) =>
      faultOfPhotometry(photometry, warnings, random, textOf(bytes)),
    );
  },
  study({ name, bytes }) {
    const text = textOf(bytes);
    const { value, time } = timed(() => {
      const read = readStudy(text, name);
      return read.ok ? resolveStudy(read.value, CONTEXT) : read;
    });
    return answered(value, time, ({ scenes }) => {
      for (const { planes, layers, surfaces } of scenes) {
        if (!planes.every(({ points }) => points.every(Number.isFinite))) return "points that are no numbers";
        if (!surfaces.every(({ vertices }) => vertices.flat().every(Number.isFinite)))
          return "surfaces without a place";
        for (const { luminaires } of layers)
          for (const { frame } of luminaires)
            if (![...frame.origin, ...frame.rotation].every(Number.isFinite))
              return "luminaires without a place";
      }
      return undefined;
    });
  },
  shades({ name, bytes }) {
    const text = textOf(bytes);
    const { value, time } = timed(() => readShades(text, name, "shade"));
    return answered(value, time, (shades) =>
      shades.every(({ lamp }) => lamp.flux > 0 && Number.isFinite(lamp.flux))
        ? undefined
        : "a lamp without flux",
    );
  },
  readings({ name, bytes }, _, scene) {
    const text = textOf(bytes);
    const { value, time } = timed(() => readReadings(text, scene, name));
    return answered(value, time, ({ readings, background }) => {
      const sound = readings.every(
        ({ at, illuminance, lit }) =>
          at.every(Number.isFinite) &&
          Number.isFinite(illuminance) &&
          lit.every((dim) => dim >= 0 && dim <= 1),
      );
      return sound && background >= 0 ? undefined : "readings that are no numbers";
    });
  },
  link({ bytes }) {
    const fragment = textOf(bytes);
    const { value, time } = timed(() => unpackFragment(fragment));
    if (value.kind !== "study") {
      const said = value.kind === "none" || value.message !== "";
      return { kind: "refused", time, ...(said ? {} : { fault: "a refusal without words" }) };
    }
    return answered(readStudy(value.text, "link"), time, (study) => {
      const again = unpackFragment(packFragment(study as unknown as RawStudy).fragment);
      return again.kind === "study" && readStudy(again.text).ok
        ? undefined
        : "another study when packed again";
    });
  },
  record({ bytes }) {
    const text = textOf(bytes);
    localStorage.setItem("fuzz", text);
    const { value, time } = timed(() => loadReadings("fuzz"));
    const sound = value.taken.every(
      ({ at, lux }) => at.every(Number.isFinite) && Number.isFinite(lux) && lux >= 0,
    );
    let document: unknown;
    try {
      document = (JSON.parse(text) as { document?: unknown } | null)?.document;
    } catch {
      // Text that is no JSON is never in the database.
    }
    // Whatever passes as whole is shown: its options and layers are gone through without a fault.
    if (isWhole(document))
      for (const { layers } of document.arrangements)
        for (const layer of layers) JSON.stringify(layer.row ?? null);
    return { kind: "read", time, ...(sound ? {} : { fault: "kept readings that are no numbers" }) };
  },
};

function answered<T>(
  outcome: Outcome<T>,
  time: number,
  faultOf: (value: T, warnings: readonly Issue[]) => string | undefined,
): Answer {
  const issues = outcome.ok ? outcome.warnings : outcome.issues;
  const placeless = issues.find(
    ({ code, message, where }) =>
      code === "" || message === "" || (where.line === undefined && where.path === undefined),
  );
  const fault =
    !outcome.ok && issues.length === 0
      ? "refused without an issue"
      : !outcome.ok && placeless !== undefined
        ? `an issue without a place: ${JSON.stringify(placeless)}`
        : outcome.ok
          ? faultOf(outcome.value, outcome.warnings)
          : undefined;
  return { kind: outcome.ok ? "read" : "refused", time, ...(fault === undefined ? {} : { fault }) };
}

const isSize = (value: number | undefined): boolean =>
  value === undefined || (value >= 0 && Number.isFinite(value));
const rises = (list: Float64Array): boolean => list.every((value, i) => i === 0 || value > list[i - 1]);

function faultOfPhotometry(
  photometry: Photometry,
  warnings: readonly Issue[],
  random: Random,
  text: string,
): string | undefined {
  const { distribution, opening, watts, ratedFlux, lampSets, tilt } = photometry;
  const { horizontal, vertical, intensity } = distribution;
  if (intensity.length !== horizontal.length * vertical.length)
    return "a table of another size than its angles";
  if (!intensity.every((value) => isSize(value))) return "an intensity that is negative or no number";
  if (!rises(horizontal) || !rises(vertical)) return "angles that do not rise";
  if (![...horizontal, ...vertical].every((angle) => Math.abs(angle) <= 2 * Math.PI + 1e-9))
    return "an angle beyond a turn";
  if (![opening.length, opening.width, opening.height, watts, ratedFlux].every(isSize))
    return "a size below zero";
  if (!lampSets.every(({ flux, watts: power }) => isSize(flux) && isSize(power))) return "a lamp below zero";
  if (tilt !== undefined && !(rises(tilt.angles) && tilt.factors.every(isSize)))
    return "tilt factors out of order";
  if (random() < 0.2) {
    const { warnings: said, ...figures } = summarise(photometry, warnings);
    const odd = numbersIn(figures).find(([, value]) => !Number.isFinite(value));
    if (odd !== undefined) return `a figure that is none: ${odd}`;
    // A message may quote the file.
    const isNone = /NaN|Infinity|undefined/;
    const words = said.find(({ message }) => isNone.test(message) && !isNone.test(text));
    if (words !== undefined) return `a warning that names no number: ${words.message}`;
  }
  return rewritten(photometry, random);
}

function numbersIn(value: unknown, path = ""): [string, number][] {
  if (typeof value === "number") return [[path, value]];
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${path}/${key}`));
}

/** Ten significant digits are written; between two angles both tables are interpolated alike. */
const WRITTEN = 2e-9;

/** Written in one of the formats and read again: the same light. */
function rewritten(photometry: Photometry, random: Random): string | undefined {
  const { distribution } = photometry;
  const choice = Math.floor(random() * 4);
  const [format, written] = (
    [
      ["LM-63-2002", () => writeLm63(photometry)],
      ["LM-63-2019", () => writeLm63(photometry, { edition: "2019" })],
      ["TM-33", () => writeTm33(photometry)],
      ["EULUMDAT", () => writeEulumdat(photometry)],
    ] as const
  )[choice];
  const outcome = written();
  if (!outcome.ok)
    return outcome.issues.every(({ message }) => message !== "") ? undefined : "unwritten without a word";
  const again = readPhotometry(new TextEncoder().encode(outcome.value), { file: "again" });
  if (!again.ok) return `written as ${format} and refused: ${JSON.stringify(again.issues[0])}`;
  // Of types A and B, EULUMDAT holds another table, resampled.
  if (format === "EULUMDAT" && distribution.type !== "C") return undefined;
  const peak = distribution.intensity.reduce((a, b) => Math.max(a, b), 0);
  for (let n = 0; n < 12; n++) {
    const z = 2 * random() - 1;
    const turn = 2 * Math.PI * random();
    const r = Math.sqrt(1 - z * z);
    const direction = [r * Math.cos(turn), r * Math.sin(turn), z] as const;
    const [a, b] = [distribution, again.value.distribution].map((each) =>
      intensityTowards(each, ...direction),
    );
    if (!(Math.abs(a - b) <= WRITTEN * peak + 1e-29))
      return `written as ${format} and read as other light: ${a} cd, then ${b} cd`;
  }
  return undefined;
}
