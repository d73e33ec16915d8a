/** Targets to choose from: the study's own and the published ones, with what each asks and who says so. */

import { formatIlluminance, PUBLISHED_TARGETS } from "../../../src/app.ts";
import type { FieldsView } from "../../app-view.ts";
import { lightText } from "../../components/words.ts";

/** What a target asks, and who says so. */
export interface Asked {
  readonly illuminance?: number;
  readonly minimum?: number;
  readonly uniformity?: number;
  /** Of a document that states its figures in both units. */
  readonly footcandles?: number;
  readonly name: string;
  readonly source?: string;
  readonly note?: string;
  /** Of the people it is written for. */
  readonly ages?: string;
  readonly isOwn: boolean;
}

export function askedBy(app: FieldsView, id: string | null | undefined): Asked | undefined {
  if (id === undefined || id === null) return undefined;
  const own = app.study.targets?.[id];
  if (own !== undefined) return { ...own, name: id, isOwn: true };
  const published = PUBLISHED_TARGETS.find((each) => each.id === id);
  if (published === undefined) return undefined;
  const of = (quantity: string): number | undefined =>
    published.requirements.find((each) => each.quantity === quantity)?.value;
  const { name, source, note, ages } = published;
  return {
    name,
    source,
    note,
    ages,
    illuminance: of("illuminance"),
    footcandles: published.requirements.find((each) => each.footcandles !== undefined)?.footcandles,
    uniformity: of("uniformity"),
    isOwn: false,
  };
}

/** `500 lx, evenness 0.60`. */
export function figures(
  app: FieldsView,
  { illuminance, minimum, uniformity }: Pick<Asked, "illuminance" | "minimum" | "uniformity">,
): string {
  return [
    illuminance === undefined ? undefined : askedLight(app, illuminance),
    minimum === undefined ? undefined : `${askedLight(app, minimum)} at any point`,
    uniformity === undefined ? undefined : `evenness ${uniformity.toFixed(2)}`,
  ]
    .filter((each) => each !== undefined)
    .join(", ");
}

/** Standards ask in lux: in foot-candles both stand, so that 500 lx is known again in 46 fc. */
function askedLight(app: FieldsView, lux: number): string {
  const { illuminance: unit } = app.display;
  return unit === "lx" ? lightText(app, lux) : `${lightText(app, lux)} (${formatIlluminance(lux, "lx")})`;
}

export function published(scope: "homes" | "work places"): string[] {
  return PUBLISHED_TARGETS.filter((each) => each.scope === scope).map(({ id }) => id);
}

/** Document and year of a source, without what it speaks of. */
function shortSource(source: string): string {
  return source.split(/[,(]/)[0].trim();
}

/** `preparation counters: 500 lx, evenness 0.60 · EN 12464-1:2021`. @param isSourceApart its source stands beside it */
export function targetWords(app: FieldsView, id: string, isSourceApart = false): string {
  const target = askedBy(app, id);
  if (target === undefined) return id;
  const who = target.isOwn || isSourceApart ? "" : ` · ${shortSource(target.source ?? "")}`;
  const ages = target.ages === undefined ? "" : `, ages ${target.ages}`;
  // A document that states round figures in both units asks for more light in its foot-candles.
  const { footcandles, illuminance = 0 } = target;
  const isToTheLetter = footcandles !== undefined && illuminance > 10.5 * footcandles;
  return `${target.name}${ages}: ${figures(app, target)}${isToTheLetter ? `, its ${footcandles} fc to the letter` : ""}${who}`;
}

/** All there are, the study's own first. */
export function targetChoices(app: FieldsView): { readonly value: string; readonly words: string }[] {
  const ids = [...Object.keys(app.study.targets ?? {}), ...published("homes"), ...published("work places")];
  return ids.map((value) => ({ value, words: targetWords(app, value) }));
}
