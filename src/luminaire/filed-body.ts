/** The body that a photometric file states by its housing, as a study would say it. */

import { STICKS_OUT } from "./body.ts";
import type { Luminaire } from "./luminaire.ts";

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

/** No luminaire measures less across (m): a file in metres would state one. */
const LEAST = 0.005;

/** Undefined where the file states no size that a luminaire has, or one that is smaller than its opening. */
export function filedBody({ filed, emission: { opening } }: Luminaire): FiledBody | undefined {
  const { length = 0, width = 0, height = 0 } = filed?.housing ?? {};
  const holds = (along: number, across: number): boolean =>
    Math.max(opening.length - along, opening.width - across) <= 2 * STICKS_OUT;
  const tall = height > 0 ? { height } : {};
  if (length === 0)
    return width >= LEAST && holds(width, width)
      ? { profile: "cylinder", diameter: width, ...tall }
      : undefined;
  if (Math.min(length, width) < LEAST || height < 0) return undefined;
  const isAbove = height > opening.height && opening.shape !== "point";
  const more = { ...tall, ...(isAbove ? { offset: (height - opening.height) / 2 } : {}) };
  if (holds(length, width)) return { profile: "box", length, width, ...more };
  // Some files name the housing's sides the other way about than the opening's.
  return holds(width, length) ? { profile: "box", length: width, width: length, ...more } : undefined;
}

/** Its sides (m), the longest first, the height last where it is known. */
export function filedSides(body: FiledBody): readonly number[] {
  const across =
    body.profile === "box"
      ? [Math.max(body.length, body.width), Math.min(body.length, body.width)]
      : [body.diameter];
  return [...across, ...(body.height === undefined ? [] : [body.height])];
}
