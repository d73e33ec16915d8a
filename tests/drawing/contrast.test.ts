/**
 * Words in drawings can be read: 4.5:1 to what lies behind them (WCAG 2.2, 1.4.3), day and evening, on every colour of the light.
 * Calculated from the styles themselves, since no tool that reads pages looks behind words of a drawing.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { clashMarks } from "../../src/drawing/clash-marks.ts";
import { differenceMap } from "../../src/drawing/difference-map.ts";
import type { Mark } from "../../src/drawing/drawing.ts";
import { floorPlan } from "../../src/drawing/floor-plan.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { DARK_INK, inkOver, luxColour, wordGround } from "../../src/drawing/light-scale.ts";
import { DAY, EVENING } from "../../src/drawing/palette.ts";
import { planFrame, planObjects } from "../../src/drawing/plan-objects.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { comparisonStyles } from "../../src/elements/comparison/comparison.styles.ts";
import { planStyles } from "../../src/elements/plan/plan.styles.ts";
import { tokens } from "../../src/elements/shared/tokens.ts";
import { ceilingBoxes } from "../../src/scene/ceiling-boxes.ts";
import { wording } from "../../src/words/wording.ts";
import { randomKitchen } from "../support/random-kitchens.ts";
import { rectanglePlane } from "../support/tiny-scene.ts";

const READABLE = 4.5;

/** From the definition (WCAG 2.2: relative luminance, contrast ratio), apart from the drawings' own. */
function contrast(a: string, b: string): number {
  const luminance = (colour: string): number => {
    const [r, g, b] = [1, 3, 5].map((at) => {
      const c = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [low, high] = [luminance(a), luminance(b)].sort((m, n) => m - n);
  return (high + 0.05) / (low + 0.05);
}

/** `over` at an opacity on `under`, as browsers blend: in sRGB. */
function blended(over: string, opacity: number, under: string): string {
  const channel = (at: number): string => {
    const [o, u] = [over, under].map((colour) => Number.parseInt(colour.slice(at, at + 2), 16));
    return Math.round(opacity * o + (1 - opacity) * u)
      .toString(16)
      .padStart(2, "0");
  };
  return `#${channel(1)}${channel(3)}${channel(5)}`;
}

const LEVELS = Array.from({ length: 700 }, (_, i) => 10 * 1.011 ** i);

function worstOf(pairs: readonly (readonly [what: string, ink: string, ground: string])[]): number {
  const [least, what] = pairs
    .map(([name, ink, ground]) => [contrast(ink, ground), name] as const)
    .reduce((a, b) => (b[0] < a[0] ? b : a));
  console.log(`worst contrast ${least.toFixed(2)}:1, of ${what}`);
  return least;
}

describe("words in drawings", () => {
  it("name isolux lines readably at every level of the scale", () => {
    const pairs = LEVELS.map((lux) => [`${lux.toFixed(0)} lx`, inkOver(lux), wordGround(lux)] as const);
    expect(worstOf(pairs)).toBeGreaterThanOrEqual(READABLE);
    // And the colour behind them stays one of the light's neighbours, not a patch.
    const moved = LEVELS.map((lux) => contrast(luxColour(lux), wordGround(lux)));
    console.log(`ground of a word at most ${Math.max(...moved).toFixed(2)}:1 from the light's own colour`);
    expect(Math.max(...moved)).toBeLessThan(1.25);
  });

  it("stand over any light in the plan's ink and halo", () => {
    const { cssText } = planStyles;
    const ink = /\.over-light \.f-ink \{ fill: (#\w{6})/.exec(cssText)?.[1] ?? "";
    const [, halo, opacity] = /\.over-light text \{[^}]*stroke: (#\w{6}); stroke-opacity: ([\d.]+)/.exec(
      cssText,
    ) as RegExpExecArray;
    const pairs = LEVELS.map(
      (lux) => [`${lux.toFixed(0)} lx`, ink, blended(halo, Number(opacity), luxColour(lux))] as const,
    );
    expect(worstOf(pairs)).toBeGreaterThanOrEqual(READABLE);
  });

  it("stand over a map of differences, whichever way it goes", () => {
    const { grid } = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 12, 5);
    if (grid === undefined) throw new Error("no grid");
    const values = new Float64Array(60).fill(300);
    const brighter = values.map((value, i) => value + 10 * i - 300);
    const map = differenceMap({ grid, values }, { grid, values: brighter }, [], (point) => point);
    const levels = Array.from({ length: 81 }, (_, i) => 15 * (i - 40));
    const ink = /\.over \.f-ink \{ fill: (#\w{6})/.exec(comparisonStyles.cssText)?.[1] ?? "";
    const pairs = [ink, DARK_INK].flatMap((each) =>
      levels.map((level) => [`${level} lx more`, each, map.colourAt(level)] as const),
    );
    expect(worstOf(pairs)).toBeGreaterThanOrEqual(READABLE);
  });

  it("are in every ink of day and evening, on paper and on the sheet", () => {
    const inks = ["ink", "quiet", "luminaire", "meets", "short", "close"] as const;
    const all = inks.flatMap((ink) =>
      (["paper", "sheet"] as const).flatMap((ground) =>
        Object.entries({ DAY, EVENING }).map(
          ([when, palette]) => [`${ink} on ${ground}, ${when}`, palette[ink], palette[ground]] as const,
        ),
      ),
    );
    expect(worstOf(all)).toBeGreaterThanOrEqual(READABLE);
  });

  it("are of one palette, on the page around the elements too", () => {
    const page = readFileSync(new URL("../../site/styles/tokens.css", import.meta.url), "utf8");
    for (const [css, name] of [
      [tokens.cssText, "_"],
      [page, "candlespan-"],
    ])
      for (const [ink, day] of Object.entries(DAY))
        expect(css).toMatch(
          new RegExp(`--${name}${ink}: .*light-dark\\(${day}, ${EVENING[ink as keyof typeof EVENING]}\\)`),
        );
  });

  it("are never in another ink than these where they lie on the light", () => {
    const words = wording();
    const wrong = new Set<string>();
    let texts = 0;
    const look = (marks: readonly Mark[], isFine: (ink: string, ground?: string) => boolean): void => {
      for (const mark of marks) {
        if (mark.kind !== "text") continue;
        texts++;
        if (!isFine(mark.ink, mark.ground)) wrong.add(`${mark.depicts}: ${mark.ink}`);
      }
    };
    for (let seed = 1; seed <= 40; seed++) {
      const scene = randomKitchen(seed);
      const scale = sheetScale(islandAxes(scene), 900);
      const parts = { zones: true, people: true, dimensions: true };
      const frame = planFrame(scene, scale, parts);
      look(planObjects(scene, scale, words, parts, frame).over, (ink) => ink === "ink");
      const plan = floorPlan(scene, 900, words, 700);
      const first = plan.items.findIndex(({ kind }) => kind === "zone");
      if (first >= 0)
        look(
          plan.items.slice(first).flatMap(({ marks }) => marks),
          (ink) => ink === "ink",
        );
      const tags = ceilingBoxes(scene).map(({ tag }) => tag);
      const clashes = [{ kind: "bodies", between: tags, clear: -0.1 }] as never;
      look(clashMarks(scene, clashes, scale, frame), (_, ground) => ground === "paper" || ground === "sheet");
      // Walls are named at the walls, on paper.
      const named = [...plan.names, ...plan.luminaires].filter(({ depicts }) => depicts !== "wall name");
      look(named, (_, ground) => ground === "paper" || ground === "sheet");
    }
    expect(texts).toBeGreaterThan(200);
    expect([...wrong]).toEqual([]);
  });
});
