/** What an order would contradict, in a sentence each. */

import { printable } from "../diagnostics/printable.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { type OrderContradiction, orderContradictions } from "../luminaire/order-contradictions.ts";

export function orderContradictionWords(luminaire: Luminaire): string[] {
  return orderContradictions(luminaire).map(contradictionWords);
}

function contradictionWords(contradiction: OrderContradiction): string {
  const quoted = (text: string): string => `"${printable(text, 40)}"`;
  switch (contradiction.kind) {
    case "other luminaire":
      return `Ordered is ${quoted(contradiction.order)}, the light was measured of ${quoted(contradiction.measured)}: say which, or have the file of what is ordered.`;
    case "other source":
      return `Order no. ${quoted(contradiction.order)} is the study's, maker ${quoted(contradiction.maker)} the photometric file's: state "maker" if it is theirs.`;
    case "other white":
      return `Lamp ${quoted(contradiction.lamp)} does not go with ${contradiction.cct} K: say which is to be ordered.`;
  }
}
