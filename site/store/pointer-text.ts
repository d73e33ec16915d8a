/** Paths as text: RFC 6901 pointers such as `/room/length`. */

import type { Path } from "./pointer.ts";

export function parsePointer(pointer: string): Path {
  if (pointer === "") return [];
  return pointer
    .slice(1)
    .split("/")
    .map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"));
}

export function formatPointer(path: Path): string {
  return path.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}
