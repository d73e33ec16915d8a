/** The JSON Schema and the documented example are held to the validator. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { checkStudy } from "../../src/study/study.ts";
import { type JsonSchema, studyJsonSchema } from "../../src/study/study-json-schema.ts";
import { readStudy } from "../../src/study/study-text.ts";
import { resolveStudy } from "../support/resolve-study.ts";
import { CONTEXT } from "../support/studies.ts";

const file = (name: string) => readFileSync(new URL(`../../fixtures-data/${name}`, import.meta.url), "utf8");

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
ajv.addVocabulary(["unit", "frame"]);

/** The example's photometric files, on disk beside it or inside it. */
function photometryOf(luminaire: string) {
  const { luminaires, embedded } = JSON.parse(file("every-key.study.json"));
  const path = luminaires[luminaire].photometry as string;
  const text = embedded[path]?.text ?? file(path);
  return readPhotometry(new TextEncoder().encode(text), { file: path });
}

/** Every key with its path and its schema; a number stands for each entry of a list or a table. */
function keysOf(schema: JsonSchema, path = ""): { path: string; schema: JsonSchema; required: boolean }[] {
  const s = schema as Record<string, never>;
  const required = new Set((s.required ?? []) as string[]);
  const own = Object.entries((s.properties ?? {}) as Record<string, JsonSchema>).flatMap(([key, inner]) => [
    { path: `${path}/${key}`, schema: inner, required: required.has(key) },
    ...keysOf(inner, `${path}/${key}`),
  ]);
  const entries = [s.items, s.additionalProperties].filter((each) => typeof each === "object");
  return [
    ...own,
    ...entries.flatMap((each) => keysOf(each as JsonSchema, `${path}/0`)),
    ...((s.anyOf ?? []) as JsonSchema[]).flatMap((each) => keysOf(each, path)),
  ];
}

function checked(study: unknown) {
  const outcome = checkStudy(study);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

describe("the JSON Schema of a study", () => {
  const schema = studyJsonSchema();
  const allows = ajv.compile(schema);
  const keys = keysOf(schema);

  it("is the one shipped (vitest -u writes it anew)", async () => {
    const shipped = new URL("../../fixtures-data/study.schema.json", import.meta.url);
    await expect(`${JSON.stringify(schema, null, 1)}\n`).toMatchFileSnapshot(fileURLToPath(shipped));
  });

  it("says of every key what it means, its unit, its default and an example", () => {
    expect(keys.length).toBeGreaterThan(190);
    const lacking = keys.filter(({ schema: { description, examples } }) => {
      const written = typeof description === "string" && /^[A-Z\u0060].*\.$/s.test(description);
      return !written || !Array.isArray(examples) || examples.length === 0;
    });
    expect(lacking.map(({ path }) => path)).toEqual([]);
    const leftOut = ({ description, ...rest }: JsonSchema) =>
      "default" in rest || / Left out: .+\.$/.test(String(description));
    expect(keys.filter(({ schema: s, required }) => leftOut(s) === required).map(({ path }) => path)).toEqual(
      [],
    );
    const isLength = (s: JsonSchema) => (s.anyOf as JsonSchema[] | undefined)?.[1].maxLength === 60;
    const bare = keys.filter(({ schema: s }) => isLength(s) && s.unit === undefined);
    expect(bare.map(({ path }) => path)).toEqual([]);
    expect(keys.filter(({ schema: { unit } }) => unit === "m").length).toBeGreaterThan(60);
  });

  it("allows each example, and each default, where it stands", () => {
    const refused = keys.filter(({ schema: s }) => {
      const { examples, ...alone } = s as JsonSchema & { examples: unknown[] };
      const judge = ajv.compile(alone);
      return ![...examples, ...("default" in s ? [s.default] : [])].every((value) => judge(value));
    });
    expect(refused.map(({ path, schema: s }) => [path, s.examples])).toEqual([]);
  });

  it("states the defaults that resolving fills in", () => {
    const study = {
      format: "candlespan-study",
      version: 1,
      room: {
        length: 5,
        width: 4,
        ceilingHeight: 2.6,
        ceiling: { slope: 3 },
        openings: [{ wall: 0, from: 1, length: 1, height: 1 }],
        doors: [{ wall: 1, from: 0.2, width: 0.9 }],
      },
      island: { length: 2.4, width: 1, seats: {} },
      bodies: [
        {
          name: "cabinet",
          box: [
            [0, 0, 0],
            [0.6, 0.6, 2],
          ],
        },
      ],
      people: [{ name: "cook", at: [2.5, 1.2] }],
      luminaires: {
        dome: { beam: { flux: 800, angle: 60 }, body: { profile: "dome", diameter: 0.3 } },
        cone: { lamp: { flux: 800 }, shade: { profile: "cone", diameter: 0.3 } },
      },
      maintenance: { lampFlux: 0.9 },
      arrangements: [
        {
          name: "a",
          layers: [
            { name: "p", luminaire: "dome", row: { count: 2 } },
            { name: "c", luminaire: "cone", row: { count: 1 } },
          ],
        },
      ],
    };
    const resolved = resolveStudy(checked(study), { ...CONTEXT, photometry: new Map() });
    if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
    const described = new Map(keys.map(({ path, schema: s }) => [path, s]));
    const compared = resolved.value.defaults.flatMap(({ path, value }) => {
      const key = described.get(
        path.replace(/\/\d+(?=\/)/g, "/0").replace(/^\/luminaires\/\w+/, "/luminaires/0"),
      );
      return key !== undefined && "default" in key ? [{ path, value, said: key.default }] : [];
    });
    expect(compared.length).toBeGreaterThan(25);
    expect(compared.filter(({ value, said }) => JSON.stringify(value) !== JSON.stringify(said))).toEqual([]);
  });

  it("judges as the validator does, change by change", () => {
    const example = JSON.parse(file("every-key.study.json"));
    const accepted = (study: unknown) => checkStudy(study).ok;
    expect(allows(example)).toBe(true);
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
        expect([key, other, allows(example)]).toEqual([key, other, verdict]);
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
