/** Which rules cannot be followed together: they want the same number of an arrangement in ranges that do not meet. */

import type { Want } from "./rule.ts";

/** Ranges of lengths that only touch are one and the same to a tape measure (m). */
const TOUCH = 0.002;
const MOST = 24;

export function contradict(a: Want | undefined, b: Want | undefined): boolean {
  if (a === undefined || b === undefined || a.variable !== b.variable) return false;
  if (a.variable === "count") {
    for (let n = 1; n <= MOST; n++) if (counts(a, n) && counts(b, n)) return false;
    return true;
  }
  return a.low > b.high + TOUCH || b.low > a.high + TOUCH;
}

function counts({ low, high, odd }: Want, n: number): boolean {
  return n >= low && n <= high && (odd !== true || n % 2 === 1);
}
