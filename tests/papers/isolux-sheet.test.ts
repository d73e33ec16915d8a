/** The isolux sheet: a golden picture, kept as text, and what may never be in it. */
import { describe, expect, it } from "vitest";
import { PUBLISHED_TARGETS_BY_ID } from "../../src/assessment/targets-published.ts";
import { textWidth } from "../../src/drawing/drawing.ts";
import { WIDEST_FALLBACK } from "../../src/papers/isolux-page.ts";
import { isoluxSheet } from "../../src/papers/isolux-sheet.ts";
import { ofBothGrids } from "../../src/words/zone-text.ts";
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

  // 2026-11-28: a line measured by a narrow font ran out of the sheet where DejaVu Sans stood in. Widths in em at 1000 units, read from
  // DejaVu Sans 2.37 by another program; measured against ours they are 1.09 to 1.14 times as wide.
  it("breaks lines so that they fit in the widest font that stands in", () => {
    const widths: readonly (readonly [string, number])[] = [
      [
        "Direct light from luminous openings and interreflected light of diffuse surfaces. Isolux lines on cells of at most 25 mm, calculated up to the edge.",
        72.654,
      ],
      ["move each that is on a joist by 15 mm, away from wall 3, or space the joists otherwise", 43.458],
      ["The uncertainty is mostly the light output of trough (traced from a shade)", 36.955],
      ["1 seems in the middle of rooms: 0.55, 1009 lx (fine grid 1008)", 31.195],
    ];
    const worst = Math.max(...widths.map(([words, ems]) => ems / textWidth(words, 1)));
    console.log(`DejaVu Sans is at most ${worst.toFixed(3)} times as wide as lines are measured`);
    expect(worst).toBeLessThan(WIDEST_FALLBACK);
    const rows = [
      ...isoluxSheet(study, judged(study)).matchAll(
        /<text x="([\d.]+)"[^>]*font-size="([\d.]+)"[^>]*text-anchor="start"[^>]*>([^<]{60,})</g,
      ),
    ];
    expect(rows.length).toBeGreaterThan(1);
    for (const [, x, size, words] of rows)
      expect(Number(x) + textWidth(words, Number(size)) * WIDEST_FALLBACK).toBeLessThanOrEqual(1080);
  });

  it("says the least and most of both grids, and what its thin lines are", () => {
    const plane = (minimum: number, maximum: number) => ({ minimum, maximum }) as never;
    const both = ofBothGrids({ statistics: plane(353, 1009), fine: plane(226, 1008) } as never);
    expect(both).toEqual({ minimum: 226, maximum: 1009 });
    expect(isoluxSheet(study, judged(study))).toContain("a dashed frame is a zone");
  });

  it("says of each option how it was calculated, where that is not the same", () => {
    const both = tinyStudy(
      [tinyScene({ name: "first" }), tinyScene({ name: "second", letter: "B" })],
      [...PUBLISHED_TARGETS_BY_ID.values()],
    );
    const [first, second] = judged(both);
    const { assessment } = second;
    const near = { ...assessment, method: { ...assessment.method, pointsTooNear: 1 } };
    const words = [
      ...isoluxSheet(both, [first, { ...second, assessment: near }]).matchAll(/<text[^>]*>([^<]*)</g),
    ]
      .map(([, text]) => text)
      .join(" ")
      .replaceAll("&quot;", '"');
    expect(words).toMatch(/"first": Direct light [^"]*"second": Direct light [^"]* one point lies too near/);
    const alike = isoluxSheet(both, [first, second]);
    expect(alike.match(/Direct light/g)).toHaveLength(1);
    expect(alike).not.toMatch(/"first":|&quot;first&quot;:/);
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
