import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Issue } from "../../src/diagnostics/issue.ts";
import { readJson } from "../../src/diagnostics/json-text.ts";
import { migrate } from "../../src/study/migrate.ts";
import { readStudy } from "../../src/study/study-text.ts";

const SMALL = {
  format: "candlespan-study",
  version: 1,
  room: { length: 5.4, width: 4.2, ceilingHeight: 2.7 },
  island: { centre: [2.7, 2.1], length: `8'-0"`, width: "42 in", height: "920 mm", zones: [] as unknown[] },
  luminaires: { dome: { beam: { flux: 650, angle: 36 } } } as Record<string, unknown>,
  arrangements: [
    { name: "one", layers: [{ name: "p", luminaire: "dome", row: { count: 3, gap: "700 mm" } }] },
  ],
};

function edited(edit: (study: typeof SMALL & Record<string, unknown>) => void): string {
  const study = structuredClone(SMALL) as typeof SMALL & Record<string, unknown>;
  edit(study);
  return JSON.stringify(study, null, 2);
}

function issuesOf(text: string): readonly Issue[] {
  const outcome = readStudy(text, "kitchen.study.json");
  if (outcome.ok) throw new Error("the study was accepted");
  return outcome.issues;
}

describe("reading a study", () => {
  it("turns every length into metres", () => {
    const outcome = readStudy(JSON.stringify(SMALL));
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    expect(outcome.value.island?.length).toBeCloseTo(2.4384, 12);
    expect(outcome.value.island?.width).toBeCloseTo(1.0668, 12);
    expect(outcome.value.island?.height).toBeCloseTo(0.92, 12);
    expect(outcome.value.arrangements[0].layers[0].row?.gap).toBeCloseTo(0.7, 12);
  });

  it("names the nearest known key, the path and the place", () => {
    const text = edited((s) =>
      s.island.zones.push({ name: "prep", from: [0, 0], size: [1, 1], tarket: "x" }),
    );
    const [issue] = issuesOf(text);
    expect(issue).toMatchObject({ code: "study-unknown-key", where: { path: "/island/zones/0/tarket" } });
    expect(issue.message).toContain('Did you mean "target"?');
    const line = text.split("\n")[(issue.where.line ?? 0) - 1];
    expect(line.slice((issue.where.column ?? 0) - 1)).toMatch(/^"x"/);
  });

  it("reports every wrong place at once", () => {
    const paths = issuesOf(
      edited((s) => {
        s.room.length = -1;
        s.island.height = "92";
        (s.island as Record<string, unknown>).centre = [1, 2, 3];
        s.arrangements[0].layers[0].row.count = 2.5;
      }),
    ).map((i) => i.where.path);
    expect(paths).toEqual([
      "/room/length",
      "/island/centre/2",
      "/island/height",
      "/arrangements/0/layers/0/row/count",
    ]);
  });

  it.each([
    [
      "a missing key",
      (s: never) => Reflect.deleteProperty((s as typeof SMALL).room, "width"),
      "/room/width",
      /missing/,
    ],
    [
      "a bare number in a text",
      (s: typeof SMALL) => (s.island.width = "42"),
      "/island/width",
      /could be "42 mm"/,
    ],
    [
      "a wrong word",
      (s: never) => ((s as { display: unknown }).display = { length: "ft in" }),
      "/display/length",
      /"ft-in"/,
    ],
    ["another format", (s: typeof SMALL) => (s.format = "x"), "/format", /not a study/],
    ["a later version", (s: typeof SMALL) => (s.version = 7), "/version", /later version/],
    ["no arrangement", (s: typeof SMALL) => (s.arrangements = []), "/arrangements", /number of arrangements/],
    [
      "a perfect reflector",
      (s: never) =>
        ((s as { room: { reflectance: unknown } }).room.reflectance = { walls: [0.5, 0.5, 1, 0.5] }),
      "/room/reflectance/walls/2",
      /out of range/,
    ],
  ] as const)("refuses %s", (_, edit, path, message) => {
    const [issue] = issuesOf(edited(edit as never));
    expect(issue.where.path).toBe(path);
    expect(issue.message).toMatch(message);
  });

  it.each([
    ["", /a value/],
    ["{", /quoted key/],
    ['{"format": "candlespan-study" "version": 1}', /"\}"/],
    ["[1, 2,, 3]", /a value/],
    ['{"a": 01}', /a value/],
    ['{"a": NaN}', /a value/],
    ['{"a": "\u0001"}', /closing quote/],
    ["// title\n{}", /a value/],
    ["\u0000\u0001binary", /a value/],
  ])("says where %j is not JSON", (text, expected) => {
    const [issue] = issuesOf(text);
    expect(issue.code).toBe("json-syntax");
    expect(issue.expected).toMatch(expected);
    expect(issue.where.line).toBeGreaterThan(0);
  });

  it("points at line and column", () => {
    const [issue] = issuesOf('{\n  "format": "candlespan-study",\n  "version": 1 2\n}');
    expect(issue.where).toEqual({ file: "kitchen.study.json", line: 3, column: 16 });
  });

  it.each(["__proto__", "constructor", "prototype"])("refuses the key %s anywhere", (key) => {
    const [issue] = issuesOf(`{"luminaires": {"${key}": {"watts": 1}}}`);
    expect(issue.code).toBe("json-key-refused");
    expect(({} as Record<string, unknown>).watts).toBeUndefined();
  });

  it("refuses a key given twice, which a plain parser silently drops", () => {
    expect(issuesOf('{"version": 1, "version": 2}')[0]).toMatchObject({
      code: "json-key-twice",
      where: { line: 1, column: 16, path: "/version" },
    });
  });

  it("stays bounded on hostile text", () => {
    expect(issuesOf("[".repeat(1_000_000))[0].code).toBe("json-too-deep");
    expect(issuesOf(`"${"x".repeat(17_000_000)}"`)[0].code).toBe("json-too-long");
    expect(issuesOf(`[${"1,".repeat(500_000)}1]`)[0].code).toBe("json-too-many");
    expect(issuesOf(`"${"x".repeat(10_000_000)}`)[0].code).toBe("json-syntax");
  });

  it("agrees with the platform on what JSON is", () => {
    fc.assert(
      fc.property(fc.json(), fc.nat(), fc.constantFrom("", ",", "]", '"', "0", "e"), (json, at, extra) => {
        const cut = at % (json.length + 1);
        const text = json.slice(0, cut) + extra + json.slice(cut + (extra === "" ? 0 : 1));
        let value: unknown;
        let valid = true;
        try {
          value = JSON.parse(text);
        } catch {
          valid = false;
        }
        const read = readJson(text);
        if (read.ok) expect([valid, read.value.value]).toEqual([true, value]);
        else if (read.issues[0].code === "json-syntax") expect(valid).toBe(false);
      }),
      { numRuns: 500 },
    );
  });

  it("lifts an older version step by step", () => {
    const steps = [
      (d: Readonly<Record<string, unknown>>) => ({ ...d, a: 1 }),
      (d: Readonly<Record<string, unknown>>) => ({ ...d, b: Number(d.a) + 1 }),
    ];
    expect(migrate({ version: 1 }, steps)).toEqual({ version: 3, a: 1, b: 2 });
    expect(migrate({ version: 2, a: 5 }, steps)).toEqual({ version: 3, a: 5, b: 6 });
    expect(migrate({ version: 3 }, steps)).toEqual({ version: 3 });
    expect(migrate("nonsense", steps)).toBe("nonsense");
  });
});
