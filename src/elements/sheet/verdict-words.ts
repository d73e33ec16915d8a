/** The verdict as a headline and a row a zone, and where it is dark: words of words/headline.ts and words/zone-text.ts, set out for the sheet. */
import type { Clash } from "../../advice/clashes/clash.ts";
import type { ArrangementAssessment, Check, ZoneAssessment } from "../../assessment/assessment.ts";
import type { Verdict } from "../../assessment/verdict.ts";
import { capital } from "../../diagnostics/sentence.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Target } from "../../scene/target.ts";
import type { IlluminanceUnit } from "../../units/illuminance-text.ts";
import type { LengthUnit } from "../../units/length-text.ts";
import { clashHeadline } from "../../words/clash-words.ts";
import { type Headline, headline, isDark, likelyWords } from "../../words/headline.ts";
import { overHobWords } from "../../words/hob-text.ts";
import { checkWords, darkestPlace, TWO_GRIDS, verdictMark, zoneClauses } from "../../words/zone-text.ts";
import type { TopLight } from "../shared/illuminance-probe.ts";

/** Class of a verdict in the elements' styles. */
export const VERDICT_STYLE: Readonly<Record<Verdict, string>> = {
  meets: "meets",
  "falls short": "short",
  "too close to call": "close",
  "no target": "none",
  "not judged": "none",
};

/** Class of a zone's verdict; what cannot be built as placed is not shown as met. */
export function verdictStyle(verdict: Verdict, clashes: readonly Clash[]): string {
  return clashes.length > 0 && verdict === "meets" ? "close" : VERDICT_STYLE[verdict];
}

export interface ZoneRow {
  readonly name: string;
  readonly light: string;
  readonly evenness: string;
  readonly judged: string;
  /** What would settle an open case, and the evenness between the points that are judged; empty otherwise. */
  readonly drivers: string;
  readonly mark: string;
  readonly style: string;
  /** Beside what is asked of the first zone, for all of them, where nobody has set a target of this kitchen; empty otherwise. */
  readonly usual: string;
}

export interface VerdictInWords {
  readonly headline: Headline;
  /** What cannot hang as it is placed, and the way out; empty where all can. */
  readonly clash: string;
  readonly zones: readonly ZoneRow[];
  /** Whether a spot of the plan may lie below what is asked on average, and is hatched. */
  readonly isHatched: boolean;
  /** `Darkest at the far left.`; empty where the light is even. */
  readonly dark: string;
}

/** What a verdict is said beside. */
interface Surroundings {
  readonly scene?: Scene | undefined;
  /** By their ids; a study's own are told from published ones by how they are known. */
  readonly targets?: ReadonlyMap<string, Target> | undefined;
  /** No room for what the key of the scale under the plan says. */
  readonly isNarrow?: boolean;
}

export function verdictInWords(
  assessment: ArrangementAssessment,
  clashes: readonly Clash[],
  top: TopLight | undefined,
  units: { readonly illuminance: IlluminanceUnit; readonly length: LengthUnit },
  { scene, targets, isNarrow = false }: Surroundings = {},
): VerdictInWords {
  const isLit = assessment.zones.some((zone) => !isDark(zone));
  const place = top === undefined || !isLit ? undefined : darkestPlace(top.plane, top.light.illuminance);
  const first = headline(assessment, clashes, units.illuminance);
  const clash = clashHeadline(clashes, units.length)?.replace(/^Cannot be built as placed: /, "") ?? "";
  const usual = zoneOfUsualTarget(assessment, targets);
  const isOneAsked = assessment.zones.filter(({ checks }) => checks.length > 0).length === 1;
  const overHob = scene === undefined ? undefined : overHobWords(scene);
  const withHob = (words: string, between: string): string =>
    overHob === undefined ? words : words === "" ? overHob : `${words}${between}${overHob}`;
  return {
    headline: {
      ...first,
      aside: [withHob(first.aside, "; "), isNarrow || first.kind === "short" ? "" : averageWords(assessment)]
        .filter(Boolean)
        .join("; "),
    },
    clash: clash === "" ? "" : withHob(clash, " "),
    zones: assessment.zones.map((zone, i) => ({
      ...zoneRow(zone, clashes, units.illuminance, i === 0),
      usual:
        i !== usual
          ? ""
          : isOneAsked
            ? "a usual target until you set yours"
            : "usual targets until you set yours",
    })),
    isHatched: isHatched(assessment),
    dark: place === undefined ? "" : `Darkest ${place}.`,
  };
}

