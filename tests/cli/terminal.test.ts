/** Text for people on terminals of every kind: narrow, without letters beyond ASCII, without a way back to the line's start. */
import { expect, it } from "vitest";
import { helpOf } from "../../src/cli/command.ts";
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

it("has help of at most 110 columns that states defaults", async () => {
  for (const { load } of COMMANDS) {
    const help = helpOf(await load());
    expect(help).not.toMatch(/\n(?:in|dimmed|else|planned)\n/);
    const long = help.split("\n").filter((line) => line.length > 110);
    expect(long).toEqual([]);
  }
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
