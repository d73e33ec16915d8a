/** What commands print with --json is what their schemas say: real answers validate, every key of them is described, a key taken away is missed. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, describe, expect, it } from "vitest";
import { ANSWER_NAMES, type AnswerName, answerSchema } from "../../src/cli/answers/answer-schemas.ts";
import type { JsonSchema } from "../../src/study/study-json-schema.ts";
import { called } from "../support/cli.ts";

const folder = mkdtempSync(join(tmpdir(), "candlespan-answers-"));
afterAll(() => rmSync(folder, { recursive: true }));
const file = (name: string, content: string): string => {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
};
const dome = fileURLToPath(
  new URL("../../fixtures-data/boathouse/photometry/dome-wide.ies", import.meta.url),
);

const STUDY = file(
  "a.study.json",
  JSON.stringify({
    format: "candlespan-study",
    version: 1,
    title: "small",
    room: { length: 4, width: 3, ceilingHeight: 2.6 },
    island: { length: 1.8, width: 0.9, height: 0.9, centre: [2, 1.5] },
    people: [{ name: "cook", at: [2, 0.8], age: 72 }],
    luminaires: {
      dome: { photometry: "dome.ies", body: { profile: "dome", diameter: 0.3, height: 0.2 }, watts: 9 },
      spot: { beam: { flux: 500, angle: 60 }, opening: { diameter: 0.08 } },
    },
    embedded: { "dome.ies": { text: readFileSync(dome, "latin1") } },
    arrangements: [
      {
        name: "two",
        layers: [
          { name: "pendants", luminaire: "dome", row: { count: 2, clearance: 0.8 }, hours: 2, circuit: "1" },
          // One box 30 mm from another: a clash.
          {
            name: "spots",
            role: "recessed",
            luminaire: "spot",
            at: [{ position: [1.55, 1.5, 2.6], aim: [2, 1.5, 0.9] }],
          },
        ],
      },
    ],
    calculation: { interreflection: false },
  }),
);
const READINGS = file("r.csv", "along,across,lx\n0.4,0.4,300\n0.9,0.45,250\n1.4,0.5,320\n0.7,0.6,900\n");
const OFFSETS = file("o.csv", "number,along,across\n1,0.05,0\n");
const SHADE = file(
  "s.json",
  JSON.stringify({
    lamp: { flux: 800, shape: "A19" },
    shade: { profile: "linear", length: 1, width: 0.1, height: 0.06, bottom: "diffuser" },
  }),
);

const HUNG = file(
  "h.study.json",
  JSON.stringify({
    ...JSON.parse(readFileSync(STUDY, "utf8")),
    luminaires: {
      dome: { lamp: { flux: 800, shape: "A19" }, shade: { profile: "dome", diameter: 0.3 } },
      spot: { beam: { flux: 500, angle: 60 }, opening: { diameter: 0.08 } },
    },
  }),
);

const CALLS: Record<AnswerName, readonly string[]> = {
  check: ["check", STUDY, "--json", "--quick", "--fine", "--with-people"],
  targets: ["check", "--targets", "--json"],
  inspect: ["inspect", dome, STUDY, "--json", "--at", "0,30", "--svg", "--out", folder],
  arrange: ["arrange", STUDY, "--json", "--count", "1..2", "--clearance", "0.8..0.8", "--show", "2"],
  boxes: ["boxes", STUDY, "--json", "--count", "2..2", "--clearance", "0.8..0.8"],
  "as-built": ["boxes", STUDY, "--json", "--as-built", OFFSETS],
  swap: ["swap", STUDY, "--json", "--light", "0.6"],
  verify: ["verify", STUDY, READINGS, "--json"],
  shade: ["shade", SHADE, "--json", "--svg", "--out", folder],
  "shade-comparison": ["shade", HUNG, "--compare", "--json"],
};

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
ajv.addVocabulary(["unit"]);

/** Paths of the keys of an answer that its schema does not describe. */
function undescribed(value: unknown, schema: JsonSchema, path = ""): string[] {
  const s = schema as Record<string, never>;
  const options = (s.anyOf ?? []) as JsonSchema[];
  if (options.length > 0) {
    const all = options.map((option) => undescribed(value, option, path));
    return all.reduce((least, each) => (each.length < least.length ? each : least));
  }
  if (Array.isArray(value))
    return s.items === undefined
      ? []
      : value.slice(0, 50).flatMap((each) => undescribed(each, s.items, `${path}/0`));
  if (typeof value !== "object" || value === null) return [];
  if (s.additionalProperties !== undefined)
    return Object.entries(value).flatMap(([key, each]) =>
      undescribed(each, s.additionalProperties, `${path}/${key}`),
    );
  const properties = s.properties as Record<string, JsonSchema> | undefined;
  if (properties === undefined) return [];
  return Object.entries(value).flatMap(([key, each]) =>
    properties[key] === undefined ? [`${path}/${key}`] : undescribed(each, properties[key], `${path}/${key}`),
  );
}

/** Keys left to grow with findings and the engine's own error terms. */
const OPEN = /\/(method|balance)\/\w+$/;

describe("the JSON of a command", () => {
  it.each(ANSWER_NAMES)("%s", async (name) => {
    const { out, err } = await called(...CALLS[name]);
    expect([name, out.length > 0 ? "" : err]).toEqual([name, ""]);
    const answer = JSON.parse(out);
    const schema = answerSchema(name);
    const judge = ajv.compile(schema);
    expect([judge(answer), judge.errors]).toEqual([true, null]);
    const unknown = new Set(undescribed(answer, schema).filter((path) => !OPEN.test(path)));
    expect([...unknown]).toEqual([]);
    // It misses what it requires.
    const first = Array.isArray(answer) ? answer[0] : answer;
    const entry = (
      Array.isArray(answer)
        ? (((schema.items as JsonSchema).anyOf as JsonSchema[] | undefined)?.[0] ?? schema.items)
        : schema
    ) as {
      required: string[];
    };
    for (const key of entry.required) {
      const kept = first[key];
      delete first[key];
      expect([key, judge(answer)]).toEqual([key, false]);
      first[key] = kept;
    }
  });

  it("is printed by the command schema", async () => {
    for (const name of ANSWER_NAMES)
      expect(JSON.parse((await called("schema", name)).out)).toEqual(answerSchema(name));
    expect(await called("schema", "isolux")).toMatchObject({
      code: 2,
      err: expect.stringContaining("check, targets"),
    });
  });
});
