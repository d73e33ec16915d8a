/** What `verify` says to a person: reading by reading, what explains the difference, what is wrong, what stays open. */

import type { Culprit } from "../design/verify/diagnose-deviation.ts";
import type { Verification, VerifiedZone } from "../design/verify/verify.ts";
import { printable } from "../diagnostics/printable.ts";
import { roomToIsland } from "../scene/island.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { formatIlluminance, formatIlluminanceValue } from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";
import { table, wrapped } from "./table.ts";
import { VERDICT_MARK } from "./text.ts";

const WIDTH = 96;

export interface VerifyTextInput {
  readonly study: Pick<ResolvedStudy, "title" | "display">;
  readonly scene: Scene;
  readonly verification: Verification;
}

export function verifyText({ study, scene, verification }: VerifyTextInput): string {
  const { illuminance: unit } = study.display;
  const { compared, agree, parameters, culprits, zones, open, background } = verification;
  const value = (lux: number) => formatIlluminanceValue(lux, unit);
  const lines = [
    `${printable(study.title)}: ${printable(scene.name)}`,
    "",
    ...wrapped(
      agree === compared.length
        ? `All ${compared.length} readings agree with the prediction within what each may be off.`
        : `${agree} of ${compared.length} readings agree with the prediction within what each may be off.`,
      WIDTH,
    ),
    ...(background > 0
      ? wrapped(`${formatIlluminance(background, unit)} with everything off was taken from each.`, WIDTH)
      : []),
    "",
    ...table(
      [
        ["place", "lit", "read", "predicted", "may show", "explained", ""],
        ...compared.map(({ at, lit, read, predicted, band, agrees, fitted, explained }) => [
          placeWords(scene, at, study),
          litWords(scene, lit),
          value(read),
          value(predicted),
          `${value(band[0])} to ${value(band[1])}`,
          value(fitted),
          `${agrees ? "agrees" : "differs"}${explained ? "" : ", not explained"}`,
        ]),
      ],
      2,
      [0, 1, 6],
    ),
    "",
    "What is wrong",
    ...(culprits.length === 0
      ? ["  Nothing the readings point to."]
      : culprits.flatMap((culprit) => wrapped(culpritSentence(culprit, input()), WIDTH, 2, 2))),
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
  if (zones.length > 0) {
    lines.push("", "The zones, with what was learnt");
    for (const zone of zones) lines.push(...wrapped(zoneWords(zone, study), WIDTH, 2, 2));
  }
  if (open.length > 0) {
    lines.push("", "What stays open");
    for (const words of open) lines.push(...wrapped(printable(words, 300), WIDTH, 2, 2));
  }
  return `${lines.join("\n").trimEnd()}\n`;

  function input(): VerifyTextInput {
    return { study, scene, verification };
  }
}

const rangeWords = ([low, high]: readonly [number, number]): string =>
  high > 5 ? "unknown" : `${low.toFixed(2)} to ${high.toFixed(2)}`;

function zoneWords(
  { name, predicted, average, band, target, verdict }: VerifiedZone,
  { display: { illuminance: unit } }: VerifyTextInput["study"],
): string {
  const say = (lux: number) => formatIlluminanceValue(lux, unit);
  const asked = target === undefined ? "" : `, ${verdict} ${formatIlluminance(target, unit)}`;
  return `${VERDICT_MARK[verdict]} ${printable(name, 60)} ${formatIlluminance(average, unit)} (${say(band[0])} to ${say(band[1])}), predicted ${say(predicted)}${asked}.`;
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

/** `pendants no. 2 gives no light: its lamp is dead or it is not connected (the readings are 800 times likelier so).` */
export function culpritSentence(culprit: Culprit, { scene, study, verification }: VerifyTextInput): string {
  const say = (each: Omit<Culprit, "instead" | "odds">): string => {
    const { kind, subject, factor = 1, by = [0, 0, 0] } = each;
    if (kind === "layer") {
      const layer = printable(scene.layers[subject].name, 40);
      return `the whole of ${layer} gives ${factor.toFixed(2)} of the light expected: other lamps, or dimmed`;
    }
    if (kind === "reading") {
      const { line } = verification.compared[subject];
      return `the reading in line ${line} is wrong: shaded, or at another place`;
    }
    const { layer, index } = verification.lights[subject];
    const who = `${printable(scene.layers[layer].name, 40)} no. ${index + 1}`;
    if (kind === "dead") return `${who} gives no light: a dead lamp, or not connected`;
    if (kind === "swapped") return `${who} gives ${factor.toFixed(2)} of the light expected: another lamp`;
    const length = (metres: number) => formatLength(Math.abs(metres), study.display.length);
    if (kind === "hung wrong") return `${who} hangs about ${length(by[2])} too ${by[2] > 0 ? "high" : "low"}`;
    return `${who} hangs about ${length(Math.hypot(by[0], by[1]))} from its place`;
  };
  const odds =
    culprit.odds > 1e6 ? "over a million" : `${Number(culprit.odds.toPrecision(2)).toLocaleString("en-US")}`;
  const instead = culprit.instead.map(say);
  const sentence = say(culprit);
  return `${sentence[0].toUpperCase()}${sentence.slice(1)} (the readings are ${odds} times likelier so).${
    instead.length === 0 ? "" : ` Nearly as likely: ${instead.slice(0, 3).join("; or ")}.`
  }`;
}

/** The same for a program: metres, lux. */
export function verifyJson(input: VerifyTextInput, version: string) {
  const { study, scene, verification } = input;
  const { compared, agree, parameters, culprits, lights, zones, open, background } = verification;
  const about = ({ kind, subject, factor, by }: Omit<Culprit, "instead" | "odds">) => ({
    kind,
    ...(kind === "reading"
      ? { line: compared[subject].line }
      : kind === "layer"
        ? { layer: scene.layers[subject].name }
        : { layer: scene.layers[lights[subject].layer].name, number: lights[subject].index + 1 }),
    ...(factor === undefined ? {} : { factor }),
    ...(by === undefined ? {} : { by }),
  });
  return {
    candlespan: version,
    study: study.title,
    arrangement: scene.name,
    background,
    agree,
    readings: compared.map(({ lit, ...rest }) => ({
      ...rest,
      lit: Object.fromEntries(scene.layers.map(({ name }, l) => [name, lit[l]])),
    })),
    wrong: culprits.map((culprit) => ({
      ...about(culprit),
      odds: culprit.odds,
      words: culpritSentence(culprit, input),
      instead: culprit.instead.map(about),
    })),
    learnt: parameters,
    zones,
    open,
  };
}
