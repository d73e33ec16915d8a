/** Reading and naming one place of a study document by its JSON pointer. */
import { readLength } from "../../units/read-length.ts";

export function valueAt(document: unknown, path: string): unknown {
  let at = document;
  for (const part of path.split("/").slice(1)) {
    if (at === null || typeof at !== "object") return undefined;
    const key = part.replaceAll("~1", "/").replaceAll("~0", "~");
    at = Object.hasOwn(at, key) ? (at as Record<string, unknown>)[key] : undefined;
  }
  return at;
}

/** A number as it stands; a length written with its unit in metres; of anything else nothing. */
export function metresOf(value: unknown): number | undefined {
  if (typeof value === "number") return value;
  if (typeof value !== "string") return undefined;
  const read = readLength(value);
  return read.ok ? read.metres : undefined;
}

/** The document with one value replaced, sharing everything else; `undefined` removes the key. For pages that
 * keep no document of their own. Keys that would reach an object's prototype are refused. */
export function withValueAt<T>(document: T, path: string, value: unknown): T {
  const parts = path
    .split("/")
    .slice(1)
    .map((part) => part.replaceAll("~1", "/").replaceAll("~0", "~"));
  if (parts.some((part) => part === "__proto__" || part === "constructor" || part === "prototype"))
    return document;
  return replaced(document, parts, value) as T;
}

function replaced(at: unknown, [key, ...rest]: string[], value: unknown): unknown {
  if (key === undefined) return value;
  if (Array.isArray(at)) {
    const copy = [...at];
    if (rest.length === 0 && value === undefined) copy.splice(Number(key), 1);
    else copy[Number(key)] = replaced(at[Number(key)], rest, value);
    return copy;
  }
  const copy: Record<string, unknown> = { ...((at ?? {}) as object) };
  if (rest.length === 0 && value === undefined) delete copy[key];
  else copy[key] = replaced(copy[key], rest, value);
  return copy;
}
