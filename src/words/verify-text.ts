/** What `verify` says to a person: reading by reading, what explains the difference, what is wrong, what stays open. */

import { IMPROBABLE, type ProbableFault } from "../design/verify/diagnose-deviation.ts";
import { type Finding, OF_LAMP } from "../design/verify/hypotheses.ts";
import type { VerifiedZone } from "../design/verify/verified-zones.ts";
import type { Verification } from "../design/verify/verify.ts";
import { printable } from "../diagnostics/printable.ts";
import { capital } from "../diagnostics/sentence.ts";
import { VERSION } from "../diagnostics/version.ts";
import type { Vec3 } from "../geometry/vector.ts";
import { boxTags } from "../scene/ceiling-boxes.ts";
import { roomToIsland } from "../scene/island-frame.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { formatIlluminance, formatIlluminanceValue } from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";
import { table, textLines } from "./table.ts";
import { detectableJson, undetectedWords } from "./undetected-faults.ts";
import { VERDICT_MARK } from "./zone-text.ts";

export interface VerifyTextInput {
  readonly study: Pick<ResolvedStudy, "title" | "display">;
  readonly scene: Scene;
  readonly verification: Verification;
  /** Names a reading by where it was taken instead of by its line in a list. */
  readonly byPlace?: boolean;
}

export function verifyText({ study, scene, verification }: VerifyTextInput): string {
  const { illuminance: unit } = study.display;
  const { compared, chance, maintenance, parameters, faults, zones, open, background } = verification;
  const value = (lux: number) => formatIlluminanceValue(lux, unit);
  const isUnexplained = faults.some(({ kind, instead }) => kind === "unexplained" && instead.length === 0);
  const lines = [
    `${printable(study.title)}: ${printable(scene.name)}`,
    "",
    ...textLines(agreementWords(verification)),
    ...textLines(
      `Readings as far off as these, all together, come by chance ${chanceWords(chance)} where nothing is wrong.`,
    ),
    ...textLines(
      maintenance === 1
        ? `Predicted is new, clean light; papers state aged light (× ${scene.maintenance.toFixed(2)}): for that, --maintenance aged.`
        : `Predicted is light with ${maintenance.toFixed(2)} of it left by age and dirt; for new, clean light, --maintenance 1.`,
    ),
    ...(background > 0
      ? textLines(`${formatIlluminance(background, unit)} with everything off was taken from each.`)
      : []),
    "",
    ...table(
      [
        ["place", "lit", `read, ${unit}`, "predicted", "may show", "explained", "reading"],
        ...compared.map(({ at, lit, read, predicted, band, agrees, fitted, explained }) => [
          placeWords(scene, at, study),
          litWords(scene, lit),
          value(read),
          value(predicted),
          `${value(band[0])} to ${value(band[1])}`,
          isUnexplained ? "–" : value(fitted),
          `${agrees ? (explained ? "agrees" : "agrees alone") : "differs"}${explained ? "" : ", not explained"}`,
        ]),
      ],
      2,
      [0, 1, 6],
    ),
    "",
    "What is wrong",
    ...(faults.length === 0
      ? ["  Nothing the readings point to."]
      : faults.flatMap((fault) => textLines(faultSentence(fault, input()), 2))),
    "",
    "What the readings teach (1.00 is what was expected)",
    ...table(
      [
        ["", "factor", "95 % band", "before"],
        ...parameters.map(({ name, factor, band, before }) => [
          printable(name, 60),
          factor.toFixed(2),
          rangeWords(band),
          rangeWords(before),
        ]),
      ],
      2,
    ),
  ];
  if (isUnexplained)
    lines.push(
      "",
      ...textLines(
        "Nothing is said of the zones: what was predicted is not what was read, and nothing explains why.",
      ),
    );
  if (zones.length > 0) {
    lines.push("", "The zones, with what was learnt");
    for (const zone of zones) lines.push(...textLines(zoneWords(zone, study), 2));
  }
  if (open.length > 0) {
    lines.push("", "What stays open");
    for (const words of open) lines.push(...textLines(printable(words, 300), 2));
  }
  const undetected = undetectedWords(input());
  if (undetected !== "")
    lines.push("", "What these readings could not have told", ...textLines(undetected, 2));
  return `${lines.join("\n").trimEnd()}\n`;

  function input(): VerifyTextInput {
    return { study, scene, verification };
  }
}

/** What the readings say all together: each alone may be within what it may be off, and all of them not. */
export function agreementWords(
  { agree, chance, compared: { length: count }, sound }: Verification,
  prediction = "the prediction",
): string {
  const within = `with ${prediction} within what each may be off.`;
  if (count === 1) return `The reading ${agree === 1 ? "agrees" : "does not agree"} ${within}`;
  if (sound) return `${agree === count ? `All ${count}` : `${agree} of ${count}`} readings agree ${within}`;
  const found = chance < IMPROBABLE ? `do not agree with ${prediction}` : "point to something wrong";
  const alone =
    agree === count
      ? `though each of the ${count} alone is within what it may be off`
      : agree === 0
        ? `and none of the ${count} alone is within what it may be off`
        : `and only ${agree} of ${count} alone are within what each may be off`;
  return `The readings, all together, ${found}, ${alone}.`;
}

