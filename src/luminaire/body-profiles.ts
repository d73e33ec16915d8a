/**
 * The named outlines of a luminaire's body. To add one: a row here; documents, pick lists, solids and silhouettes
 * follow. Outlines are common practice, no source.
 */

/** Where a body stands (m): its largest radius, its height, and the heights over the photometric centre of its lower
 * rim where it opens downward, of its lower end where it is centred, and of its middle. */
export interface BodySize {
  readonly radius: number;
  readonly height: number;
  readonly rim: number;
  readonly low: number;
  readonly middle: number;
}

export type HalfProfile = (readonly [radius: number, z: number])[];

export interface BodyOutline {
  /** Height where nobody said, as a share of the diameter. */
  readonly rise: number;
  /** Centred on the photometric centre; the others open downward, their rim level with the opening's lowest point. */
  readonly centred: boolean;
  /** Whether it glows all round, so that a flat opening in its file is not where the light leaves. */
  readonly glowsRound: boolean;
  /** Quarters of a circle that its curve runs through, 1 if not said: each is drawn by as many pieces. */
  readonly quarters?: number;
  /** Steps of its curve as a solid that blocks light, so that chords lie within 0.03 % of the radius; of one that bends inward,
   * where each step is a solid of its own, 0.06 % must do. */
  readonly solidSteps?: number;
  half(size: BodySize, steps: number): HalfProfile;
}

const RISE = 0.8;
const opensDownward = { rise: RISE, centred: false, glowsRound: false };
const centred = { rise: RISE, centred: true, glowsRound: false };

const straight = ({ radius, height }: BodySize, from: number): HalfProfile => [
  [radius, from],
  [radius, from + height],
];

/** Keys are words of the study format. */
export const BODY_PROFILES = {
  dome: {
    ...opensDownward,
    rise: 0.7,
    solidSteps: 48,
    // Even steps of a sine: even in angle, and the top is closed to the last bit.
    half: ({ radius, height, rim }, count) =>
      steps(count, (t) => [radius * circle(sine(t)), rim + height * sine(t)]),
  },
  cone: {
    ...opensDownward,
    solidSteps: 1,
    half: ({ radius, height, rim }, count) =>
      steps(count, (t) => [radius * (1 - 0.85 * t), rim + height * t]),
  },
  bell: {
    ...opensDownward,
    rise: 1,
    solidSteps: 16,
    half: ({ radius, height, rim }, count) =>
      steps(count, (t) => [radius * (0.3 + 0.7 * (1 - t) ** 1.8), rim + height * t]),
  },
  drum: { ...opensDownward, half: (size) => straight(size, size.rim) },
  cylinder: { ...opensDownward, half: (size) => straight(size, size.rim) },
  globe: {
    ...centred,
    rise: 1,
    glowsRound: true,
    quarters: 2,
    solidSteps: 96,
    half: ({ radius, height, middle }, count) =>
      steps(count, (t) => {
        const z = -Math.cos(Math.PI * t);
        return [radius * circle(z), middle + (height / 2) * z];
      }),
  },
  bowl: {
    ...centred,
    rise: 0.5,
    glowsRound: true,
    solidSteps: 48,
    half: ({ radius, height, low }, count) =>
      steps(count, (t) => [radius * circle(1 - sineFromBottom(t)), low + height * sineFromBottom(t)]),
  },
  disc: { ...centred, rise: 0.1, half: (size) => straight(size, size.low) },
  box: { ...centred, half: (size) => straight(size, size.low) },
} satisfies Record<string, BodyOutline>;

export type NamedBodyProfile = keyof typeof BODY_PROFILES;

/** A named outline, or `profile`: one drawn by points. */
export type BodyProfile = NamedBodyProfile | "profile";

export const NAMED_BODY_PROFILES = Object.keys(BODY_PROFILES) as NamedBodyProfile[];

/** The outline of a name; undefined for one drawn by points. */
export function bodyOutline(profile: BodyProfile): BodyOutline | undefined {
  return profile === "profile" ? undefined : BODY_PROFILES[profile];
}

/** Share of the diameter that stands for a height not given. */
export function usualRise(profile: BodyProfile): number {
  return bodyOutline(profile)?.rise ?? RISE;
}

function steps(count: number, point: (t: number) => readonly [number, number]): HalfProfile {
  return Array.from({ length: count + 1 }, (_, i) => point(i / count));
}

/** Radius of the unit circle at height z; exactly zero at its ends. */
function circle(z: number): number {
  return Math.abs(z) >= 1 ? 0 : Math.sqrt(1 - z * z);
}

function sine(t: number): number {
  return t === 1 ? 1 : Math.sin((Math.PI / 2) * t);
}

function sineFromBottom(t: number): number {
  return t === 0 ? 0 : 1 - Math.cos((Math.PI / 2) * t);
}
