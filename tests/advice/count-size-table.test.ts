/** The table of counts and sizes by hand, and against the whole calculation of one of its cells. */
import { describe, expect, it } from "vitest";
import { countSizeTable } from "../../src/advice/count-size-table.ts";
import { SuperposedLight } from "../../src/advice/superposed-light.ts";
import { maintainedLayers, totalOf } from "../../src/assessment/layer-light.ts";
import { statistics } from "../../src/assessment/statistics.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { kitchen, resolved, withRow } from "../support/studies.ts";

describe("count and size", () => {
  const study = resolved(kitchen());
  const [scene] = study.scenes;
  const plane = scene.planes[0];
  const engine = new LightEngine();
  const calculated = (of: typeof scene) =>
    engine.calculate({ ...of, planes: [plane] }, { ...study.options, quality: "quick" }).planes[0];
  const field = calculated(scene);
  const started = performance.now();
  const table = countSizeTable(scene, plane, new SuperposedLight(scene, plane, field));
  const took = performance.now() - started;
  const cell = (count: number, inches: number) =>
    table?.cells.find((each) => each.count === count && Math.abs(each.width - inches * 0.0254) < 1e-9);

  it("holds gaps and ends of equal bays, and only what fits", () => {
    console.log(`table of ${table?.cells.length} cells in ${took.toFixed(0)} ms`);
    // 2.4 m: three bays of 0.8 m, 14 in = 0.3556 m.
    expect(cell(3, 14)?.gap).toBeCloseTo(0.8 - 0.3556, 9);
    expect(cell(3, 14)?.end).toBeCloseTo((0.8 - 0.3556) / 2, 9);
    expect(cell(1, 24)?.gap).toBeUndefined();
    // Four bays of 0.6 m would leave nothing between 24 in = 0.61 m.
    expect(cell(4, 24)).toBeUndefined();
    // The pendant at hand, 0.3 m, stands for 12 in.
    expect(cell(3, 12)).toBeUndefined();
    expect(table?.cells.filter(({ asDrawn }) => asDrawn)).toHaveLength(1);
    for (const each of table?.cells ?? []) expect(each.agree).toBeLessThanOrEqual(each.apply);
  });

  it("agrees with the whole calculation", () => {
    const drawn = table?.cells.find(({ asDrawn }) => asDrawn);
    const total = totalOf(maintainedLayers(scene, calculated(scene)), plane.points.length / 3);
    expect(drawn?.average).toBeCloseTo(statistics(total, plane.weights).average, 9);
    const four = resolved(
      kitchen({
        luminaires: {
          dome: {
            beam: { flux: 800, angle: 90 },
            opening: { diameter: (0.26 * 0.4064) / 0.3 },
            body: { profile: "dome", diameter: "16 in", height: (0.22 * 0.4064) / 0.3 },
          },
          spot: { beam: { flux: 650, angle: 36 }, watts: 7 },
        },
        arrangements: [
          {
            name: "four",
            layers: [
              { name: "pendants", luminaire: "dome", row: { count: 4, clearance: 0.85 } },
              { name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 2, margin: 0.7 } },
            ],
          },
        ],
      }),
    ).scenes[0];
    const whole = statistics(
      totalOf(maintainedLayers(four, calculated(four)), plane.points.length / 3),
      plane.weights,
    );
    const found = cell(4, 16);
    const error = Math.abs((found?.average ?? 0) / whole.average - 1);
    console.log(`worst error of the table's average ${(100 * error).toFixed(2)} %`);
    expect(error).toBeLessThan(0.015);
    expect(Math.abs((found?.uniformity ?? 0) - whole.uniformity)).toBeLessThan(0.015);
  });

  it("stays silent where there is no width or no row", () => {
    const bare = resolved(withRow({ count: 3 }, { luminaires: { dome: { beam: { flux: 800, angle: 90 } } } }))
      .scenes[0];
    const light = new SuperposedLight(scene, plane, calculated(scene));
    expect(countSizeTable(bare, plane, light)).toBeUndefined();
  });
});
