/** What an order would contradict, in a sentence each. */

import { printable } from "../diagnostics/printable.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { type OrderDoubt, orderDoubts } from "../luminaire/order-doubts.ts";

export function orderDoubtWords(luminaire: Luminaire): string[] {
  return orderDoubts(luminaire).map(doubtWords);
}

function doubtWords(doubt: OrderDoubt): string {
  const quoted = (text: string): string => `"${printable(text, 40)}"`;
  switch (doubt.kind) {
    case "other luminaire":
      return `Ordered is ${quoted(doubt.order)}, the light was measured of ${quoted(doubt.measured)}: say which, or have the file of what is ordered.`;
    case "other source":
      return `Order no. ${quoted(doubt.order)} is the study's, maker ${quoted(doubt.maker)} the photometric file's: state "maker" if it is theirs.`;
    case "other white":
      return `Lamp ${quoted(doubt.lamp)} does not go with ${doubt.cct} K: say which is to be ordered.`;
  }
}
