/** Places inside a JSON document as pointers (RFC 6901), such as `/island/zones/0/target`. */

/** Appends a key or index to a document path (RFC 6901: `~` and `/` inside a key are written `~0` and `~1`). */
export function pathTo(parent: string, key: string | number): string {
  return `${parent}/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`;
}

/** The keys and indices of a document path, all as text. */
export function parsePointer(path: string): string[] {
  return path
    .split("/")
    .slice(1)
    .map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"));
}

/** The document path of keys and indices. */
export function formatPointer(steps: readonly (string | number)[]): string {
  return steps.reduce<string>(pathTo, "");
}
