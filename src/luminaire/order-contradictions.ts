/**
 * What an order would contradict: another luminaire than the one whose light was measured, a maker who does not make it, a lamp of another
 * white. Text of files and studies is untrusted.
 */

import type { Luminaire } from "./luminaire.ts";

export type OrderContradiction =
  /** The file's light is of another order number than the study orders. */
  | { readonly kind: "other luminaire"; readonly order: string; readonly measured: string }
  /** The maker is the file's, the order number the study's alone. */
  | { readonly kind: "other source"; readonly order: string; readonly maker: string }
  /** The lamp's own words say another white than the colour temperature (K). */
  | { readonly kind: "other white"; readonly lamp: string; readonly cct: number };

/** Groups of EN 12464-1: warm below 3300 K, intermediate (sold as neutral, also as cool) to 5300 K, cool (daylight) above. */
const WHITES: readonly (readonly [pattern: RegExp, least: number, most: number])[] = [
  [/\bwarm[- ]?white\b/i, 0, 3300],
  [/\b(?:neutral|intermediate)[- ]?white\b/i, 3300, 5300],
  [/\bcool[- ]?white\b/i, 3300, Number.POSITIVE_INFINITY],
  [/\bdaylight\b/i, 5300, Number.POSITIVE_INFINITY],
];
/** Whites nearer than this are sold under one name (K). */
const SAME_WHITE = 150;

export function orderContradictions(luminaire: Luminaire): OrderContradiction[] {
  const { maker, order, lamp, cct, filed } = luminaire;
  const contradictions: OrderContradiction[] = [];
  const other = otherNumber(luminaire);
  if (other !== undefined && !isSameProduct(luminaire))
    contradictions.push({ kind: "other luminaire", ...other });
  else if (order !== undefined && filed?.order === undefined && maker !== undefined && maker === filed?.maker)
    contradictions.push({ kind: "other source", order, maker });
  if (lamp !== undefined && cct !== undefined && !isWhite(lamp, cct))
    contradictions.push({ kind: "other white", lamp, cct });
  return contradictions;
}

/** What is ordered, and by which number it was measured, where the study says that both are one product; undefined where both have one number. */
export function sameProduct(luminaire: Luminaire): ReturnType<typeof otherNumber> {
  return isSameProduct(luminaire) ? otherNumber(luminaire) : undefined;
}

function otherNumber({
  order,
  filed,
}: Luminaire): { readonly order: string; readonly measured: string } | undefined {
  if (order === undefined || filed?.order === undefined || same(order, filed.order)) return undefined;
  return { order, measured: filed.order };
}

/** What was said of one file holds for no other. */
function isSameProduct({ measured, filed }: Luminaire): boolean {
  return measured !== undefined && filed?.order !== undefined && same(measured, filed.order);
}

function same(a: string, b: string): boolean {
  const bare = (text: string): string => text.toLowerCase().replace(/[\s._/-]/g, "");
  return bare(a) === bare(b);
}

function isWhite(lamp: string, cct: number): boolean {
  const kelvin = [...lamp.matchAll(/\b(\d{4})\s?K\b/g)].map(([, figure]) => Number(figure));
  if (kelvin.length > 0) return kelvin.some((each) => Math.abs(each - cct) < SAME_WHITE);
  const named = WHITES.filter(([pattern]) => pattern.test(lamp));
  return named.length === 0 || named.some(([, least, most]) => cct >= least && cct <= most);
}
