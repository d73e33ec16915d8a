/**
 * The levels at which one row serves settings of the dimmers, near enough to compare rows by.
 *
 *   E = a R + b F,  R the row at full output, F the layers that stay at full output, max(a, b) = s
 *
 * For each setting a : b is tried in steps of an eighth; of those that reach what is asked the one of least power, or the
 * evenest, at the least s that reaches it; where none does, the nearest at s = 1.
 *
 * Known error: the layers that stay are dimmed together; a level is at most an eighth of the other from the best.
 * Levels that are shown are of the full check (`found-levels.ts`).
 */

import type { Requirement } from "../../scene/target.ts";
import type { SearchGrid } from "./search-grid.ts";
import { figuresOf, type PartFigures, type ZoneNeeds } from "./zone-needs.ts";

/** A setting whose levels are to be found. */
export interface SoughtSetting {
  readonly find: "least power" | "evenest";
  /** What each of the grid's zones asks for then, in their order. */
  readonly requirements: readonly (readonly Requirement[])[];
}

/** What a row gives in the settings together: their shortages summed, the least evenness, the most light and power. */
export interface SettingFigures {
  readonly shortage: number;
  /** Of the whole top (lx; ratio). */
  readonly average: number;
  readonly uniformity: number;
  readonly watts: number;
  /** The highest level of the row. */
  readonly level: number;
}

const STEPS = 8;
/** [row, layers that stay], the greater of them 1. */
const MIXTURES: readonly (readonly [number, number])[] = [
  ...Array.from({ length: STEPS + 1 }, (_, k) => [1, k / STEPS] as const),
  ...Array.from({ length: STEPS }, (_, k) => [k / STEPS, 1] as const),
];
const HALVINGS = 7;

/** Figures of one mixture at full: of the grid's zones, in order, and of the whole top. */
interface Mixed {
  readonly row: number;
  readonly rest: number;
  readonly zones: readonly PartFigures[];
  readonly top: PartFigures;
}

export class SettingMixtures {
  readonly #grid: SearchGrid;
  readonly #settings: readonly (SoughtSetting & { readonly needs: ZoneNeeds })[];
  readonly #total: Float64Array;

  constructor(grid: SearchGrid, settings: readonly SoughtSetting[], needs: (of: SoughtSetting) => ZoneNeeds) {
    this.#grid = grid;
    this.#settings = settings.map((setting) => ({ ...setting, needs: needs(setting) }));
    this.#total = new Float64Array(grid.points.length / 3);
  }

  /** @param row light of the row @param rest that of the layers that stay, both at full output (lx)
   * @param kind that the row's uncertainty is of */
  of(
    row: Float64Array,
    rest: Float64Array,
    kind: number,
    watts: { readonly row: number; readonly rest: number },
  ): SettingFigures {
    const mixed = MIXTURES.map(([a, b]) => this.#mixed(row, rest, a, b));
    let [shortage, average, uniformity, most, level] = [0, 0, 1, 0, 0];
    for (const setting of this.#settings) {
      const mixture = best(setting, mixed, kind, watts);
      shortage += mixture.shortage;
      average = Math.max(average, mixture.scale * mixture.mixed.top.average);
      uniformity = Math.min(uniformity, evennessOf(mixture.mixed));
      most = Math.max(most, mixture.watts);
      level = Math.max(level, mixture.scale * mixture.mixed.row);
    }
    return { shortage, average, uniformity, watts: most, level };
  }

  #mixed(row: Float64Array, rest: Float64Array, a: number, b: number): Mixed {
    const total = this.#total;
    for (let i = 0; i < total.length; i++) total[i] = a * row[i] + b * rest[i];
    return {
      row: a,
      rest: b,
      zones: this.#grid.zones.map((part) => figuresOf(total, part)),
      top: figuresOf(total, this.#grid.top),
    };
  }
}

interface Found {
  readonly mixed: Mixed;
  readonly scale: number;
  readonly shortage: number;
  readonly watts: number;
}

function best(
  { find, needs }: SoughtSetting & { readonly needs: ZoneNeeds },
  mixed: readonly Mixed[],
  kind: number,
  watts: { readonly row: number; readonly rest: number },
): Found {
  let mixture: Found | undefined;
  for (const each of mixed) {
    const shortageAt = (scale: number): number =>
      needs.shortage(kind, (part) => scaled(each.zones[part], scale), scale * each.rest);
    const shortage = shortageAt(1);
    let [low, high] = [0, 1];
    for (let k = 0; shortage === 0 && k < HALVINGS; k++) {
      const middle = (low + high) / 2;
      if (shortageAt(middle) === 0) high = middle;
      else low = middle;
    }
    const next = {
      mixed: each,
      scale: high,
      shortage,
      watts: high * (each.row * watts.row + each.rest * watts.rest),
    };
    if (mixture === undefined || isBetter(next, mixture, find)) mixture = next;
  }
  return mixture as Found;
}

function isBetter(next: Found, found: Found, find: SoughtSetting["find"]): boolean {
  if (next.shortage !== found.shortage) return next.shortage < found.shortage;
  return find === "evenest" ? evennessOf(next.mixed) > evennessOf(found.mixed) : next.watts < found.watts;
}

function scaled({ average, minimum }: PartFigures, by: number): PartFigures {
  return { average: by * average, minimum: by * minimum };
}

function evennessOf({ top: { average, minimum } }: Mixed): number {
  return average > 0 ? minimum / average : 0;
}
