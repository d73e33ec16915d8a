/** The verdict as a sentence a client can read, with its doubt. */
import type { ArrangementAssessment, Check, ZoneAssessment } from "../../../assessment/assessment.ts";
import type { Verdict } from "../../../assessment/verdict.ts";
import type { Wording } from "../../drawing/wording.ts";

export const VERDICT_SIGN: Readonly<Record<Verdict, string>> = {
  meets: "✓",
  "falls short": "✕",
  "too close to call": "≈",
  "no target": "",
};

/** Style class of a verdict. */
export const VERDICT_CLASS: Readonly<Record<Verdict, string>> = {
  meets: "meets",
  "falls short": "short",
  "too close to call": "close",
  "no target": "none",
};

export interface ZoneSentence {
  readonly zone: string;
  readonly verdict: Verdict;
  readonly words: string;
}

/** `Prep 512 lx (475 to 560), evenness 0.71: meets 500 lx.` */
export function zoneSentence(zone: ZoneAssessment, words: Wording): ZoneSentence {
  const light = zone.checks.find((c) => c.quantity === "illuminance");
  const evenness = zone.checks.find((c) => c.quantity === "uniformity");
  const name = capital(zone.name === "top" ? "the top" : zone.name);
  const { average, uniformity } = zone.statistics;
  const figure =
    light === undefined
      ? words.light(average)
      : `${words.light(light.value)} (${words.lightFigure(light.band[0])} to ${words.lightFigure(light.band[1])})`;
  const even = `evenness ${(evenness?.value ?? uniformity).toFixed(2)}`;
  return {
    zone: zone.name,
    verdict: zone.verdict,
    words: `${name} ${figure}, ${even}: ${judged(zone, light, evenness, words)}.`,
  };
}

function judged(
  zone: ZoneAssessment,
  light: Check | undefined,
  evenness: Check | undefined,
  words: Wording,
): string {
  if (light === undefined && evenness === undefined) return "no target set";
  const parts: string[] = [];
  if (light !== undefined) parts.push(phrase(light.verdict, words.light(light.target)));
  if (evenness !== undefined && (evenness.verdict !== "meets" || light === undefined))
    parts.push(phrase(evenness.verdict, `evenness ${evenness.target}`));
  return parts.join(", ") || zone.verdict;
}

function phrase(verdict: Verdict, target: string): string {
  if (verdict === "meets") return `meets ${target}`;
  if (verdict === "falls short") return `falls short of ${target}`;
  return verdict === "no target" ? "no target set" : `too close to call against ${target}`;
}

/** Where the top is darkest, or what would settle a doubt: one sentence more, when there is something to say. */
export function remark(assessment: ArrangementAssessment, darkEnd: "left" | "right" | undefined): string {
  const doubtful = assessment.zones.flatMap((z) => z.checks).find((c) => c.verdict === "too close to call");
  const driver = doubtful?.drivers[0];
  const dark = darkEnd === undefined ? "" : `The dark end is on the ${darkEnd}.`;
  const doubt = driver === undefined ? "" : `Most of the doubt is ${driver.input}.`;
  return [dark, doubt].filter((s) => s !== "").join(" ");
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
