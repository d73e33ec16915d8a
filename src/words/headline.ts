/** What one reads first of an arrangement: one short headline, and how sure a figure is whose band straddles its target. */

import type { Clash } from "../advice/clashes/clash.ts";
import type { ArrangementAssessment, Check, ZoneAssessment } from "../assessment/assessment.ts";
import { shortfallOf } from "../assessment/shortfall.ts";
import { formatIlluminance, type IlluminanceUnit } from "../units/illuminance-text.ts";
import { capital } from "./sentence.ts";
import { patchyZones } from "./zone-text.ts";

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
  assessment: Pick<ArrangementAssessment, "zones" | "verdict" | "settings">,
  clashes: readonly Clash[],
  unit: IlluminanceUnit,
): Headline {
  const { verdict } = assessment;
  // The verdict is the worst setting's where there are any.
  const setting = assessment.settings?.find((each) => each.verdict === verdict);
  const { zones } = setting ?? assessment;
  const of = setting === undefined ? "" : `${setting.name}: `;
  if (clashes.length > 0)
    return {
      words: "Cannot be built as placed",
      aside: clashes.length === 1 ? "1 clash" : `${clashes.length} clashes`,
      kind: "short",
    };
  if (assessment.zones.length > 0 && assessment.zones.every(isDark))
    return { words: "No light", aside: "", kind: verdict === "no target" ? "none" : "short" };
  if (verdict === "not judged") return { words: "Not judged yet", aside: "", kind: "none" };
  const patchy = patchyZones(assessment);
  const uneven = patchy.length === 0 ? "" : `${listed(patchy)} ${patchy.length === 1 ? "is" : "are"} patchy`;
  if (verdict === "no target")
    return { words: uneven === "" ? "No target is set" : capital(uneven), aside: "", kind: "none" };
  if (verdict === "falls short")
    return {
      words: capital(of + shortfall(zones)),
      aside: [furthest(zones), uneven].filter(Boolean).join("; "),
      kind: "short",
    };
  if (verdict === "too close to call") {
    const close = zones.filter((zone) => zone.verdict === verdict);
    const open = close.flatMap(({ checks }) => checks.filter((check) => check.verdict === verdict));
    return {
      words: `${capital(of + listed(close.map(({ name }) => name)))}: too close to call`,
      aside: [...open.slice(0, 1).map((check) => sureOf(check, unit)), uneven].filter(Boolean).join("; "),
      kind: "close",
    };
  }
  return uneven === ""
    ? { words: "Meets everything", aside: "", kind: "meets" }
    : { words: `Meets what is asked, but ${uneven}`, aside: "no target asks evenness of it", kind: "close" };
}

/** `97 % sure` where the band of a met figure straddles its target or the case is open; empty where it is plain. */
export function sureWords({ band, target, probability, verdict }: Check): string {
  if (probability === undefined || band === undefined) return "";
  const straddles = band[0] < target && band[1] > target;
  if (!straddles && verdict !== "too close to call") return "";
  const share = Math.round(100 * probability);
  return `${Math.max(1, Math.min(99, share))} % sure`;
}

function sureOf(check: Check, unit: IlluminanceUnit): string {
  const sure = sureWords(check);
  const level =
    check.quantity === "illuminance"
      ? formatIlluminance(check.target, unit)
      : `evenness ${check.target.toFixed(2)}`;
  return sure === "" ? "" : `${sure} of ${level}`;
}

function shortfall(zones: readonly ZoneAssessment[]): string {
  const short = zones.filter(({ verdict }) => verdict === "falls short");
  if (short.length !== 1) return `${listed(short.map(({ name }) => name))} fall short`;
  const [{ name, checks }] = short;
  const missed = checks.filter(({ verdict }) => verdict === "falls short");
  const light = missed.find(({ quantity }) => quantity === "illuminance");
  if (light === undefined) {
    const [even] = missed;
    return `${name} is too uneven: ${even.value.toFixed(2)} of ${even.target.toFixed(2)}`;
  }
  return `${name} falls short by ${Math.max(1, Math.round(100 * (1 - light.value / light.target)))} %`;
}

/** `by up to 12 %`, where the headline names no figure: it is what options are ranked by. */
function furthest(zones: readonly ZoneAssessment[]): string {
  const short = zones.filter(({ verdict }) => verdict === "falls short");
  return short.length < 2 ? "" : `by up to ${Math.max(1, Math.round(100 * shortfallOf(short)))} %`;
}

function listed(names: readonly string[]): string {
  if (names.length > 3) return `${names.length} zones`;
  return names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
