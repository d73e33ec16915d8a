/** The body that a photometric file states by its housing, as a study would say it. */

import type { Housing } from "../photometry/housing.ts";
import type { LuminousOpening } from "../photometry/luminous-opening.ts";
import { openingClearance, STICKS_OUT } from "./plan-extent.ts";

/** Lengths in m; a box lies along its luminous opening, with its foot level with the opening's. */
export type FiledBody =
  | { readonly profile: "cylinder"; readonly diameter: number; readonly height?: number }
  | {
      readonly profile: "box";
      readonly length: number;
      readonly width: number;
      readonly height?: number;
      readonly offset?: number;
    };

/** Undefined where the opening is larger than the housing either way: one of the two is wrong. */
export function filedBody(
  { isRound, length, width, height }: Housing,
  opening: LuminousOpening,
): FiledBody | undefined {
  const contains = (along: number, across: number): boolean =>
    openingClearance(opening, [along, across]) >= -STICKS_OUT;
  const tall = height > 0 ? { height } : {};
  if (isRound)
    return contains(length, length) ? { profile: "cylinder", diameter: length, ...tall } : undefined;
  const foot =
    height > opening.height && opening.shape !== "point" ? { offset: (height - opening.height) / 2 } : {};
  if (contains(length, width)) return { profile: "box", length, width, ...tall, ...foot };
  // Some files name the housing's sides the other way about than the opening's.
  return contains(width, length)
    ? { profile: "box", length: width, width: length, ...tall, ...foot }
    : undefined;
}

/** Its sides (m), the longest first, the height last where it is known. */
export function filedSides(body: FiledBody): readonly number[] {
  const across =
    body.profile === "box"
      ? [Math.max(body.length, body.width), Math.min(body.length, body.width)]
      : [body.diameter];
  return [...across, ...(body.height === undefined ? [] : [body.height])];
}
