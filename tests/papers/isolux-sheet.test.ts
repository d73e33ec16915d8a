/** The isolux sheet: a golden picture, kept as text, and what may never be in it. */
import { describe, expect, it } from "vitest";
import { PUBLISHED_TARGETS_BY_ID } from "../../src/assessment/targets-published.ts";
import { isoluxSheet } from "../../src/papers/isolux-sheet.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { tinyScene, tinyStudy } from "../support/tiny-scene.ts";

describe("the isolux sheet", () => {
  const scene = tinyScene();
  const study = tinyStudy([scene], [...PUBLISHED_TARGETS_BY_ID.values()]);

  it("is the one that was looked at and approved", async () => {
    await expect(isoluxSheet(study, judged(study))).toMatchFileSnapshot("isolux-sheet.svg");
  });

  it("says in words what it shows", () => {
    const svg = isoluxSheet(study, judged(study));
    expect(svg).toContain("falls short of 500 lx");
    // What other programs read the lines by; lux whatever the sheet shows.
    expect(svg).toMatch(/<text data-lux="\d+"/);
    expect(svg).toContain("2400 mm · 7&#39;-10 1/2&quot;");
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("lets nothing out of a name", () => {
    const hostile = `</text><script>alert(1)</script>`;
    const named = tinyStudy([
      tinyScene({ name: hostile, zones: scene.zones.map((zone) => ({ ...zone, name: hostile })) }),
    ]);
    const svg = isoluxSheet({ ...named, title: hostile }, judged({ ...named, title: hostile }));
    expect(svg).not.toContain("<script");
  });
});
