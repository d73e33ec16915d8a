/** What one reads first of an arrangement: one short headline, and how likely a target is reached that the band straddles. */

import type { Clash } from "../advice/clashes/clash.ts";
import type {
  ArrangementAssessment,
  Check,
  SettingAssessment,
  ZoneAssessment,
} from "../assessment/assessment.ts";
import { shortfallOf } from "../assessment/shortfall.ts";
import { uncertaintyAdvice } from "../assessment/uncertainty/what-would-settle.ts";
import { type Verdict, worstVerdict } from "../assessment/verdict.ts";
import { capital, listed } from "../diagnostics/sentence.ts";
import type { IlluminanceUnit } from "../units/illuminance-text.ts";
import { evennessText, figureText, patchyZones, targetText } from "./zone-text.ts";

export interface Headline {
  readonly words: string;
  /** What belongs to it in smaller print; may be empty. */
  readonly aside: string;
  readonly kind: "meets" | "short" | "close" | "none";
}

/** Under this a meter in a kitchen reads nothing (lx). */
const DARK = 0.5;

/** Whether a zone has no light to speak of: its evenness means nothing. */
export function isDark({ statistics }: Pick<ZoneAssessment, "statistics">): boolean {
  return !(statistics.average >= DARK);
}

/** @param clashes what cannot hang as it is placed: said before any light */
export function headline(
  assessment: Pick<ArrangementAssessment, "zones" | "setting" | "settings">,
  clashes: readonly Clash[],
  unit: IlluminanceUnit,
): Headline {
  const { zones, setting, settings = [] } = assessment;
  const verdict = worstVerdict(zones.map((zone) => zone.verdict));
  // What is lit is named where a setting beside it is judged otherwise.
  const isNamed = settings.some((each) => each.verdict !== verdict);
  const of = isNamed ? `${setting ?? "as dimmed"}: ` : "";
  const beside = isNamed ? settingsBeside(settings, unit) : [];
  const plenty = plentyWords(zones, unit);
  const aside = (...parts: readonly string[]): string =>
    [...parts, plenty, ...beside].filter(Boolean).join("; ");
  if (clashes.length > 0)
    return {
      words: "Cannot be built as placed",
      aside: clashes.length === 1 ? "1 clash" : `${clashes.length} clashes`,
      kind: "short",
    };
  if (zones.length > 0 && zones.every(isDark))
    return {
      words: capital(`${of}no light`),
      aside: aside(),
      kind: verdict === "no target" ? "none" : "short",
    };
  if (verdict === "not judged") return { words: "Not judged yet", aside: "", kind: "none" };
  const patchy = patchyZones(assessment);
  const uneven = patchy.length === 0 ? "" : `${namesOf(patchy)} ${patchy.length === 1 ? "is" : "are"} patchy`;
  if (verdict === "no target")
    return {
      words: capital(of + (uneven === "" ? "no target is set" : uneven)),
      aside: aside(),
      kind: "none",
    };
  if (verdict === "falls short")
    return {
      words: capital(of + shortfall(zones, unit)),
      aside: aside(furthest(zones), uneven, evennessRemedy(zones)),
      kind: "short",
    };
  if (verdict === "too close to call") {
    const close = zones.filter((zone) => zone.verdict === verdict);
    const open = close.flatMap(({ checks }) => checks.filter((check) => check.verdict === verdict));
    return {
      words: `${capital(of + namesOf(close.map(({ name }) => name)))}: too close to call`,
      aside: aside(...open.slice(0, 1).flatMap(openWords), uneven),
      kind: "close",
    };
  }
  return uneven === ""
    ? { words: capital(`${of}meets everything`), aside: aside(), kind: "meets" }
    : {
        words: capital(`${of}meets what is asked, but ${uneven}`),
        aside: aside("no target asks evenness of it"),
        kind: "close",
      };
}

/** Every zone surely reaching this many times its target is worth a word; common practice, no source. */
const PLENTY = 2;

/** `over 2.3 times the light that is asked everywhere, ...`: where half of it would surely do; empty elsewhere. */
function plentyWords(zones: readonly ZoneAssessment[], unit: IlluminanceUnit): string {
  const asked = zones.flatMap(({ name, checks }) =>
    checks
      .filter(({ quantity, target }) => quantity === "illuminance" && target > 0)
      .map(({ band, value, target, ...check }) => ({
        name,
        times: value / target,
        surely: (band?.[0] ?? value) / target,
        words: targetText({ ...check, target }, unit),
      })),
  );
  if (asked.length === 0 || asked.some(({ surely }) => !(surely >= PLENTY))) return "";
  const least = asked.reduce((low, each) => (each.times < low.times ? each : low));
  const what = asked.length === 1 ? `the ${least.words}` : "what is";
  const plenty = `${least.times.toFixed(1)} times ${what} asked${asked.length === 1 ? "" : " in every zone"}`;
  // Less light mends no evenness: beside uneven light it would read as the remedy.
  return zones.some(isTooUneven) ? plenty : `${plenty}: half the light would do`;
}

