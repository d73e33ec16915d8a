/**
 * 2026-11-25. Over an L-shaped top the profile ends where the top does, half way along; the leaders from there to the
 * names at the far end ran level and read as light where there is no top.
 */
import { expect, it } from "vitest";
import type { IslandAxes } from "../../src/drawing/island-axes.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { profileDrawing } from "../../src/drawing/profile-drawing.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { wording } from "../../src/words/wording.ts";
import { syntheticScene } from "../support/synthetic-island.ts";

it("names the lines where they end", () => {
  const axes: IslandAxes = islandAxes(syntheticScene());
  const scale = sheetScale(axes, 1040, { largest: 280 });
  const along = Float64Array.from({ length: 49 }, (_, i) => 0.05 * i);
  const lit = (value: number): Float64Array => along.map((a) => (a <= 1.2 ? value : Number.NaN));
  const { marks } = profileDrawing(
    {
      along,
      across: 0.55,
      series: [
        { name: "total", role: "total", values: lit(845) },
        { name: "pendants", role: "pendant", values: lit(720) },
      ],
    },
    [],
    scale,
    wording(),
  );
  const end = scale.x(1.2);
  // Beside a leader of the greatest or least light, which stands where it is.
  const leaders = marks.filter(
    (mark) =>
      mark.depicts === "leader" &&
      mark.kind === "line" &&
      Math.max(...mark.points.map(([x]) => x)) > end - 20,
  );
  expect(leaders).toHaveLength(2);
  for (const mark of marks) {
    if (mark.depicts === "leader" && mark.kind === "line")
      expect(Math.max(...mark.points.map(([x]) => x)) - end).toBeLessThan(20);
    if (mark.depicts === "line name" && mark.kind === "text") expect(mark.at[0] - end).toBeLessThan(24);
  }
});
