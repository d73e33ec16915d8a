/** What a study says of a luminaire without a photometric file, and what becomes of it. */

import type { Ledger } from "../../diagnostics/ledger.ts";
import { formatLength, type LengthUnit } from "../../units/length-text.ts";
import { degrees } from "../../units/quantities.ts";
import { type LinearAssembly, resolveLinear } from "./linear-definition.ts";
import { type RevolvedAssembly, resolveRevolved } from "./revolved-definition.ts";
import type { LampDocument, ShadeDocument } from "./shade-document.ts";

export type ShadeAssembly = RevolvedAssembly | LinearAssembly;

/** Resolves lamp and shade; what was left open and what cannot be is in the log, by path within the luminaire. */
export function resolveShade(lamp: LampDocument, shade: ShadeDocument, log: Ledger): ShadeAssembly {
  return shade.profile === "linear"
    ? resolveLinear(lamp, shade, log)
    : resolveRevolved(lamp, shade, shade.profile, log);
}

/** Lamp and shade in one line, for people. */
export function describeShade(assembly: ShadeAssembly, unit: LengthUnit = "mm"): string {
  const plan = (a: number, b: number): string =>
    unit === "mm"
      ? `${Math.round(a * 1000)} × ${Math.round(b * 1000)} mm`
      : `${formatLength(a, unit)} × ${formatLength(b, unit)}`;
  if (assembly.kind === "linear") {
    const { length, width, cover } = assembly.housing;
    return `${Math.round(assembly.flux)} lm strip in a linear housing, ${plan(length, width)}, ${cover === undefined ? "open" : "opal cover"}`;
  }
  const { shade, lamp } = assembly;
  const beam = lamp.beam === undefined ? "" : `, ${degrees(lamp.beam).toFixed(0)}°`;
  return `${Math.round(lamp.flux)} lm ${lamp.finish} lamp${beam}${(lamp.count ?? 1) > 1 ? ` × ${lamp.count}` : ""} in ${shadeWords(shade)}, ${plan(shade.diameter, shade.height)}`;
}

/** A mouth closed by what light passes makes no shade see-through: what its wall lets pass is said, and what closes it. */
function shadeWords({ segments }: RevolvedAssembly["shade"]): string {
  const passes = segments.filter(({ material }) => material.transmittance > 0);
  if (passes.length === 0) return "a solid shade";
  if (passes.length < segments.length) return "an opaque shade with a diffuser";
  const scatters = passes.every(({ material }) => material.diffusion > 0.5);
  return scatters ? "a diffusing shade" : "a see-through shade";
}
