/**
 * What age asks: more light, and less glare.
 *
 * Target factors by age of who does the task: under 25 ×½, 25 to 65 ×1, over 65 ×2 (IES, as remembered; a second-hand
 * text says to raise targets above 65). Glare limit one step of 3 lower above 65: our own construction, because older
 * eyes scatter more light; no source.
 */

import type { ArrangementAssessment } from "../assessment/assessment.ts";
import { zonesInReach } from "../scene/people.ts";
import type { Scene } from "../scene/scene.ts";
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

export interface AgedPerson {
  readonly person: string;
  readonly age: number;
}

export interface AgeRemark extends AgedPerson {
  readonly band: AgeBand;
  /** Who is in the same band, the oldest first. */
  readonly others: readonly AgedPerson[];
  /** Zones with what they would be asked for a person of this age (lx), and what they have. */
  readonly zones: readonly {
    readonly zone: string;
    /** Of that band, who is there, the oldest first. */
    readonly people: readonly AgedPerson[];
    readonly asked: number;
    /** The same in foot-candles, where the target's source states those. */
    readonly footcandles?: number;
    readonly found: number;
    readonly reached: boolean;
    /** Whether what they would be asked lies within the band of what they have. */
    readonly isClose?: true;
  }[];
}

/** What the oldest people of the study would be asked for where they are; undefined where nobody states an age, or where the age is
 * of the middle band, for which targets are written. Who has no zone before them may be at any. Information: the verdict
 * keeps to the targets named. */
export function oldestEyes(
  { people, island, zones: places }: Pick<Scene, "people" | "island" | "zones">,
  { zones }: Pick<ArrangementAssessment, "zones">,
  targetOf: (id: string) => Target | undefined,
): AgeRemark | undefined {
  const aged = people
    .flatMap((person) => (person.age === undefined ? [] : [{ ...person, age: person.age }]))
    .sort((a, b) => b.age - a.age);
  const [oldest] = aged;
  if (oldest === undefined) return undefined;
  const band = ageBand(oldest.age);
  if (band.factor === 1) return undefined;
  const inBand = aged
    .filter(({ age }) => ageBand(age).words === band.words)
    .map((person) => {
      const before = island === undefined ? [] : zonesInReach(person, island, places);
      return { who: { person: person.name, age: person.age }, at: before.map(({ name }) => name) };
    });
  return {
    ...inBand[0].who,
    band,
    others: inBand.slice(1).map(({ who }) => who),
    zones: zones.flatMap(({ name, statistics, checks }) => {
      const there = inBand.filter(({ at }) => at.length === 0 || at.includes(name)).map(({ who }) => who);
      const id = places.find((place) => place.name === name)?.target;
      const target = id === undefined ? undefined : targetOf(id);
      const average = target?.requirements.find(isAverage);
      const level = average?.value;
      // A target of the older band already holds the factor.
      if (there.length === 0 || level === undefined || id === undefined || id.endsWith("over-65")) return [];
      const found = statistics.average;
      const asked = level * band.factor;
      const [low, high] = checks.find(isAverage)?.band ?? [found, found];
      const source =
        average?.footcandles === undefined ? {} : { footcandles: average.footcandles * band.factor };
      return [
        {
          zone: name,
          people: there,
          asked,
          ...source,
          found,
          reached: found >= asked,
          ...(low < asked && asked < high ? { isClose: true as const } : {}),
        },
      ];
    }),
  };
}

const isAverage = ({
  quantity,
  statistic,
}: Pick<Requirement, "quantity"> & { readonly statistic: string }): boolean =>
  quantity === "illuminance" && statistic === "average";
