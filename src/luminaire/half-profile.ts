/** The half-profile of a luminaire's body, turned about its axis: what blocks its light, and what is drawn of it.
 * Outlines of named profiles are common practice, no source. */

import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import type { Body } from "./body.ts";

const STEPS = 8;

type Half = (readonly [radius: number, z: number])[];

/** Half-profile [radius, height above the photometric centre] (m), lower end first; the two extents of a box.
 * Curves are drawn in `count` steps. */
export function halfProfile(body: Body, opening: LuminousOpening, count = STEPS): Half {
  const radius = body.diameter / 2;
  const { height, offset } = body;
  const rim = offset - opening.height / 2;
  const middle = offset - height / 2;
  const rising = (shape: (t: number) => number): Half =>
    steps(count, (t) => [radius * shape(t), rim + height * t] as const);
  switch (body.profile) {
    case "dome":
      // t is a sine, so that the steps are even in angle and the top is closed to the last bit
      return steps(count, (t) => [radius * ellipse(sine(t)), rim + height * sine(t)] as const);
    case "cone":
      return rising((t) => 1 - 0.85 * t);
    case "bell":
      return rising((t) => 0.3 + 0.7 * (1 - t) ** 1.8);
    case "drum":
    case "cylinder":
      return [
        [radius, rim],
        [radius, rim + height],
      ];
    case "globe":
      return steps(count, (t) => {
        const z = -Math.cos(Math.PI * t);
        return [radius * ellipse(z), offset + (height / 2) * z] as const;
      });
    case "bowl":
      return steps(
        count,
        (t) => [radius * ellipse(1 - sineFromBottom(t)), middle + height * sineFromBottom(t)] as const,
      );
    case "profile":
      return (body.outline ?? []).map(([r, z]) => [r, z + offset] as const);
    default:
      return [
        [radius, middle],
        [radius, middle + height],
      ];
  }
}

function steps(count: number, point: (t: number) => readonly [number, number]): Half {
  return Array.from({ length: count + 1 }, (_, i) => point(i / count));
}

/** Radius of the unit circle at height z; exactly zero at its ends. */
function ellipse(z: number): number {
  return Math.abs(z) >= 1 ? 0 : Math.sqrt(1 - z * z);
}

function sine(t: number): number {
  return t === 1 ? 1 : Math.sin((Math.PI / 2) * t);
}

function sineFromBottom(t: number): number {
  return t === 0 ? 0 : 1 - Math.cos((Math.PI / 2) * t);
}