/** The very edge of the top is drawn beyond the cells, a little darker than the darkest of them. */
const EDGE = 1.02;

/** Whether any spot of a zone may lie below what is asked of it, and is hatched. */
export function isHatched(assessment: BothGrids): boolean {
  return isAnyBelow(assessment, ({ target }, least) => least < EDGE * target);
}

type BothGrids = Pick<ArrangementAssessment, "zones" | "planes">;

/** @param isBelow told the least light of a zone (lx) with each check of its light */
function isAnyBelow(
  { zones, planes }: BothGrids,
  isBelow: (check: Check, least: number) => boolean,
): boolean {
  return zones.some(({ checks, plane, statistics }) => {
    const fine = planes.find(({ name }) => name === plane)?.fine;
    const least = Math.min(statistics.minimum, fine?.minimum ?? Number.POSITIVE_INFINITY);
    return checks.some((check) => check.quantity === "illuminance" && isBelow(check, least));
  });
}

/** Why a zone whose average meets its target has hatched spots; empty where none has. */
function averageWords(assessment: ArrangementAssessment): string {
  return isAnyBelow(
    assessment,
    ({ statistic, verdict, target }, least) =>
      statistic === "average" && verdict === "meets" && least < target,
  )
    ? "targets are for a zone’s average: hatched spots lie below"
    : "";
}

/** Which zone says that nobody has set a target of this kitchen: the first that is asked something. None where a target is the study's own. */
function zoneOfUsualTarget(
  { zones }: ArrangementAssessment,
  targets: ReadonlyMap<string, Target> | undefined,
): number {
  const isOwn = [...(targets?.values() ?? [])].some(({ known }) => known === "stated in the study");
  return targets === undefined || isOwn ? -1 : zones.findIndex(({ checks }) => checks.length > 0);
}

/** @param isFirst says once what the figures of every row are */
function zoneRow(
  zone: ZoneAssessment,
  clashes: readonly Clash[],
  unit: IlluminanceUnit,
  isFirst: boolean,
): Omit<ZoneRow, "usual"> {
  const { name, light, evenness, judged } = zoneClauses(zone, unit, isFirst);
  const words = zone.checks.map((check) => {
    const likely = likelyWords(check, "it");
    // The headline says once that nothing is judged yet.
    return `${checkWords(check, unit).replace(", not judged yet", "")}${likely === "" ? "" : ` (${likely})`}`;
  });
  // Two that are met, or not judged yet, share a verb; what is open or short shares none with what is met.
  const isAlike = zone.verdict === "meets" || zone.verdict === "not judged";
  const asked = words.join("; ");
  const dark = isDark(zone);
  return {
    name: capital(name),
    light: dark ? "no light" : light,
    evenness: dark ? "" : evenness,
    judged:
      zone.checks.length === 0
        ? "nothing is asked of it"
        : isAlike
          ? asked.replaceAll(/; (?:meets|asked) /g, " and ")
          : asked,
    drivers: [
      ...judged.split(/(?<=\.) /).slice(1),
      ...zone.checks.flatMap(({ fine }) =>
        fine === undefined ? [] : [`Evenness on the fine grid ${fine.toFixed(2)}. ${TWO_GRIDS}`],
      ),
    ].join(" "),
    mark: verdictMark(zone.verdict, clashes),
    style: verdictStyle(zone.verdict, clashes),
  };
}
