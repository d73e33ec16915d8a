/** What `check` says: ranked by evenness, totals by role, sentences that name target and band. */
import { describe, expect, it } from "vitest";
import { checkText } from "../../src/words/check-text.ts";
import { table, wrapped } from "../../src/words/table.ts";
import { targetsText } from "../../src/words/targets-text.ts";
import { darkestPlace } from "../../src/words/zone-text.ts";
import { judged } from "../support/assessed-arrangement.ts";
import { rectanglePlane, tinyScene, tinyStudy } from "../support/tiny-scene.ts";

const even = tinyScene();
/** One of the two pendants is gone: the same kitchen, patchy. */
const patchy = tinyScene({
  name: "one dome",
  layers: even.layers.map((layer) =>
    layer.role === "pendant" ? { ...layer, luminaires: layer.luminaires.slice(0, 1) } : layer,
  ),
});

describe("the text of check", () => {
  const study = tinyStudy([patchy, even]);
  const text = checkText(study, judged(study));

  it("sets arrangements side by side, the evenest first, whatever their order in the study", () => {
    const head = text.split("\n").find((line) => line.includes("best first")) as string;
    expect(head.indexOf("two domes")).toBeGreaterThan(0);
    expect(head.indexOf("two domes")).toBeLessThan(head.indexOf("one dome"));
  });

  it("shows pendants, recessed and both, direct and interreflected, that add up", () => {
    for (const name of ["pendants", "recessed", "all"]) {
      const line = text.split("\n").find((each) => each.startsWith(`${name}: `)) as string;
      const [, direct, interreflected, both] = /([\d.]+) \+ ([\d.]+) = ([\d.]+)/.exec(
        line,
      ) as RegExpExecArray;
      expect(Math.abs(Number(direct) + Number(interreflected) - Number(both))).toBeLessThanOrEqual(1);
    }
  });

  it("says each zone in a sentence with its band and target", () => {
    expect(text).toMatch(/✕ prep \d+ lx \(\d+ to \d+\), evenness 0\.\d\d: falls short of 500 lx\./);
    expect(text).toContain("Target from: IES RP-11");
    expect(text).toContain("measured, ±8 %");
  });

  it("goes on below when there are many arrangements, each in one block and in one paragraph", () => {
    const many = tinyStudy(Array.from({ length: 9 }, (_, i) => tinyScene({ name: `option ${i + 1}` })));
    const words = checkText(many, judged(many));
    expect(words.split("\n").filter((line) => line.startsWith("whole top")).length).toBe(3);
    for (let i = 1; i <= 9; i++) expect(words.split(`option ${i}`).length).toBe(3);
  });

  it("says what the uncertainty comes from when it is too close to call", () => {
    const { value } = judged(study)[1].assessment.zones[0].checks[0];
    const close = tinyStudy(
      [even],
      [
        {
          id: "preparation",
          name: "own",
          requirements: [{ quantity: "illuminance", statistic: "average", value, nature: "maintained" }],
          source: "the designer's own",
          known: "stated in the study",
        },
      ],
    );
    expect(checkText(close, judged(close)).replace(/\s+/g, " ")).toMatch(
      /≈ prep .*too close to call against 316 lx\. The uncertainty is mostly the light output of dome/,
    );
  });

  it("fits a screen of 100 columns", () => {
    for (const line of text.split("\n")) expect(Array.from(line).length).toBeLessThanOrEqual(100);
  });

  it("says the worst energy balance of the arrangements, whichever is listed first", () => {
    const study = tinyStudy([tinyScene({ name: "a" }), tinyScene({ name: "b" })]);
    const each = judged(study).map((one, i) => ({
      ...one,
      assessment: { ...one.assessment, balance: { imbalance: [0.001, -0.002][i], closureError: 0 } },
    }));
    for (const order of [each, [...each].reverse()])
      expect(checkText(study, order).replace(/\s+/g, " ")).toContain("Energy balances within 0.20 %.");
  });

  it("obeys no control character of a study", () => {
    const hostile = tinyStudy([tinyScene({ name: "a\u001b[2Jb\nc" })]);
    expect(checkText(hostile, judged(hostile))).not.toContain("\u001b");
  });

  it("lists the published targets with their conflicts", () => {
    expect(targetsText()).toContain("from 150 to 1000 lx");
    // 500 lx / 10.7639 = 46.45 fc: less than the 50 fc that sources in foot-candles round to.
    expect(targetsText()).toMatch(/preparation\s+500 lx \(46 fc\)/);
    expect(targetsText()).toContain("the id with -fc the foot-candles");
  });
});

describe("words", () => {
  it("keep columns and lines", () => {
    expect(
      table([
        ["a", "1"],
        ["bb", "22"],
      ]),
    ).toEqual(["a    1", "bb  22"]);
    expect(wrapped("one two three", 8, 2)).toEqual(["  one", "  two", "  three"]);
  });

  it("name the darkest spot as seen from the near side, and none when the light is even", () => {
    const plane = rectanglePlane("top", [0, 0, 0.9], [2.4, 1], 12, 6);
    const field = new Float64Array(72).fill(100);
    expect(darkestPlace(plane, field)).toBeUndefined();
    const dark = (cell: number) =>
      darkestPlace(
        plane,
        field.map((e, i) => (i === cell ? 10 : e)),
      );
    expect(dark(0)).toBe("at the near left");
    expect(dark(71)).toBe("at the far right");
    expect(dark(2 * 12)).toBe("on the left");
    expect(dark(2 * 12 + 6)).toBe("in the middle");
    expect(dark(6)).toBe("in the middle of the near side");
    // 2026-11-29: of a top as dark at both ends one end was named, here the left, there the right.
    const both = (...cells: number[]) =>
      darkestPlace(
        plane,
        field.map((e, i) => (cells.includes(i) ? 10 + 0.1 * cells.indexOf(i) : e)),
      );
    expect(both(0, 11)).toBe("at the near left and right");
    expect(both(11, 0)).toBe("at the near left and right");
    expect(both(2 * 12, 3 * 12 - 1)).toBe("on the left and right");
    expect(both(0, 60)).toBe("at the near and far left");
    expect(both(6, 66)).toBe("in the middle of the near and far side");
    expect(both(0, 71)).toBe("at the near left");
    expect(both(0, 11, 60, 71)).toBe("at all four corners");
    // 2026-11-29: dark beside the middle of both ends, where the corners were not.
    expect(both(12, 23, 48, 59)).toBe("on the left and right");
  });
});
