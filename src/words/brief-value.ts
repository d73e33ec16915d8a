/** A value of a study as it is shown in a list of defaults: numbers to six digits, wherever they stand in it. */

import { printable } from "../diagnostics/printable.ts";

export function briefValue(value: unknown, longest: number): string {
  if (typeof value === "string") return printable(value, longest);
  const text = JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === "number" ? Number(inner.toPrecision(6)) : inner,
  );
  return printable(text ?? "", longest);
}
