/** What goes into the ceiling is drawn over its line. 2026-11-29: a body 385 mm high was drawn flat, as though it had no depth. */
import { expect, it } from "vitest";
import { boxAround, overlaps, type TextMark, textBox } from "../../src/drawing/drawing.ts";
import { elevation } from "../../src/drawing/elevation.ts";
import { elevationExtent, elevationScale } from "../../src/drawing/elevation-scale.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { wording } from "../../src/words/wording.ts";
import { type Json, kitchen, resolved } from "../support/studies.ts";

const DEEP = { profile: "cylinder", diameter: 0.075, height: 0.385 };

function drawn(spot: Json, { width, height, grid = {} }: { width: number; height?: number; grid?: Json }) {
  const [scene] = resolved(
    kitchen({
      room: { length: 5.4, width: 4.2, ceilingHeight: 2.6 },
      luminaires: {
        dome: {
          beam: { flux: 800, angle: 90 },
          opening: { diameter: 0.26 },
          body: { profile: "dome", diameter: 0.3, height: 0.22 },
        },
        spot: { beam: { flux: 650, angle: 36 }, opening: { diameter: 0.07 }, ...spot },
      },
      arrangements: [
        {
          name: "a",
          layers: [
            { name: "pendants", role: "pendant", luminaire: "dome", row: { count: 2, clearance: 0.85 } },
            {
              name: "ambient",
              role: "recessed",
              luminaire: "spot",
              grid: { columns: 4, rows: 2, margin: 0.7, ...grid },
            },
          ],
        },
      ],
    }),
  ).scenes;
  const scale = sheetScale(islandAxes(scene), width, { largest: 280 });
  const extent = elevationExtent(scene, scale, { height });
  const page = elevation(scene, scale, wording(), extent);
  const { y } = elevationScale(extent);
  const marks = page.luminaires.flatMap((each) => each.marks);
  const bodies = marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "recessed body" ? [mark] : [],
  );
  const words = page.marks.filter(
    (mark): mark is TextMark => mark.kind === "text" && mark.depicts === "recessed body",
  );
  const said = words.map(({ text }) => text);
  const struck = words.flatMap((word) =>
    bodies.filter(({ points }) => overlaps(boxAround(points), textBox(word))),
  );
  return { page, bodies, said, struck, ceiling: y(2.6), rim: y(0.92) - y(1.77), perMetre: scale.perMetre };
}

it.each([
  { width: 1032, height: 171 },
  { width: 1032, height: 300 },
  { width: 656, height: 134 },
  { width: 326 },
])(
  "draws what goes into the ceiling dashed over its line, with its depth, $width wide, $height high",
  (size) => {
    const { bodies, said, struck, ceiling, page, rim, perMetre } = drawn({ body: DEEP }, size);
    // 2026-11-29: its depth was struck through by the outline of the leftmost.
    expect(struck).toEqual([]);
    expect(bodies.length).toBeGreaterThan(0);
    for (const { points, dash } of bodies) {
      expect(dash).toBe("dashed");
      const ys = points.map(([, y]) => y);
      expect(Math.max(...ys)).toBeCloseTo(ceiling, 9);
      expect(ceiling - Math.min(...ys)).toBeGreaterThan(11);
      expect(ceiling - Math.min(...ys)).toBeLessThanOrEqual(0.385 * perMetre + 1e-9);
      expect(Math.min(...ys)).toBeGreaterThanOrEqual(0);
    }
    expect(said).toEqual(["recessed 385 mm"]);
    // Clearances keep their scale, and the page its height, whatever sits in the ceiling.
    const flat = drawn({}, size);
    expect(flat.bodies).toEqual([]);
    expect(flat.said).toEqual([]);
    expect(rim).toBeCloseTo(flat.rim, 6);
    if ("height" in size) expect(page.height).toBe(flat.page.height);
  },
);

it("draws nothing over the ceiling of what is fixed under it", () => {
  const { bodies, said } = drawn({ body: DEEP }, { width: 1032, height: 171, grid: { height: 2.215 } });
  expect(bodies).toEqual([]);
  expect(said).toEqual([]);
});
