/**
 * What age asks: more light, and less glare.
 *
 * Target factors by age of who does the task: under 25 ×½, 25 to 65 ×1, over 65 ×2 (IES, as remembered; a second-hand
 * text says to raise targets above 65). Glare limit one step of 3 lower above 65: our own construction, because older
 * eyes scatter more light; no source.
 */

import type { ArrangementAssessment } from "../assessment/assessment.ts";
import type { Person, Scene } from "../scene/scene.ts";
import type { Requirement, Target } from "../scene/target.ts";

export interface AgeBand {
  readonly words: "under 25" | "25 to 65" | "over 65";
  /** On a target stated for the middle band. */
  readonly factor: number;
  /** Taken off a glare rating's limit. */
  readonly glareStep: number;
  readonly known: "from memory";
}

export function ageBand(age: number): AgeBand {
  if (age < 25) return { words: "under 25", factor: 0.5, glareStep: 0, known: "from memory" };
  if (age <= 65) return { words: "25 to 65", factor: 1, glareStep: 0, known: "from memory" };
  return { words: "over 65", factor: 2, glareStep: 3, known: "from memory" };
}

export interface AgeRemark {
  readonly person: string;
  readonly age: number;
  readonly band: AgeBand;
  /** Who is in the same band, the oldest first. */
  readonly others: readonly { readonly person: string; readonly age: number }[];
  /** Zones with what they would be asked for a person of this age (lx), and what they have. */
  readonly zones: readonly {
    readonly zone: string;
    readonly asked: number;
    /** The same in foot-candles, where the target's source states those. */
    readonly footcandles?: number;
    readonly found: number;
    readonly reached: boolean;
  }[];
}

/** What the oldest person of the study would be asked for; undefined where nobody states an age, or where the age is of
 * the middle band, for which targets are written. Information: the verdict keeps to the targets named. */
export function oldestEyes(
  { people }: Pick<Scene, "people">,
  { zones }: Pick<ArrangementAssessment, "zones">,
  targetOf: (id: string) => Target | undefined,
  targetIds: ReadonlyMap<string, string | undefined>,
): AgeRemark | undefined {
  const oldest = people.reduce<(Person & { age: number }) | undefined>(
    (best, person) =>
      person.age !== undefined && (best === undefined || person.age > best.age)
        ? { ...person, age: person.age }
        : best,
    undefined,
  );
  if (oldest === undefined) return undefined;
  const band = ageBand(oldest.age);
  if (band.factor === 1) return undefined;
  return {
    person: oldest.name,
    age: oldest.age,
    band,
    others: people
      .flatMap(({ name, age }) =>
        age === undefined || name === oldest.name || ageBand(age).words !== band.words
          ? []
          : [{ person: name, age }],
      )
      .sort((a, b) => b.age - a.age),
    zones: zones.flatMap(({ name, statistics }) => {
      const id = targetIds.get(name);
      const target = id === undefined ? undefined : targetOf(id);
      const average = target?.requirements.find(isAverage);
      const level = average?.value;
      // A target of the older band already holds the factor.
      if (level === undefined || id === undefined || id.endsWith("over-65")) return [];
      const found = statistics.average;
      const source =
        average?.footcandles === undefined ? {} : { footcandles: average.footcandles * band.factor };
      return [
        { zone: name, asked: level * band.factor, ...source, found, reached: found >= level * band.factor },
      ];
    }),
  };
}

const isAverage = ({ quantity, statistic }: Requirement): boolean =>
  quantity === "illuminance" && statistic === "average";
