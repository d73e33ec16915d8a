/** 2026-11-29: two rows over a top shared one chain of dimensions, as if all hung in a line; each row has its own. */
import { describe, expect, it } from "vitest";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { pendantRows } from "../../src/drawing/plan-chains.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { optionPlan } from "../../src/papers/option-plan.ts";
import { wording } from "../../src/words/wording.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen, resolved } from "../support/studies.ts";

const row = (name: string, count: number, across: number, along = 0) => ({
  name,
  luminaire: "dome",
  row: { count, spacing: 0.6, clearance: 0.8, offset: [along, across] },
});
const hung = (...layers: object[]) => kitchen({ arrangements: [{ name: "a", layers }] });
const sceneOf = (...layers: object[]) => resolved(hung(...layers)).scenes[0];
const rowsOf = (...layers: object[]) => {
  const scene = sceneOf(...layers);
  return pendantRows(scene, islandAxes(scene)).map((alongs) => alongs.map((a) => Math.round(1000 * a)));
};

describe("rows of pendants on a plan", () => {
  it("are told by how far across they hang, the nearest first", () => {
    expect(rowsOf(row("back", 3, 0.25), row("front", 2, -0.25))).toEqual([
      [900, 1500],
      [600, 1200, 1800],
    ]);
  });

  it("are one where two layers hang in one line, or stand in the same places", () => {
    expect(rowsOf(row("one", 2, 0.02), row("other", 1, 0))).toEqual([[900, 1200, 1500]]);
    expect(rowsOf(row("back", 2, 0.25), row("front", 2, -0.25))).toEqual([[900, 1500]]);
  });

  it("have a chain each, of which the pieces sum to the top, clear of one another", () => {
    const scene = sceneOf(row("back", 3, 0.25), row("front", 2, -0.25));
    const scale = sheetScale(islandAxes(scene), 900);
    const rows = pendantRows(scene, islandAxes(scene));
    const parts = { zones: true, people: false, dimensions: true, rows };
    const frame = planFrame(scene, scale, parts);
    const words = wording({ length: "mm", illuminance: "lx" });
    const { around } = planObjects(scene, scale, words, parts, frame);
    const figures = around.flatMap((mark) =>
      mark.kind === "text" && mark.depicts === "dimension" && !mark.turn ? [mark] : [],
    );
    const at = (y: number) =>
      figures
        .filter((mark) => Math.abs(mark.at[1] - (y - 5)) < 0.5)
        .map((mark) => Number.parseFloat(mark.text));
    expect(at(frame.chain)).toEqual([900, 600, 900]);
    // Between the dimension of the whole, at 18, and the top.
    expect(at(39)).toEqual([600, 600, 600, 600]);
    expect(frame.y(scene.island?.width ?? 0)).toBeGreaterThan(39 + 5);
  });

  it("are drawn on papers without the lights beside the ends of the top", () => {
    const ceiling = { name: "ceiling", role: "recessed", luminaire: "dome", grid: { columns: 6, rows: 1 } };
    const handover = handoverOf(hung(row("front", 2, 0), ceiling));
    const [option] = handover.options;
    const { marks } = optionPlan(handover, option, 480, 60);
    const outline = marks.flatMap((mark) =>
      mark.kind === "line" && mark.depicts === "island outline" ? mark.points.map(([x]) => x) : [],
    );
    const recessed = marks.flatMap((mark) =>
      mark.kind === "line" && mark.depicts === "recessed" ? [mark.points[0][0]] : [],
    );
    // Six stations 0.9 m apart over a room of 5.4 m: those at 2.25 and 3.15 m are over the top from 1.5 to 3.9 m.
    expect(recessed).toHaveLength(2);
    for (const x of recessed) {
      expect(x).toBeGreaterThan(Math.min(...outline));
      expect(x).toBeLessThan(Math.max(...outline));
    }
  });
});
