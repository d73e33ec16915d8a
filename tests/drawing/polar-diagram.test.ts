import { describe, expect, it } from "vitest";
import type { LineMark, TextMark } from "../../src/drawing/drawing.ts";
import { overlaps, textBox } from "../../src/drawing/drawing.ts";
import { polarDiagram, ringStep } from "../../src/drawing/polar-diagram.ts";
import { polarDiagramSvg } from "../../src/drawing/polar-diagram-svg.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import { radians } from "../../src/units/quantities.ts";
import { range, rotational, tabulated } from "../support/distributions.ts";

const lambert = rotational((g) => 480 * Math.cos(g), range(0, 90, 5));
const oblong = tabulated(
  "C",
  (C, g) => 480 * Math.cos(g) ** (2 + Math.cos(2 * C)),
  range(0, 360, 15),
  range(0, 90, 5),
);
const upDown = rotational((g) => 300 * Math.cos(g) ** 2, range(0, 180, 5));

function lines(distribution: IntensityDistribution, depicts: string): LineMark[] {
  return polarDiagram(distribution, "t").marks.filter(
    (mark): mark is LineMark => mark.kind === "line" && mark.depicts.startsWith(depicts),
  );
}

function words(distribution: IntensityDistribution): TextMark[] {
  return polarDiagram(distribution, "a pendant", "intensity in cd").marks.filter(
    (mark) => mark.kind === "text",
  );
}

describe("polar diagram", () => {
  it("draws intensity to the scale of its rings", () => {
    const rings = lines(lambert, "candela ring");
    expect(rings).toHaveLength(5);
    const outer = rings[4].points;
    const centre = [220, outer[0][1]];
    const [curve] = lines(lambert, "intensity");
    // Straight down 480 cd of 500; the outer ring's lowest point is 500 cd.
    const radius = Math.max(...outer.map(([, y]) => y)) - centre[1];
    const lowest = Math.max(...curve.points.map(([, y]) => y)) - centre[1];
    expect(Math.abs(lowest / radius - 480 / 500)).toBeLessThan(1e-3);
    // At 60°, half: a point lies there, to both sides.
    for (const side of [1, -1]) {
      const x = 220 + side * 0.48 * radius * Math.sin(radians(60));
      const y = centre[1] + 0.48 * radius * Math.cos(radians(60));
      expect(Math.min(...curve.points.map((p) => Math.hypot(p[0] - x, p[1] - y)))).toBeLessThan(0.3);
    }
    expect(
      words(lambert)
        .filter((mark) => mark.depicts === "candela")
        .map((mark) => mark.text),
    ).toEqual(["100", "200", "300", "400", "500", "cd"]);
  });

  it("tells two planes apart by line, and names them; draws one when all are alike", () => {
    const curves = lines(oblong, "intensity");
    expect(curves.map(({ dash }) => dash)).toEqual(["solid", "dashed"]);
    const legend = words(oblong).map((mark) => mark.text);
    expect(legend).toContain("C0–C180");
    expect(legend).toContain("C90–C270");
    // 2026-11-29: "beam 74°" where the file was read stood against 136° and 57.3° of the two planes drawn.
    expect(legend).toContainEqual(expect.stringMatching(/^beam \d+° \(mean of planes, \d+° to \d+°\)$/));
    expect(
      words(lambert)
        .map((mark) => mark.text)
        .join(),
    ).not.toMatch(/mean/);
    expect(lines(lambert, "intensity")).toHaveLength(1);
    expect(
      lines(
        tabulated("C", (_, g) => Math.cos(g), range(0, 360, 15), range(0, 90, 5)),
        "intensity",
      ),
    ).toHaveLength(1);
  });

  it("puts C0 and C90 on the right", () => {
    const leaning = (C0: number) =>
      tabulated("C", (C, g) => Math.cos(g) * (2 + Math.cos(C - C0)), range(0, 360, 15), range(0, 90, 5));
    for (const [curve, C0] of [
      [0, 0],
      [1, Math.PI / 2],
    ]) {
      const xs = lines(leaning(C0), "intensity")[curve].points.map(([x]) => x - 220);
      expect(Math.max(...xs)).toBeGreaterThan(1.5 * Math.max(...xs.map((x) => -x)));
    }
    expect(words(leaning(0)).find((mark) => mark.text === "C0, C90")?.at[0]).toBeGreaterThan(300);
  });

  it("opens the upper half for light that goes up, and only then", () => {
    expect(words(upDown).some((mark) => mark.text === "180°")).toBe(true);
    expect(words(lambert).some((mark) => mark.text === "120°")).toBe(false);
  });

  it("keeps its words apart and inside", () => {
    for (const distribution of [lambert, oblong, upDown]) {
      const { width, height } = polarDiagram(distribution, "t");
      const boxes = words(distribution).map((mark) => ({ ...textBox(mark), text: mark.text }));
      for (const [i, a] of boxes.entries()) {
        expect(a.x).toBeGreaterThanOrEqual(0);
        expect(a.x + a.width).toBeLessThanOrEqual(width);
        expect(a.y + a.height).toBeLessThanOrEqual(height + 1);
        for (const b of boxes.slice(i + 1)) expect(overlaps(a, b) && `${a.text} on ${b.text}`).toBe(false);
      }
    }
  });

  it("chooses three to five rings of a round step", () => {
    for (let peak = 0.013; peak < 1e6; peak *= 1.07) {
      const step = ringStep(peak);
      const rings = Math.ceil(peak / step - 1e-9);
      expect(rings).toBeGreaterThanOrEqual(2);
      expect(rings).toBeLessThanOrEqual(5);
      expect([1, 2, 2.5, 5, 10]).toContain(
        Number((step / 10 ** Math.floor(Math.log10(step) + 1e-9)).toPrecision(6)),
      );
    }
  });

  it("survives darkness, fine tables and hostile names", () => {
    expect(
      polarDiagramSvg(
        rotational(() => 0),
        "dark",
      ),
    ).toContain("<svg");
    const fine = rotational((g) => Math.abs(Math.cos(g)), range(0, 180, 0.01));
    expect(lines(fine, "intensity")[0].points.length).toBeLessThan(5000);
    const svg = polarDiagramSvg(lambert, `<script>"&'</script>\u0000`, "]]>\ud800");
    expect(svg).not.toContain("<script");
    expect(svg).toContain("&lt;script&gt;");
    expect(svg).not.toMatch(/NaN|Infinity|undefined|\ud800/);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: XML may hold none
    expect(svg).not.toMatch(/[\u0000-\u0008]/);
    expect(words(lambert).every((mark) => mark.text.length < 80)).toBe(true);
    expect(polarDiagramSvg(lambert, "x".repeat(1e5)).length).toBeLessThan(130_000);
  });

  it("draws types A and B", () => {
    const b = tabulated(
      "B",
      (h, v) => 100 * Math.cos(h) * Math.cos(v) ** 3,
      range(-90, 90, 5),
      range(-90, 90, 5),
    );
    expect(lines(b, "intensity")).toHaveLength(2);
  });
});