const rangeWords = ([low, high]: readonly [number, number]): string =>
  high > 5 ? "unknown" : `${low.toFixed(2)} to ${high.toFixed(2)}`;

/** How a verdict is joined to what is asked. */
const JOINED: Readonly<Partial<Record<VerifiedZone["verdict"], string>>> = {
  "falls short": " of",
  "too close to call": " against",
};

function zoneWords(
  { name, predicted, average, band, target, verdict }: VerifiedZone,
  { display: { illuminance: unit } }: VerifyTextInput["study"],
): string {
  const say = (lux: number) => formatIlluminanceValue(lux, unit);
  const judgement =
    target === undefined ? "" : `, ${verdict}${JOINED[verdict] ?? ""} ${formatIlluminance(target, unit)}`;
  return `${VERDICT_MARK[verdict]} ${printable(name, 60)} ${formatIlluminance(average, unit)} (${say(band[0])} to ${say(band[1])}), predicted ${say(predicted)}${judgement}.`;
}

function placeWords(
  { island }: Scene,
  [x, y, z]: readonly number[],
  { display }: VerifyTextInput["study"],
): string {
  const say = (metres: number) => formatLength(metres, display.length);
  if (island === undefined) return `${say(x)}, ${say(y)}, ${say(z)}`;
  const [along, across] = roomToIsland(island, [x, y]);
  return `${say(along)} along, ${say(across)} across`;
}

function litWords({ layers }: Scene, lit: readonly number[]): string {
  if (lit.every((dim, l) => dim === layers[l].dim)) return "all";
  return layers
    .flatMap(({ name, dim }, l) =>
      lit[l] === 0
        ? []
        : [`${printable(name, 24)}${lit[l] === dim ? "" : ` at ${Math.round(100 * lit[l])} %`}`],
    )
    .join(" + ");
}

const chanceWords = (chance: number): string =>
  chance < 0.001 ? "less than once in 1000 times" : `${Math.round(1000 * chance) / 10} times in 100`;

/** `pendants no. 2 gives no light: its lamp is dead or it is not connected (the readings are 800 times likelier so).` */
export function faultSentence(fault: ProbableFault, input: VerifyTextInput): string {
  if (fault.kind === "unexplained" && fault.instead.length > 0)
    return `Something is wrong, and these readings cannot tell what: perhaps ${fault.instead.map((each) => findingWords(each, input)).join("; or ")}. Check the positions first, then take more readings, with one luminaire lit at a time.`;
  if (fault.kind === "unexplained")
    return "No single fault explains these readings, and nobody is to be blamed by them: check the positions first, from which corner and along which side they were counted, the unit, and what was lit.";
  const odds =
    fault.odds > 1e6 ? "over a million" : `${Number(fault.odds.toPrecision(2)).toLocaleString("en-US")}`;
  const instead = fault.instead.map((each) => findingWords(each, input));
  const sentence = findingWords(fault, input);
  return `${capital(sentence)} (the readings are ${odds} times likelier so).${
    instead.length === 0 ? "" : ` Nearly as likely: ${instead.slice(0, 3).join("; or ")}.`
  }`;
}

