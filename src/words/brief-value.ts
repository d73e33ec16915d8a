/** A value of a study as it is shown in a list of defaults: lengths and illuminances in the reader's units, other numbers to six digits. */

import { printable } from "../diagnostics/printable.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { inUnits } from "../study/study-json-schema.ts";
import { formatIlluminance } from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";

/** @param path JSON pointer of the value in its study */
export function briefValue(
  path: string,
  value: unknown,
  display: ResolvedStudy["display"],
  longest: number,
): string {
  if (typeof value === "object" && value !== null && "polygon" in value) return zoneWords(value);
  const shown = inUnits(path, value, {
    length: (metres) => formatLength(metres, display.length),
    illuminance: (lux) => formatIlluminance(lux, display.illuminance),
  });
  if (typeof shown === "string") return printable(shown, longest);
  if (Array.isArray(shown) && shown.length > 0 && shown.every((each) => typeof each === "string"))
    return printable(shown.join(", "), longest);
  if (typeof shown === "number" && /\/(turn|tilt|spin|slope|towards|facing)$/.test(path))
    return `${Number(shown.toPrecision(6))}°`;
  const text = JSON.stringify(shown, (_key, inner: unknown) =>
    typeof inner === "number" ? Number(inner.toPrecision(6)) : inner,
  );
  return printable(text ?? "", longest);
}

/** A zone that stood in: who wants its place asks where zones are told. */
function zoneWords(zone: object): string {
  const { name, target } = zone as { readonly name?: unknown; readonly target?: unknown };
  return `${printable(String(name), 60)}, target ${printable(String(target ?? "none"), 60)}`;
}
