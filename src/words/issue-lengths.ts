/** Issues speak in metres; whoever reads them may not. */

import type { Issue } from "../diagnostics/issue.ts";
import { formatLength, type LengthUnit } from "../units/length-text.ts";

/** A text whose metres are in a unit: `at most 2.700 m` → `at most 2700 mm`. */
export function lengthsIn(text: string, unit: LengthUnit): string {
  const say = (metres: string): string => formatLength(Number(metres), unit);
  return text
    .replace("at least 0.0001 and at most 1000 m", "a length above 0")
    .replace(
      /\((-?[\d.]+(?:, -?[\d.]+)*)\) m(?![\w²])/g,
      (_, list: string) => `(${list.split(", ").map(say).join(", ")})`,
    )
    .replace(/at least (-?[\d.]+) and at most (-?[\d.]+) m(?![\w²])/g, (_, a, b) => `${say(a)} to ${say(b)}`)
    .replace(/(?<![\d.])(-?\d+(?:\.\d+)?) m(?![\w²])/g, (_, metres) => say(metres));
}

/** An issue in a unit; what was typed stays as typed. */
export function issueIn(issue: Issue, unit: LengthUnit): Issue {
  const { message, expected, received } = issue;
  return {
    ...issue,
    message: lengthsIn(message, unit),
    ...(expected === undefined ? {} : { expected: lengthsIn(expected, unit) }),
    ...(received === undefined || received.startsWith('"') ? {} : { received: lengthsIn(received, unit) }),
  };
}
