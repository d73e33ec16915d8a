/** Who came from what is on hold to a field: what is asked there, and what comes next. Kept with the study on screen until the list is seen again. */

import { formatPointer } from "../../src/app.ts";
import type { AppView } from "../app-view.ts";
import type { Path } from "./pointer.ts";

/** What is held together, since one place of the study answers it all. */
export interface HeldPlace {
  /** The luminaire, the layer or the part of the kitchen. */
  readonly name: string;
  /** Where the answers begin. */
  readonly path: Path;
  /** What the study lacks there. */
  readonly missing: readonly Path[];
  /** Of what it lacks, what a switch would make needless. */
  readonly unlessSwitched?: readonly Path[];
  /** What is said there and does not hold, and why. */
  readonly wrong?: readonly { readonly path: Path; readonly words: string }[];
}

/** One answer that is missing, or the place itself where what is said there does not hold. */
export interface HeldPoint {
  readonly name: string;
  readonly path: Path;
}

export class HoldVisit {
  readonly #places: () => readonly HeldPlace[];
  readonly #asked = new Set<string>();
  readonly #seen = new Set<string>();
  /** As they stood in the list, from the one that was left for. */
  readonly #order: readonly string[];
  #here: string;
  /** Whose answers are asked where one is. */
  #name: string;

  constructor(places: () => readonly HeldPlace[], { name, path }: HeldPoint) {
    this.#places = places;
    this.#here = formatPointer(path);
    this.#name = name;
    this.#seen.add(this.#here);
    const names = places().map((each) => each.name);
    const first = names.indexOf(name);
    this.#order = [...names.slice(first), ...names.slice(0, first)];
  }

  /** What is held now. What was asked once keeps its mark, so that no field moves under the hand when it is answered. */
  places(): readonly HeldPlace[] {
    const places = this.#places();
    for (const { missing, wrong = [] } of places)
      for (const path of [...missing, ...wrong.map((each) => each.path)])
        this.#asked.add(formatPointer(path));
    return places;
  }

  /** Whether it, or a part of it, is or was asked for. */
  isAsked(path: Path): boolean {
    const here = formatPointer(path);
    return [...this.#asked].some((each) => `${each}/`.startsWith(`${here}/`));
  }

  /** Whether it, or a part of it, is asked for still. */
  isOpen(path: Path): boolean {
    const here = formatPointer(path);
    return this.#places().some(({ missing }) =>
      missing.some((each) => `${formatPointer(each)}/`.startsWith(`${here}/`)),
    );
  }

  isUnlessSwitched(path: Path): boolean {
    const here = formatPointer(path);
    return this.#places().some(({ unlessSwitched }) =>
      unlessSwitched?.some((each) => formatPointer(each) === here),
    );
  }

  /** Why what is said there does not hold. */
  wrongWith(path: Path): string | undefined {
    const here = formatPointer(path);
    return this.#places()
      .flatMap(({ wrong = [] }) => wrong)
      .find((each) => formatPointer(each.path) === here)?.words;
  }

  /** The next open point: of those not seen, else of those that were passed over. None while the one at hand alone is open. */
  next(): HeldPoint | undefined {
    const rank = ({ name }: HeldPlace): number => this.#order.indexOf(name) + 1 || this.#order.length + 1;
    const open = [...this.places()]
      .sort((a, b) => rank(a) - rank(b))
      .flatMap(({ name, path, missing }) =>
        (missing.length > 0 ? missing : [path]).map((each) => ({ name, path: each })),
      )
      .filter(({ path }) => formatPointer(path) !== this.#here);
    return open.find(({ path }) => !this.#seen.has(formatPointer(path))) ?? open.at(0);
  }

  /** Whether a point belongs to the place that is open already. */
  isHere({ name }: HeldPoint): boolean {
    return name === this.#name;
  }

  goTo({ name, path }: HeldPoint): void {
    this.#here = formatPointer(path);
    this.#name = name;
    this.#seen.add(this.#here);
  }
}

type OfStudy = Pick<AppView, "lighting">;
const visits = new WeakMap<AppView["lighting"], HoldVisit>();

/** From now on there is a way back. */
export function leaveHolds({ lighting }: OfStudy, places: () => readonly HeldPlace[], to: HeldPoint): void {
  visits.set(lighting, new HoldVisit(places, to));
}

/** The list is on screen. */
export function seeHolds({ lighting }: OfStudy): void {
  visits.delete(lighting);
}

export function holdVisit({ lighting }: Partial<OfStudy>): HoldVisit | undefined {
  return lighting === undefined ? undefined : visits.get(lighting);
}
