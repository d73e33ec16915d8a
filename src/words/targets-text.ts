/** The published targets as a table, with their sources. */

import { PUBLISHED_TARGETS, type PublishedTarget } from "../assessment/targets-published.ts";
import { formatIlluminance } from "../units/illuminance-text.ts";
import { publishedRangeWords } from "./published-range.ts";
import { textLines } from "./table.ts";

/** What `check --targets --json` prints. */
export function targetsJson(): readonly PublishedTarget[] {
  return PUBLISHED_TARGETS;
}

/** What `check --targets` prints: every published target by id, with its source and how it is known. */
export function targetsText(): string {
  const rows = PUBLISHED_TARGETS.map((target) => {
    const [first, ...rest] = target.requirements;
    const more = rest.map((r) => `, U₀ ${r.value.toFixed(2)}`).join("");
    return [
      target.id,
      `${Number(first.value.toFixed(1))} lx (${formatIlluminance(first.value, "fc")})${more}`,
      `  ${target.name}`,
      `  ${target.scope}`,
      `  ${target.known}`,
    ];
  });
  const lines = [
    "Published targets: average maintained illuminance on the task. Name one as a zone's `target`, or state",
    "your own under `targets`. The light asked is the lx listed: where a source says 500 lx and 50 fc, the plain id",
    "asks the lux (46 fc), the id with -fc the foot-candles.",
    "",
  ];
  const widths = [0, 1, 2, 3, 4].map((i) => Math.max(...rows.map((row) => row[i].length)));
  for (const row of rows)
    lines.push(
      row
        .map((cell, i) => (i === 1 ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
        .join("  ")
        .trimEnd(),
    );
  lines.push("", "Sources");
  for (const source of new Set(PUBLISHED_TARGETS.map((target) => target.source))) {
    const ids = PUBLISHED_TARGETS.filter((target) => target.source === source);
    const notes = [...new Set(ids.flatMap((target) => target.note ?? []))];
    lines.push(
      ...textLines(
        `${ids.map((target) => target.id).join(", ")}: ${source}. ${notes.join(" ")}`.trim(),
        2,
        0,
      ),
    );
  }
  lines.push(
    "",
    ...textLines(
      `They disagree: for a worktop ${publishedRangeWords("worktop", "lx")}. "secondary" = quoted by another text, "from memory" = not looked up; confirm either before a contract rests on it.`,
    ),
  );
  return `${lines.join("\n")}\n`;
}
