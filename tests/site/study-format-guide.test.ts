/** The guide page is that of the schema, its sketch that of a study as it is resolved. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { openDocument } from "../../src/app/open-document.ts";
import { islandToRoom } from "../../src/scene/island-frame.ts";
import { studyJsonSchema } from "../../src/study/study-json-schema.ts";
import { framesSketch, keyRows, SKETCHED, studyFormatGuide } from "../support/study-format-guide.ts";

const root = new URL("../../", import.meta.url);
const path = (name: string) => fileURLToPath(new URL(name, root));

describe("the guide page of the study format", () => {
  it("is the one shipped (vitest -u writes it anew)", async () => {
    await expect(studyFormatGuide(studyJsonSchema())).toMatchFileSnapshot(
      path("site/guide/study-format.html"),
    );
    await expect(framesSketch()).toMatchFileSnapshot(path("site/guide/study-frames.svg"));
  });

  it("has a row for every key, with meaning and example", () => {
    const page = readFileSync(path("site/guide/study-format.html"), "utf8");
    const rows = keyRows(studyJsonSchema());
    expect(rows.length).toBeGreaterThan(190);
    for (const { path: key } of rows) expect(page).toContain(`<td><code>${key}</code></td>`);
    expect(page).not.toMatch(/undefined|\[object/);
  });

  it("is linked from the README", () => {
    expect(readFileSync(path("README.md"), "utf8")).toContain("(site/guide/study-format.html)");
  });

  it("draws frames where a study has them", async () => {
    const { row, ...kitchen } = SKETCHED;
    const opened = await openDocument({
      format: "candlespan-study",
      version: 1,
      ...kitchen,
      luminaires: { spot: { beam: { flux: 500, angle: 60 } } },
      arrangements: [{ name: "a", layers: [{ name: "p", luminaire: "spot", row }] }],
    });
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    const [scene] = opened.value.study.scenes;
    const { island, people, room } = scene;
    if (island === undefined) throw new Error("no island");
    const sketch = framesSketch();
    const drawn = new Map(
      [
        ...sketch.matchAll(/data-name="([^"]+)" data-at="([-\d.]+) ([-\d.]+)" cx="([\d.]+)" cy="([\d.]+)"/g),
      ].map(([, name, ...at]) => [name, at.map(Number)]),
    );
    const expected = {
      "island origin": islandToRoom(island, [0, 0]),
      centre: island.centre,
      "zone from": islandToRoom(island, [SKETCHED.island.zones[0].from[0], SKETCHED.island.zones[0].from[1]]),
      person: people[0].at,
    };
    let worst = 0;
    for (const [name, [x, y]] of Object.entries(expected)) {
      const [atX, atY, cx, cy] = drawn.get(name) ?? [];
      worst = Math.max(worst, Math.hypot(atX - x, atY - y));
      // On the page x runs to the right and y up, 110 to a metre.
      worst = Math.max(
        worst,
        Math.abs((cx - 150) / 110 - x),
        Math.abs((70 + room.width * 110 - cy) / 110 - y),
      );
    }
    console.log(`worst place of the sketch: ${(1000 * worst).toFixed(2)} mm`);
    // Tenths of a page unit: 0.05 / 110 m.
    expect(worst).toBeLessThan(0.0006);
    for (const words of [
      "wall 0",
      "wall 1",
      "wall 2",
      "wall 3",
      "turn",
      "facing",
      "centre",
      "clearance",
      "spacing",
      "gap",
      "end",
    ])
      expect(sketch).toContain(`>${words}`);
  });
});
