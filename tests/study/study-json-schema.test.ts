/** The JSON Schema and the documented example are held to the validator. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { resolveStudy } from "../../src/scene/resolve.ts";
import { checkStudy } from "../../src/study/study.ts";
import { type JsonSchema, studyJsonSchema } from "../../src/study/study-json-schema.ts";
import { readStudy } from "../../src/study/study-text.ts";
import { CONTEXT } from "../support/studies.ts";

const file = (name: string) => readFileSync(new URL(`../../fixtures-data/${name}`, import.meta.url), "utf8");

/** The few words of JSON Schema that ours uses, judged plainly. */
function allows(schema: JsonSchema, value: unknown): boolean {
  const s = schema as Record<string, never>;
  if ("anyOf" in s) return (s.anyOf as JsonSchema[]).some((option) => allows(option, value));
  if ("enum" in s) return (s.enum as unknown[]).includes(value);
  if ("const" in s) return s.const === value;
  switch (s.type as string) {
    case "number":
    case "integer":
      return (
        typeof value === "number" &&
        ((s.type as string) === "number" || Number.isInteger(value)) &&
        value >= ((s.minimum as number | undefined) ?? -Infinity) &&
        value > ((s.exclusiveMinimum as number | undefined) ?? -Infinity) &&
        value <= ((s.maximum as number | undefined) ?? Infinity)
      );
    case "string":
      return (
        typeof value === "string" &&
        value.length >= ((s.minLength as number | undefined) ?? 0) &&
        value.length <= ((s.maxLength as number | undefined) ?? Infinity)
      );
    case "boolean":
      return typeof value === "boolean";
    case "null":
      return value === null;
    case "array": {
      if (!Array.isArray(value)) return false;
      if (value.length < ((s.minItems as number | undefined) ?? 0)) return false;
      if (value.length > ((s.maxItems as number | undefined) ?? Infinity)) return false;
      const prefix = s.prefixItems as JsonSchema[] | undefined;
      return value.every((item, i) => allows(prefix?.[i] ?? (s.items as JsonSchema), item));
    }
    default: {
      if (typeof value !== "object" || value === null || Array.isArray(value)) return false;
      const properties = (s.properties ?? {}) as Record<string, JsonSchema>;
      if (((s.required as string[] | undefined) ?? []).some((key) => !(key in value))) return false;
      return Object.entries(value).every(([key, entry]) => {
        const own = properties[key] ?? s.additionalProperties;
        return typeof own === "object" && allows(own, entry);
      });
    }
  }
}

/** The example's photometric files, on disk beside it or inside it. */
function photometryOf(luminaire: string) {
  const { luminaires, embedded } = JSON.parse(file("every-key.study.json"));
  const path = luminaires[luminaire].photometry as string;
  const text = embedded[path]?.text ?? file(path);
  return readPhotometry(new TextEncoder().encode(text), { file: path });
}

describe("the JSON Schema of a study", () => {
  const schema = studyJsonSchema();

  it("is the one shipped (vitest -u writes it anew)", async () => {
    const shipped = new URL("../../fixtures-data/study.schema.json", import.meta.url);
    await expect(`${JSON.stringify(schema, null, 1)}\n`).toMatchFileSnapshot(fileURLToPath(shipped));
  });

  it("judges as the validator does, change by change", () => {
    const example = JSON.parse(file("every-key.study.json"));
    const accepted = (study: unknown) => checkStudy(study).ok;
    expect(allows(schema, example)).toBe(true);
    let judged = 0;
    let refused = 0;
    const visit = (holder: Record<string, unknown>, key: string) => {
      const kept = holder[key];
      // A text is left out: the schema leaves units to the reader, and says so.
      for (const other of [undefined, null, true, -3, 1e9, [], {}, { unknown: 1 }]) {
        if (other === undefined && Array.isArray(holder)) continue;
        if (other === undefined) delete holder[key];
        else holder[key] = other;
        const verdict = accepted(example);
        expect([key, other, allows(schema, example)]).toEqual([key, other, verdict]);
        judged++;
        if (!verdict) refused++;
      }
      holder[key] = kept;
      if (typeof kept === "object" && kept !== null)
        for (const inner of Object.keys(kept)) visit(kept as Record<string, unknown>, inner);
    };
    for (const key of Object.keys(example)) visit(example, key);
    expect(judged).toBeGreaterThan(1000);
    expect(refused).toBeGreaterThan(judged / 2);
  });

  it("has an example that uses every key there is", () => {
    const example = JSON.parse(file("every-key.study.json"));
    const missing: string[] = [];
    const walk = (node: JsonSchema, values: unknown[], path: string) => {
      const s = node as Record<string, never>;
      const objects = values.filter(
        (v) => typeof v === "object" && v !== null && !Array.isArray(v),
      ) as object[];
      for (const [key, inner] of Object.entries((s.properties ?? {}) as Record<string, JsonSchema>)) {
        const found = objects.flatMap((o) => (key in o ? [(o as Record<string, unknown>)[key]] : []));
        if (found.length === 0) missing.push(`${path}/${key}`);
        else walk(inner, found, `${path}/${key}`);
      }
      if (typeof s.additionalProperties === "object")
        walk(
          s.additionalProperties,
          objects.flatMap((o) => Object.values(o)),
          `${path}/*`,
        );
      if (s.items !== undefined) walk(s.items, values.filter(Array.isArray).flat(), `${path}/*`);
      for (const option of (s.anyOf ?? []) as JsonSchema[])
        if ("properties" in option || "items" in option) walk(option, values, path);
    };
    walk(schema, [example], "");
    expect(missing).toEqual([]);
  });

  it("has an example that resolves", () => {
    const read = readStudy(file("every-key.study.json"));
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    const outcome = resolveStudy(read.value, { ...CONTEXT, photometry: photometryOf });
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues, null, 1));
    expect(outcome.value.scenes).toHaveLength(2);
  });
});
