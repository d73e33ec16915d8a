/**
 * Published recommendations for the light on a kitchen's surfaces, with where each figure stands, how it came
 * to us, and what it speaks of. They disagree; that is shown, not hidden.
 *
 * "Maintained" = the average over the task area must not fall below the figure at any time before
 * maintenance. Older "service" figures are averages over the maintenance cycle and are not listed as targets.
 */

import type { Requirement, Target } from "../scene/target.ts";
import { LUX_PER_FOOTCANDLE } from "../units/quantities.ts";

export interface PublishedTarget extends Target {
  /** Whether the document speaks of homes, or of places of work and is listed for comparison. */
  readonly scope: "homes" | "work places";
  readonly surface: "worktop" | "sink" | "cooktop" | "eating" | "general";
  readonly note?: string;
  /** Of the people whose eyes it is written for, where the source tells them apart: `25 to 65`. */
  readonly ages?: string;
}

/** Where figures are published, and what holds for all of them. */
interface Publication {
  readonly title: string;
  /** Of a document that states its figures in both units. */
  readonly luxPerFootcandle?: number;
  readonly ages?: string;
}

const IES: Publication = {
  title: "IES RP-11, lighting for interior living environments (quoted second-hand), ages 25 to 65",
  luxPerFootcandle: 10,
  ages: "25 to 65",
};
const IES_OLD: Publication = {
  title: "IES RP-11, age band over 65: twice the middle band",
  luxPerFootcandle: 10,
  ages: "over 65",
};
const JIS: Publication = { title: "JIS Z 9110:2010, 5.10 residences, Table 17" };
const GB: Publication = { title: "GB 50034-2013, residential table" };
const AS_NZS: Publication = { title: "AS/NZS 1680.2.1, extract" };
const EN_CATERING: Publication = { title: "EN 12464-1:2021, catering kitchen (row not seen)" };

function maintained(value: number, footcandles?: number): Requirement {
  const requirement: Requirement = {
    quantity: "illuminance",
    statistic: "average",
    value,
    nature: "maintained",
  };
  return footcandles === undefined ? requirement : { ...requirement, footcandles };
}

function published(
  id: string,
  name: string,
  surface: PublishedTarget["surface"],
  lux: number,
  { title: source, luxPerFootcandle, ages }: Publication,
  known: Target["known"],
  rest: Partial<Pick<PublishedTarget, "scope" | "note">> & {
    readonly uniformity?: number;
    readonly footcandles?: number;
  } = {},
): PublishedTarget {
  const footcandles =
    rest.footcandles ?? (luxPerFootcandle === undefined ? undefined : lux / luxPerFootcandle);
  const requirements: Requirement[] = [maintained(lux, footcandles)];
  if (rest.uniformity !== undefined)
    requirements.push({
      quantity: "uniformity",
      statistic: "minimum / average",
      value: rest.uniformity,
      nature: "maintained",
    });
  return {
    ...{ id, name, requirements, source, known, scope: rest.scope ?? "homes", surface },
    ...(rest.note === undefined ? {} : { note: rest.note }),
    ...(ages === undefined ? {} : { ages }),
  };
}

/** The middle band to the letter of the document's other unit: 7.6 % more light. */
function inFootcandles({ id, name, surface, requirements, known }: PublishedTarget): PublishedTarget {
  const { footcandles = 0 } = requirements[0];
  return published(`${id}-fc`, name, surface, footcandles * LUX_PER_FOOTCANDLE, IES, known, {
    footcandles,
    note: "With -fc: its foot-candles to the letter, 7.6 % more light than its lux.",
  });
}

const CATERING = "The commercial-kitchen figure; not written for homes.";

const MIDDLE_BAND: readonly PublishedTarget[] = [
  published("preparation", "preparation counters", "worktop", 500, IES, "secondary"),
  published("washing", "sinks", "sink", 300, IES, "secondary"),
  published("cooking", "cooktops", "cooktop", 300, IES, "secondary"),
  published("eating", "eating", "eating", 200, IES, "secondary"),
  published("general", "kitchen, general", "general", 50, IES, "secondary"),
];

/** In the order they are listed: the plain ids first, then the same in foot-candles, then the others by publication. */
export const PUBLISHED_TARGETS: readonly PublishedTarget[] = [
  ...MIDDLE_BAND,
  ...MIDDLE_BAND.map(inFootcandles),
  published("preparation-over-65", "preparation counters", "worktop", 1000, IES_OLD, "from memory"),
  published("washing-over-65", "sinks", "sink", 600, IES_OLD, "from memory"),
  published("cooking-over-65", "cooktops", "cooktop", 600, IES_OLD, "from memory"),
  published("worktop-jis", "kitchen counter", "worktop", 300, JIS, "from memory", {
    note: "The 1979 edition gave a range, 200 to 500 lx; the two are not to be mixed.",
  }),
  published("sink-jis", "sink", "sink", 300, JIS, "from memory"),
  published("eating-jis", "dining table", "eating", 300, JIS, "secondary"),
  published("general-jis", "kitchen, general", "general", 100, JIS, "from memory"),
  published("worktop-gb", "worktop", "worktop", 150, GB, "secondary", {
    note: "Mixed lighting advised. Later editions were not seen.",
  }),
  published("eating-gb", "dining table", "eating", 150, GB, "secondary"),
  published("general-gb", "kitchen, general", "general", 100, GB, "secondary"),
  published(
    "food-preparation-as-nzs",
    "food preparation, cooking, washing-up",
    "worktop",
    240,
    AS_NZS,
    "secondary",
    { scope: "work places", note: "Written for workplaces." },
  ),
  published("catering-kitchen-en", "catering kitchen", "worktop", 500, EN_CATERING, "from memory", {
    scope: "work places",
    uniformity: 0.6,
    note: CATERING,
  }),
];

/** The published targets by id, in the shape a study resolves names with. */
export const PUBLISHED_TARGETS_BY_ID: ReadonlyMap<string, PublishedTarget> = new Map(
  PUBLISHED_TARGETS.map((target) => [target.id, target]),
);
