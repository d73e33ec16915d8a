/** The viewer's figures, printed. Only the amount of script is judged here: times depend on who else computes. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { openViewer, type Viewer } from "../support/viewer.ts";
import { measureViewer, percentile, type ViewerFigures } from "../support/viewer-figures.ts";

let viewer: Viewer;
beforeAll(async () => {
  viewer = await openViewer();
});
afterAll(() => viewer.close());

it("lights the plan with at most 110 kB of script", async () => {
  const runs = Number(process.env.CANDLESPAN_RUNS ?? 1);
  const figures: ViewerFigures[] = [];
  for (let i = 0; i < runs; i++) figures.push(await measureViewer(viewer));
  for (const each of figures) {
    const { firstLight, script, drag, seen, refinement, firstRefinement } = each;
    console.log(
      `first light ${firstLight.toFixed(0)} ms with ${(script / 1000).toFixed(1)} kB of script; ` +
        `drag ${drag.length} plans, median ${percentile(drag, 0.5).toFixed(1)} ms, 95th ${percentile(drag, 0.95).toFixed(1)} ms, ` +
        `on screen ${percentile(seen, 0.5).toFixed(1)} and ${percentile(seen, 0.95).toFixed(1)} ms; ` +
        `refined ${refinement.toFixed(0)} ms after letting go, ${firstRefinement.toFixed(0)} ms after first light`,
    );
  }
  expect(figures[0].lines).toBeGreaterThan(3);
  expect(figures[0].script).toBeLessThanOrEqual(110_000);
  expect(figures[0].drag.length).toBeGreaterThan(20);
});
