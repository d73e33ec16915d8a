/** Places inside a JSON document as pointers (RFC 6901), such as `/island/zones/0/target`. */

/** Appends a key or index to a document path (RFC 6901: `~` and `/` inside a key are written `~0` and `~1`). */
export function pathTo(parent: string, key: string | number): string {
  return `${parent}/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`;
}
