/** Text for people on terminals of every kind: narrow, without letters beyond ASCII, without a way back to the line's start. */
import { expect, it } from "vitest";
import { helpOf, helpWidth } from "../../src/cli/command.ts";
import { COMMANDS } from "../../src/cli/commands.ts";
import { isAsciiLocale, isRewritable, shown } from "../../src/cli/terminal.ts";
import { TEXT_WIDTH, table, wrapped, wrappedTable } from "../../src/words/table.ts";

it("breaks lines between words where the terminal is narrow", () => {
  const text = "  ✓ prep 658 lx (590 to 726), evenness 0.71: meets 500 lx. Like a bright shop.\nshort\n";
  const narrow = shown(text, {}, 40);
  for (const line of narrow.split("\n")) expect(line.length).toBeLessThanOrEqual(40);
  expect(narrow.replace(/\s+/g, " ")).toBe(text.replace(/\s+/g, " "));
  expect(shown(text, {}, 200)).toBe(text);
  expect(shown(text, {})).toBe(text);
});

it("keeps to ASCII under LC_ALL=C, and leaves JSON and drawings alone", () => {
  const text = "  ✓ prep ≥ 500 lx, U₀ 0.71, 2 × 30°, ±8 % − 1\n";
  expect(shown(text, { LC_ALL: "C" })).toBe("  ok prep >= 500 lx, U0 0.71, 2 x 30 deg, +/-8 % - 1\n");
  expect(shown('{"a":"°"}', { LC_ALL: "C" })).toBe('{"a":"°"}');
  expect(shown("<svg>°</svg>", { LC_ALL: "POSIX" })).toBe("<svg>°</svg>");
  expect([{ LANG: "C" }, { LC_ALL: "en_GB.UTF-8", LANG: "C" }, {}].map(isAsciiLocale)).toEqual([
    true,
    false,
    false,
  ]);
});

it("rewrites no line on a dumb terminal or in a file", () => {
  expect([
    isRewritable({ TERM: "xterm" }, true),
    isRewritable({ TERM: "dumb" }, true),
    isRewritable({}, false),
  ]).toEqual([true, false, false]);
});

it("has help as wide as the terminal that shows it, 80 elsewhere, and states defaults", async () => {
  expect([undefined, 20, 60, 80, 300].map((columns) => helpWidth({ columns }))).toEqual([
    80, 40, 60, 80, 100,
  ]);
  for (const width of [60, 80, 100])
    for (const { load } of COMMANDS) {
      const help = helpOf(await load(), width);
      expect(help).not.toMatch(/\n(?:in|dimmed|else|planned)\n/);
      // A name that is longer than a line, and the usage, which is to be typed as one.
      const long = help
        .split("\n")
        .slice(1)
        .filter((line) => line.length > width && /\S \S/.test(line.slice(width - 20)));
      expect(long).toEqual([]);
    }
});

it("lays a table anew where the terminal is narrower: words broken inside their cells, figures under their heads", () => {
  const rows = table([
    ["whole top, best first", "four cones", "three cones"],
    ["pendants: direct + interreflected", "343 + 18 = 361", "281 + 14 = 295"],
    ["verdict", "≈ too close to call, and 2 clashes", "✕ falls short"],
  ]);
  expect(shown([...rows, "", "That is all."].join("\n"), {}, 60).split("\n")).toEqual([
    "whole top, best first             four cones     three cones",
    "pendants: direct +            343 + 18 = 361  281 + 14 = 295",
    "interreflected",
    "verdict                 ≈ too close to call,   ✕ falls short",
    "                               and 2 clashes",
    "",
    "That is all.",
  ]);
  // Columns that have no room beside one another follow below, each with the names of its rows.
  const many = table([
    ["name", ...Array.from({ length: 6 }, (_, i) => `option-number-${i + 1}`)],
    ["average", ...Array.from({ length: 6 }, (_, i) => `${500 + i}`)],
  ]);
  const narrow = shown(many.join("\n"), {}, 60).split("\n");
  for (const line of narrow) expect(line.length).toBeLessThanOrEqual(60);
  expect(narrow.filter((line) => /^name /.test(line))).toHaveLength(2);
  expect(narrow.join(" ")).toMatch(/average +500 +501 +502.*average +503 +504 +505/);
});

it("starts no sentence in the line of another that only just fitted", () => {
  const full = `  (${"x".repeat(TEXT_WIDTH - 4)})`;
  expect(shown([full, "  ≈ prep 496 lx"].join("\n"), {}, 80).split("\n").at(-1)).toBe("  ≈ prep 496 lx");
});

it("breaks sentences anew on a terminal narrower than they were written for, and leaves tables as they are", () => {
  const sentence =
    "HOLD P1 to P3: on a joist, 74 mm too near. Shift all of P1 to P3 by 74 mm, away from wall 3, and space the next ones so that they stand clear of every joist.";
  const text = [...wrapped(sentence, TEXT_WIDTH, 2, 2), ...wrapped("Short.", TEXT_WIDTH, 2), ""].join("\n");
  const narrow = shown(text, {}, 80).split("\n");
  expect(narrow).toEqual([...wrapped(sentence, 80, 2, 2), "  Short.", ""]);
  const rows = table(
    [
      ["a".repeat(60), "b".repeat(30)],
      ["c", "d"],
    ],
    2,
  );
  expect(shown(rows.join("\n"), {}, 95).split("\n").at(-1)).toBe(rows[1]);
});

it("breaks what a luminaire rests on under its own column, and cuts nothing", () => {
  const origin =
    "1055 lm frosted lamp in a diffusing shade of opal glass, 250 mm in diameter, closed all round";
  const lines = wrappedTable(
    [
      ["globe", "851 lm", origin],
      ["spot", "600 lm", "beam"],
    ],
    60,
    2,
    [0, 2],
  );
  expect(lines[0].startsWith("  globe  851 lm  1055 lm")).toBe(true);
  for (const line of lines.slice(1, -1)) expect(line).toMatch(/^ {17}\S/);
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(60);
  expect(lines.slice(0, -1).join(" ").replace(/\s+/g, " ")).toContain(origin);
  expect(lines.at(-1)).toBe("  spot   600 lm  beam");
});
