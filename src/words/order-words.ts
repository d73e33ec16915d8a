/** What an order would contradict, in a sentence each. */

import { printable } from "../diagnostics/printable.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import {
  type OrderContradiction,
  orderContradictions,
  sameProduct,
} from "../luminaire/order-contradictions.ts";

export function orderContradictionWords(luminaire: Luminaire): string[] {
  return orderContradictions(luminaire).map(contradictionWords);
}

/** By whose word the light measured is that of what is ordered by another number; empty where both have one number. */
export function sameProductWords(luminaire: Luminaire): string {
  const both = sameProduct(luminaire);
  if (both === undefined) return "";
  return `Its light was measured of "${printable(both.measured, 40)}", by the study's own word the same product as "${printable(both.order, 40)}".`;
}

function contradictionWords(contradiction: OrderContradiction): string {
  const quoted = (text: string): string => `"${printable(text, 40)}"`;
  switch (contradiction.kind) {
    case "other luminaire":
      return `Ordered is ${quoted(contradiction.order)}, the light was measured of ${quoted(contradiction.measured)}: say which, have the file of what is ordered, or say that they are the same product.`;
    case "other source":
      return `Order no. ${quoted(contradiction.order)} is the study's, maker ${quoted(contradiction.maker)} the photometric file's: state "maker" if it is theirs.`;
    case "other white":
      return `Lamp ${quoted(contradiction.lamp)} does not go with ${contradiction.cct} K: say which is to be ordered.`;
  }
}
