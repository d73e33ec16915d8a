/** Text for people on terminals of every kind: narrow, without letters beyond ASCII, without a way back to the line's start. */
import { expect, it } from "vitest";
import { COMMANDS } from "../../src/cli/commands.ts";
import { helpOf } from "../../src/cli/command.ts";
import { isAsciiLocale, isRewritable, shown } from "../../src/cli/terminal.ts";

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
    const long = help.split("\n").filter((line) => line.length > 110);
    expect(long).toEqual([]);
  }
});
