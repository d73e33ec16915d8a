/**
 * Reading and writing a JSON document by path, without changing it:
 * a write returns a new document that shares every part it did not touch.
 */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** Steps of a pointer; numbers for places in a list. */
export type Path = readonly (string | number)[];

/** Keys that would reach an object's prototype, which no study has a use for. */
const FORBIDDEN = new Set(["__proto__", "constructor", "prototype"]);

/** The value at a path; undefined where there is none. */
export function read(document: Json | undefined, path: Path): Json | undefined {
  let value: Json | undefined = document;
  for (const step of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, Json>)[step];
  }
  return value;
}

/** A document with `value` at the path; undefined removes what is there. Missing objects on the way are made;
 * a list is written only at a place it has, or at its end. */
export function write(document: Json | undefined, path: Path, value: Json | undefined): Json {
  if (path.length === 0) {
    if (value === undefined) throw new Error("The whole document cannot be removed.");
    return value;
  }
  const [step, ...rest] = path;
  if (FORBIDDEN.has(String(step))) throw new Error(`A study has no key ${step}.`);
  if (Array.isArray(document)) {
    const index = Number(step);
    if (!Number.isInteger(index) || index < 0 || index > document.length) {
      throw new Error(`The list has no place ${step}.`);
    }
    const list = [...document];
    if (rest.length === 0 && value === undefined) list.splice(index, 1);
    else list[index] = write(list[index], rest, value);
    return list;
  }
  const object = { ...((document ?? {}) as Record<string, Json>) };
  if (rest.length === 0 && value === undefined) delete object[step];
  else object[step] = write(object[step], rest, value);
  return object;
}
