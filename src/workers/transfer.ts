/** Typed arrays that go over to the page instead of being copied. */

import type { Outcome } from "../diagnostics/issue.ts";

/** An outcome, and what of it the worker keeps no use for: handed over instead of copied. */
export type Answer<T> = Outcome<T> & { readonly transfer?: readonly ArrayBuffer[] };

/** The buffers of every typed array in plain data, each once, but for those that `kept` holds too. */
export function buffersOf(value: unknown, copy: unknown = undefined): ArrayBuffer[] {
  const buffers = new Set<ArrayBuffer>();
  const others = new Set<ArrayBuffer>();
  collect(copy, others);
  collect(value, buffers);
  return [...buffers].filter((buffer) => !others.has(buffer));
}

function collect(value: unknown, into: Set<ArrayBuffer>): void {
  if (typeof value !== "object" || value === null) return;
  if (ArrayBuffer.isView(value)) {
    if (value.buffer instanceof ArrayBuffer) into.add(value.buffer);
  } else if (value instanceof Map || value instanceof Set) {
    for (const each of value.values()) collect(each, into);
  } else for (const each of Object.values(value)) collect(each, into);
}
