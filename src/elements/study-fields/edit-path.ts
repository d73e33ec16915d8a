/** Reading and naming one place of a study document by its JSON pointer. */
import { parsePointer } from "../../diagnostics/json-path.ts";

export function valueAt(document: unknown, path: string): unknown {
  let at = document;
  for (const key of parsePointer(path)) {
    if (at === null || typeof at !== "object") return undefined;
    at = Object.hasOwn(at, key) ? (at as Record<string, unknown>)[key] : undefined;
  }
  return at;
}

/** The document with one value replaced, sharing everything else; `undefined` removes the key. For pages that
 * keep no document of their own. Keys that would reach an object's prototype are refused. */
export function withValueAt<T>(document: T, path: string, value: unknown): T {
  const parts = parsePointer(path);
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
