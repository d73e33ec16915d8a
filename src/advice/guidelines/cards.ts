/**
 * Every rule of thumb held against one arrangement: whether it agrees, what it would ask for, what light that would
 * give, and which others it contradicts. The verdict never looks here.
 */

import type { Scene } from "../../scene/scene.ts";
import { formatLength, type LengthUnit } from "../../units/length-text.ts";
import { type PendantRow, pendantRow } from "../pendant-row.ts";
import { CLEARANCE_RULES } from "./clearance-rules.ts";
import { contradict } from "./contradictions.ts";
import { COUNT_RULES } from "./count-rules.ts";
import { FLUX_RULES } from "./flux-rules.ts";
import type { GuidelineCard, ImpliedRow } from "./guideline-card.ts";
import { impliedRow, reachesCeiling, rowAsHung, sceneOfRecessed, sceneOfRow } from "./implied.ts";
import { lengthsInBoth } from "./lengths-in-both.ts";
import { type RecessedGrid, recessedGrid } from "./recessed-grid.ts";
import { RECESSED_RULES } from "./recessed-rules.ts";
import type { Held, Rule, Want } from "./rule.ts";
import { SIZE_RULES } from "./size-rules.ts";
import { SPACING_RULES } from "./spacing-rules.ts";

export const RULES: readonly Rule[] = [
  ...CLEARANCE_RULES,
  ...COUNT_RULES,
  ...SPACING_RULES,
  ...SIZE_RULES,
  ...RECESSED_RULES,
  ...FLUX_RULES,
];

/** Light of an arrangement on the whole top; undefined where it cannot be told. */
export type TopLight = (
  scene: Scene,
) => { readonly average: number; readonly uniformity: number } | undefined;

export interface CardOptions {
  /** In which lengths are said, beside those of a rule's source. */
  readonly length?: LengthUnit;
  /** Asked once for every different arrangement the rules imply. */
  readonly light?: TopLight;
}

/** Half a millimetre, or as much of a ratio: nobody measures finer. */
const SAME = 5e-4;

type Outcome = GuidelineCard["outcome"];

/** The arrangement, and what each of the {@link RULES} finds in it. */
function heldAgainst(scene: Scene) {
  const row = pendantRow(scene);
  const recessed = recessedGrid(scene);
  const arrangement = {
    scene,
    ...(row === undefined ? {} : { row }),
    ...(recessed === undefined ? {} : { recessed }),
  };
  const all = RULES.map((rule) => {
    const held = rule.held(arrangement);
    return { rule, held, outcome: outcomeOf(held) };
  });
  return { row, recessed, all };
}

function outcomeOf(held: Held | undefined): Outcome {
  if (held === undefined) return "does not apply";
  const { low, high } = held.allows;
  return held.found < low - SAME ? "below" : held.found > high + SAME ? "above" : "within";
}

/** One card a rule, those that do not apply among them, in the order of {@link RULES}. */
export function guidelineCards(scene: Scene, { length = "mm", light }: CardOptions = {}): GuidelineCard[] {
  const { row, recessed, all } = heldAgainst(scene);
  const lights = new Map<string, ReturnType<TopLight>>();
  const lightOf = (key: string, implied: () => Scene | undefined): ReturnType<TopLight> => {
    if (light === undefined) return undefined;
    if (!lights.has(key)) {
      const hung = implied();
      lights.set(key, hung === undefined ? undefined : light(hung));
    }
    return lights.get(key);
  };
  return all.map(({ rule, held, outcome }): GuidelineCard => {
    const { id, subject, known: how, source } = rule;
    const about = { id, subject, rule: lengthsInBoth(rule.rule, length), known: how, source };
    if (held === undefined || outcome === "does not apply")
      return {
        ...about,
        measure: { kind: "length" },
        outcome: "does not apply",
        asks: "It speaks of other arrangements.",
        contradicts: [],
      };
    const { low, high } = held.allows;
    const implied = impliedBy(scene, held, outcome, row, recessed, length);
    const given = lightOf(implied.key, implied.scene);
    return {
      ...about,
      measure: {
        kind: held.kind,
        of: held.of,
        ...(Number.isFinite(low) ? { low } : {}),
        ...(Number.isFinite(high) ? { high } : {}),
        found: held.found,
      },
      outcome,
      asks: implied.asks,
      ...(implied.row === undefined ? {} : { row: implied.row }),
      ...(given === undefined ? {} : { light: given }),
      contradicts: all
        .filter((other) => other.rule !== rule && contradict(held.want, other.held?.want))
        .map((other) => other.rule.id),
    };
  });
}

interface Implied {
  readonly asks: string;
  /** Equal for equal arrangements. */
  readonly key: string;
  /** Made only where its light is wanted. */
  readonly scene: () => Scene | undefined;
  readonly row?: ImpliedRow;
}