function findingWords(
  finding: Finding,
  { scene, study, verification, byPlace = false }: VerifyTextInput,
): string {
  const { kind, subject = 0, factor = 1, by = [0, 0, 0], turn = 0, other = 0, axis } = finding;
  const { compared, lights } = verification;
  const length = (metres: number) => formatLength(Math.abs(metres), study.display.length);
  const row = (): string =>
    finding.subject === undefined
      ? "everything, or what the readings are counted from,"
      : `the whole row of ${printable(scene.layers[subject].name, 40)}`;
  const lamp = (): string => {
    const { layer, index } = lights[subject];
    return `${boxTags(scene)([layer, index])} (${printable(scene.layers[layer].name, 40)} no. ${index + 1})`;
  };
  const where = (reading: number): string =>
    byPlace ? `at ${placeWords(scene, compared[reading].at, study)}` : `in line ${compared[reading].line}`;
  const height = () => `hangs about ${length(by[2])} too ${by[2] > 0 ? "high" : "low"}`;
  switch (kind) {
    case "layer":
      return `the whole of ${printable(scene.layers[subject].name, 40)} gives ${factor.toFixed(2)} of the light expected: other lamps, or dimmed`;
    case "reading":
      return `the reading ${where(subject)} is wrong: shaded, or at another place`;
    case "off the top":
      return `the reading ${where(subject)} was not taken where its columns say, beside the top`;
    case "readings exchanged":
      return byPlace
        ? `the readings ${where(subject)} and ${where(other)} are exchanged`
        : `the readings in lines ${compared[subject].line} and ${compared[other].line} are exchanged`;
    case "other end":
      return `the places were counted from the other ${axis === "across" ? "side (across)" : axis === "both" ? "corner (along and across)" : "end (along)"}`;
    case "axes swapped":
      return "the two columns of places are exchanged";
    case "unit":
      return factor > 1
        ? "the readings are lux in a column of foot-candles: 10.76 times the light"
        : "the readings are foot-candles in a column of lux: 1/10.76 of the light";
    case "row moved":
      return `${row()} is about ${placeShift(scene, by, length)} from its place`;
    case "row height":
      return `${row()} ${height()}`;
    case "row turned":
      return `${row()} is turned by about ${Math.abs((turn * 180) / Math.PI).toFixed(0)}° ${turn > 0 ? "counter-clockwise" : "clockwise"}, seen from above`;
    case "dead":
      return `${lamp()} gives no light: a dead lamp, or not connected`;
    case "swapped":
      return `${lamp()} gives ${factor.toFixed(2)} of the light expected: another lamp`;
    case "hung wrong":
      return `${lamp()} ${height()}`;
    case "moved":
      return `${lamp()} hangs about ${placeShift(scene, by, length)} from its place`;
    case "unexplained":
      return "no single fault";
  }
}

/** A shift under this is none (m). */
const NO_SHIFT = 0.015;

/** `120 mm along and 30 mm back across`, in the frame in which places are counted. */
function placeShift({ island }: Scene, by: Vec3, length: (metres: number) => string): string {
  const turn = island?.turn ?? 0;
  const along = Math.cos(turn) * by[0] + Math.sin(turn) * by[1];
  const across = Math.cos(turn) * by[1] - Math.sin(turn) * by[0];
  const [u, v] = island === undefined ? ["x", "y"] : ["along", "across"];
  const parts = (
    [
      [along, u],
      [across, v],
    ] as const
  ).flatMap(([shift, axis]) =>
    Math.abs(shift) < NO_SHIFT ? [] : [`${length(shift)} ${shift > 0 ? "farther" : "less far"} ${axis}`],
  );
  return parts.length === 0 ? length(Math.hypot(along, across)) : parts.join(" and ");
}

/** A fault as `verify --json` prints it. */
export interface FindingJson {
  readonly kind: Finding["kind"];
  readonly layer?: string;
  /** Which luminaire of the layer, from 1; without it the whole layer. */
  readonly number?: number;
  readonly line?: number;
  readonly otherLine?: number;
  readonly axis?: Finding["axis"];
  readonly factor?: number;
  /** Displacement (m, room), or turn (°). */
  readonly by?: Vec3 | number;
}

/** What `verify --json` prints. Metres, lux. */
export type VerifyJson = ReturnType<typeof verifyJson>;

export function verifyJson(input: VerifyTextInput) {
  const { study, scene, verification } = input;
  const { compared, agree, chance, maintenance, parameters, faults, zones, open, detectable, background } =
    verification;
  return {
    candlespan: VERSION,
    study: study.title,
    arrangement: scene.name,
    background,
    maintenance,
    agree,
    chance,
    readings: compared.map(({ lit, ...rest }) => ({
      ...rest,
      lit: Object.fromEntries(scene.layers.map(({ name }, l) => [name, lit[l]])),
    })),
    wrong: faults.map((fault) => ({
      ...findingJson(fault, scene, verification),
      odds: fault.odds,
      words: faultSentence(fault, input),
      instead: fault.instead.map((each) => findingJson(each, scene, verification)),
    })),
    learnt: parameters,
    zones,
    open,
    detectable: detectable.map((fault) => detectableJson(fault, scene, verification)),
    undetected: undetectedWords(input),
  };
}

const OF_READING: readonly Finding["kind"][] = ["reading", "off the top", "readings exchanged"];

/** Turned rows say `by` in degrees, displaced ones in metres of the room. */
function findingJson(
  { kind, subject, factor, by, turn, axis, other }: Finding,
  scene: Scene,
  { compared, lights }: Verification,
): FindingJson {
  return {
    kind,
    ...(subject === undefined
      ? {}
      : OF_READING.includes(kind)
        ? { line: compared[subject].line }
        : OF_LAMP.has(kind)
          ? { layer: scene.layers[lights[subject].layer].name, number: lights[subject].index + 1 }
          : { layer: scene.layers[subject].name }),
    ...(other === undefined ? {} : { otherLine: compared[other].line }),
    ...(axis === undefined ? {} : { axis }),
    ...(factor === undefined ? {} : { factor }),
    ...(by === undefined ? {} : { by }),
    ...(turn === undefined ? {} : { by: (turn * 180) / Math.PI }),
  };
}
