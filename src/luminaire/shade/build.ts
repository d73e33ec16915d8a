/**
 * The luminaire a study's `lamp` and `shade` stand for.
 *
 * Traced shades are kept by the text of their definition (name and origin apart), so that an arrangement may
 * be changed for ever without tracing again.
 */

import type { Observer } from "../../diagnostics/cancelled.ts";
import { failure, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import type { Luminaire } from "../luminaire.ts";
import {
  type Assumption,
  describeShade,
  type LampDocument,
  resolveShade,
  type ShadeDocument,
} from "./definition.ts";
import { type ShadePhotometry, shadeLuminaire } from "./shade-luminaire.ts";

export interface BuiltShade {
  readonly luminaire: Luminaire;
  readonly photometry: ShadePhotometry;
  readonly assumptions: readonly Assumption[];
  readonly description: string;
}

const KEPT = 32;
const kept = new Map<string, BuiltShade>();

/** @param path document path of the luminaire, for issues */
export function buildShadeLuminaire(
  name: string,
  lamp: LampDocument,
  shade: ShadeDocument,
  where: { readonly file?: string; readonly path?: string } = {},
  observer?: Observer,
): Outcome<BuiltShade> {
  const resolved = resolveShade(lamp, shade);
  if (!("shade" in resolved)) {
    const issues = resolved.map(
      (fault): Issue => ({
        code: "shade-definition",
        severity: "error",
        message: fault.message,
        expected: fault.expected,
        received: fault.received,
        where: { ...where, path: `${where.path ?? ""}${fault.key}` },
      }),
    );
    return failure(...issues);
  }
  const key = JSON.stringify([lamp, shade]);
  let built = kept.get(key);
  if (built === undefined) {
    const description = describeShade(resolved);
    const watts = lamp.watts === undefined ? undefined : lamp.watts * (lamp.count ?? 1);
    const made = shadeLuminaire(
      resolved.shade,
      [resolved.lamp],
      { name, origin: description, watts },
      observer,
    );
    if (made.photometry.lightOutputRatio < 1e-4) {
      return failure({
        code: "shade-dark",
        severity: "error",
        message: "The shade lets no light out.",
        expected: "an open end or a finish that passes light",
        received: "a closed solid shade",
        where: { ...where, path: `${where.path ?? ""}/shade` },
      });
    }
    built = { ...made, assumptions: resolved.assumptions, description };
    if (kept.size >= KEPT) kept.delete(kept.keys().next().value as string);
    kept.set(key, built);
  }
  return success({ ...built, luminaire: { ...built.luminaire, name } });
}