const NOWHERE = { key: "none", scene: () => undefined };

function impliedBy(
  scene: Scene,
  { want, remedy }: Held,
  outcome: GuidelineCard["outcome"],
  row: PendantRow | undefined,
  recessed: RecessedGrid | undefined,
  unit: LengthUnit,
): Implied {
  if (outcome === "within")
    return {
      asks: "Followed here.",
      key: "as it hangs",
      scene: () => scene,
      ...(row === undefined ? {} : { row: rowAsHung(row) }),
    };
  if (want === undefined)
    return { asks: remedy ?? "Other luminaires than these would follow it.", ...NOWHERE };
  if (want.variable === "recessed spacing" || want.variable === "recessed margin")
    return recessed === undefined ? { asks: "", ...NOWHERE } : recessedAs(scene, recessed, want, unit);
  if (row === undefined) return { asks: "", ...NOWHERE };
  const implied = impliedRow(row, want);
  if (implied === undefined)
    return { asks: "It cannot be followed on this top with these pendants.", ...NOWHERE };
  const fits = row.mixed
    ? " Light not worked out: pendants of several types or layers hang here."
    : reachesCeiling(scene, row, implied)
      ? " They would reach the ceiling."
      : "";
  return {
    asks: `${asksOf(row, implied, want, unit)}${fits}`,
    key: JSON.stringify([
      implied.count,
      ...[implied.pitch, implied.clearance, implied.width].map(millimetres),
    ]),
    row: implied,
    scene: () => sceneOfRow(scene, row, implied),
  };
}

const millimetres = (metres: number): number => Math.round(metres * 1000);

function asksOf(row: PendantRow, implied: ImpliedRow, { variable }: Want, unit: LengthUnit): string {
  const say = (metres: number) => formatLength(metres, unit);
  const them = row.count === 1 ? "it" : "them";
  const end = (row.island.length - (implied.count - 1) * implied.pitch - implied.width) / 2;
  switch (variable) {
    case "clearance": {
      const rise = implied.clearance - row.clearance;
      return `Hang ${them} ${say(Math.abs(rise))} ${rise > 0 ? "higher" : "lower"}, ${say(implied.clearance)} above the top.`;
    }
    case "count":
      return implied.count === 1
        ? `Hang one instead of ${row.count}, over the middle.`
        : `Hang ${implied.count} instead of ${row.count}, ${say(implied.pitch)} centre to centre.`;
    case "pitch":
      return implied.count < row.count
        ? `At ${say(implied.pitch)} centre to centre only ${implied.count} of them fit.`
        : `Hang them ${say(implied.pitch)} centre to centre, ${say(end)} free at each end.`;
    default:
      return `Take ${row.count === 1 ? "one" : "pendants"} ${say(implied.width)} wide instead of ${say(row.rim)}.`;
  }
}

function recessedAs(scene: Scene, grid: RecessedGrid, want: Want, unit: LengthUnit): Implied {
  const say = (metres: number) => formatLength(metres, unit);
  const implied = sceneOfRecessed(scene, grid, want);
  if (implied === undefined) return { asks: "It cannot be followed in this room.", ...NOWHERE };
  const { columns, rows, margin } = implied;
  const before = `${grid.columns.length} × ${grid.rows.length}`;
  return {
    asks:
      margin === undefined && columns === grid.columns.length && rows === grid.rows.length
        ? `No other whole number of columns and rows comes nearer than ${before}.`
        : margin === undefined
          ? `Set ${columns} × ${rows} instead of ${before}, ${say(Math.max(grid.room.length / columns, grid.room.width / rows))} apart.`
          : `Move the outer rows to ${say(margin)} from the walls.`,
    key: JSON.stringify(["recessed", columns, rows, margin === undefined ? "" : millimetres(margin)]),
    scene: () => implied.scene,
  };
}

/** How many of the rules that apply agree with the arrangement, and what they quarrel about among themselves. */
export function cardSummary(
  cards: readonly GuidelineCard[],
): Agreement & { readonly quarrels: readonly GuidelineCard["subject"][] } {
  return {
    ...agreement(cards),
    quarrels: [
      ...new Set(cards.filter(({ contradicts }) => contradicts.length > 0).map((card) => card.subject)),
    ],
  };
}

/** How many rules apply to an arrangement, and how many of them agree with it: the count alone, without the cards. */
export function rulesAgreeing(scene: Scene): Agreement {
  return agreement(heldAgainst(scene).all);
}

interface Agreement {
  readonly apply: number;
  readonly agree: number;
}

function agreement(held: readonly { readonly outcome: Outcome }[]): Agreement {
  return {
    apply: held.filter(({ outcome }) => outcome !== "does not apply").length,
    agree: held.filter(({ outcome }) => outcome === "within").length,
  };
}
