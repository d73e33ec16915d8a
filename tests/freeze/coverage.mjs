/** Which properties and enumerated values of a JSON Schema a set of documents uses, and which it does not. */

/** Every property path of the schema, and `path=value` of every enumerated value. */
export function schemaPaths(schema, path = "", found = new Set()) {
  for (const [key, below] of Object.entries(schema.properties ?? {})) {
    found.add(`${path}/${key}`);
    schemaPaths(below, `${path}/${key}`, found);
  }
  if (typeof schema.additionalProperties === "object")
    schemaPaths(schema.additionalProperties, `${path}/*`, found);
  for (const below of schema.anyOf ?? []) schemaPaths(below, path, found);
  for (const below of schema.prefixItems ?? []) schemaPaths(below, `${path}[]`, found);
  if (schema.items) schemaPaths(schema.items, `${path}[]`, found);
  for (const value of schema.enum ?? []) found.add(`${path}=${value}`);
  return found;
}

/** The same paths, as far as a document uses them. */
export function documentPaths(schema, value, path = "", found = new Set()) {
  for (const branch of schema.anyOf ?? []) documentPaths(branch, value, path, found);
  if (schema.enum?.includes(value)) found.add(`${path}=${value}`);
  if (Array.isArray(value)) {
    for (const [i, item] of value.entries()) {
      const below = schema.prefixItems?.[i] ?? schema.items;
      if (below) documentPaths(below, item, `${path}[]`, found);
    }
  } else if (typeof value === "object" && value !== null) {
    for (const [key, item] of Object.entries(value)) {
      const named = schema.properties?.[key];
      if (named) found.add(`${path}/${key}`);
      if (named) documentPaths(named, item, `${path}/${key}`, found);
      else if (typeof schema.additionalProperties === "object")
        documentPaths(schema.additionalProperties, item, `${path}/*`, found);
    }
  }
  return found;
}

/** The surfaces of a shade share one list of finishes; each finish has to occur as the whole shade's alone. */
const shared = (path) => /\/(inside|outside|diffuser)\/finish=/.test(path);

/** Throws with the list of what no document uses. */
export function assertEveryKey(schema, documents) {
  const used = new Set();
  for (const document of documents) documentPaths(schema, document, "", used);
  const absent = [...schemaPaths(schema)].filter((path) => !used.has(path) && !shared(path));
  if (absent.length > 0) throw new Error(`No study uses:\n${absent.join("\n")}`);
}