function isTooUneven({ checks }: ZoneAssessment): boolean {
  return checks.some(({ quantity, verdict }) => quantity === "uniformity" && verdict === "falls short");
}

const SPREADS = "more pendants, more height or a beam wider and alike on all sides";

/** What mends uneven light; empty where none falls short of the evenness asked for. All layers dimmed alike keep least over average. */
function evennessRemedy(zones: readonly ZoneAssessment[]): string {
  return zones.some(isTooUneven) ? `${SPREADS} spread light evenly, dimming all of it does not` : "";
}

/** What decides an open case, and its ways out: more of what is asked, or less uncertainty. How likely it is stands in the zone's row. */
function openWords({ quantity, drivers, confidence }: Check): string[] {
  return [
    verdictRule({ confidence }),
    quantity === "uniformity" ? `${SPREADS} make it sure` : "more light makes it sure",
    drivers.length === 0 ? "" : `the uncertainty is ${uncertaintyAdvice(drivers)}`,
  ];
}

/** `dinner: eating falls short by 8 %`, `cooking meets`: what falls short first. */
function settingsBeside(
  settings: readonly Pick<SettingAssessment, "name" | "zones" | "verdict">[],
  unit: IlluminanceUnit,
): string[] {
  const named = (verdict: Verdict): typeof settings => settings.filter((each) => each.verdict === verdict);
  const met = named("meets");
  return [
    ...named("falls short").map(({ name, zones }) => `${name}: ${shortfall(zones, unit)}`),
    ...named("too close to call").map(({ name, zones, verdict }) => {
      const close = zones.filter((zone) => zone.verdict === verdict);
      return `${name}: ${namesOf(close.map((zone) => zone.name))} too close to call`;
    }),
    ...(met.length === 0
      ? []
      : [`${namesOf(met.map(({ name }) => name))} ${met.length === 1 ? "meets" : "meet"}`]),
  ];
}

/** `97 % likely to reach it` where the band straddles the target or the case is open; empty where it is plain. */
export function likelyWords({ band, target, probability, verdict }: Check, it: string): string {
  if (probability === undefined || band === undefined) return "";
  const straddles = band[0] < target && band[1] > target;
  return straddles || verdict === "too close to call"
    ? `${percentLikely(probability)} % likely to reach ${it}`
    : "";
}

/** `90 % or more is called met, 10 % or less short`: how likely reaching a target has to be; empty where nothing was judged. */
export function verdictRule({ confidence }: Pick<Check, "confidence">): string {
  return confidence === undefined
    ? ""
    : `${percentOf(confidence)} % or more is called met, ${percentOf(1 - confidence)} % or less short`;
}

/** `90`, `99.5` */
function percentOf(share: number): string {
  return String(Math.round(1000 * share) / 10);
}

function shortfall(zones: readonly ZoneAssessment[], unit: IlluminanceUnit): string {
  const short = zones.filter(({ verdict }) => verdict === "falls short");
  if (short.length !== 1) return `${namesOf(short.map(({ name }) => name))} fall short`;
  const [{ name, checks }] = short;
  const missed = checks.filter(({ verdict }) => verdict === "falls short");
  const check = missed.find(({ quantity }) => quantity === "illuminance") ?? missed[0];
  const { quantity, value, target, probability } = check;
  const [complaint, by] =
    quantity === "illuminance"
      ? [`${name} falls short`, ` by ${Math.max(1, Math.round(100 * (1 - value / target)))} %`]
      : [`${name} is too uneven`, `: ${evennessText(value)} of ${evennessText(target)}`];
  // As drawn it reaches the target; what is built is likely to lie under it.
  const isReached =
    figureText(quantity, value, unit) === figureText(quantity, target, unit) || value > target;
  return isReached && probability !== undefined
    ? `${complaint}: ${percentLikely(probability)} % likely to reach ${figureText(quantity, target, unit)}`
    : complaint + by;
}

/** Whole per cent of a probability; neither none nor all, since nothing is certain. */
export function percentLikely(probability: number): number {
  return Math.max(1, Math.min(99, Math.round(100 * probability)));
}

/** `by up to 12 %`, where the headline names no figure: it is what options are ranked by. */
function furthest(zones: readonly ZoneAssessment[]): string {
  const short = zones.filter(({ verdict }) => verdict === "falls short");
  return short.length < 2 ? "" : `by up to ${Math.max(1, Math.round(100 * shortfallOf(short)))} %`;
}

function namesOf(names: readonly string[]): string {
  if (names.length > 3) return `${names.length} zones`;
  return listed(names);
}
