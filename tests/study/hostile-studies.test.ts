/** Whatever a study says, resolving it answers: with a kitchen or with reasons, never with a throw. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkStudy } from "../../src/study/study.ts";
import { resolveStudy } from "../support/resolve-study.ts";
import { CONTEXT, kitchen, refusal } from "../support/studies.ts";

const example = JSON.parse(
  readFileSync(new URL("../../fixtures-data/every-key.study.json", import.meta.url), "utf8"),
);
// Tracing a shade takes seconds; what it does with its numbers is tested where it lives.
for (const name of ["shade", "trough"]) example.luminaires[name] = { beam: { flux: 800, angle: 90 } };
for (const name of ["dome", "globe", "inline"]) {
  delete example.luminaires[name].photometry;
  delete example.luminaires[name].flux;
  delete example.luminaires[name].lampSet;
  example.luminaires[name].beam = { flux: 800, angle: 60 };
}

/** Every number of the example, by the way to it. */
function numbersIn(value: unknown, way: (string | number)[] = []): (string | number)[][] {
  if (typeof value === "number") return [way];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, [...way, key]));
}

const ways = numbersIn(example);

describe("hostile studies", () => {
  it("resolve or say why, when numbers are anything", () => {
    let resolvedCount = 0;
    let refused = 0;
    const number = fc.oneof(
      fc.double({ min: -10, max: 10, noNaN: true }),
      fc.constantFrom(0, 1e-9, 1e-5, 1, 90, 180, 360, 999, -1e-7),
      fc.integer({ min: 0, max: 40 }),
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(ways.length - 1), number), { minLength: 1, maxLength: 4 }),
        (edits) => {
          const study = structuredClone(example);
          for (const [i, value] of edits) {
            const way = ways[i];
            let holder = study;
            for (const key of way.slice(0, -1)) holder = holder[key];
            holder[way[way.length - 1]] = value;
          }
          const checked = checkStudy(study);
          if (!checked.ok) return;
          const outcome = resolveStudy(checked.value, CONTEXT);
          if (outcome.ok) {
            resolvedCount++;
            for (const scene of outcome.value.scenes) {
              for (const { points, weights } of scene.planes) {
                expect(points.every(Number.isFinite)).toBe(true);
                expect(weights.every((w) => w > 0)).toBe(true);
              }
              for (const { normal, vertices } of scene.surfaces)
                expect([...normal, ...vertices.flat()].every(Number.isFinite)).toBe(true);
              for (const { mesh } of scene.blockers) expect(mesh.positions.every(Number.isFinite)).toBe(true);
              for (const { luminaires } of scene.layers)
                for (const { frame } of luminaires)
                  expect([...frame.origin, ...frame.rotation].every(Number.isFinite)).toBe(true);
            }
          } else {
            refused++;
            for (const { message, where } of outcome.issues)
              expect([message !== "", where.path]).not.toContain(undefined);
          }
        },
      ),
      { numRuns: 200, seed: 3, endOnFailure: true },
    );
    expect(Math.min(resolvedCount, refused)).toBeGreaterThan(20);
  });

  it("are bounded: no more luminaires or points than a kitchen has", () => {
    const layers = (count: number) =>
      Array.from({ length: count }, (_, i) => ({
        name: `l${i}`,
        luminaire: "spot",
        grid: { columns: 100, rows: 100 },
      }));
    expect(refusal(kitchen({ arrangements: [{ name: "a", layers: layers(50) }] }))[0].code).toBe(
      "luminaires-too-many",
    );
    const planes = Array.from({ length: 100 }, (_, i) => ({ name: `p${i}`, on: "island", spacing: 0.004 }));
    expect(refusal(kitchen({ planes })).map((issue) => issue.code)).toContain("points-too-many");
  });

  it("with extents that vanish beside the metres they stand in are refused, not searched for ever", () => {
    // 1.3 m + 7e-107 m is 1.3 m: a side without length has no number of cells (found by the test above, 2026-11-25).
    const zones = [{ name: "a", from: [1.3, 0.4], size: [7e-107, 0.4] }];
    const island = { ...(kitchen().island as object), zones };
    expect(refusal(kitchen({ island }))[0].where.path).toBe("/island/zones/0/size/0");
    const thin = [
      {
        name: "a",
        polygon: [
          [0, 0],
          [1, 0],
          [1, 1e-12],
        ],
      },
    ];
    expect(refusal(kitchen({ island: { ...island, zones: thin } }))[0].code).toBe("polygon-crosses");
  });

  it("with outlines of many corners are quick", () => {
    const spiral = Array.from({ length: 120 }, (_, i) => {
      const angle = (i / 120) * 2 * Math.PI;
      const r = i % 2 === 0 ? 1 : 0.55;
      return [1 + r * Math.cos(angle), 1 + r * Math.sin(angle)];
    });
    const island = { centre: [2.7, 2.1], outline: spiral, height: 0.9, overhang: { side: "y-", depth: 0.1 } };
    const checked = checkStudy(kitchen({ island, arrangements: [{ name: "a", layers: [] }] }));
    expect(checked.ok && resolveStudy(checked.value, CONTEXT).ok).toBe(true);
  });
});
