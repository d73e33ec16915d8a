/** What a source quotes in its own units, with the other system's beside it for who builds in that. */

import { formatLength, type LengthUnit } from "../../units/length-text.ts";
import { METRES_PER_FOOT, METRES_PER_INCH, SQUARE_FEET_PER_SQUARE_METRE } from "../../units/quantities.ts";

const FEET_AND_INCHES = { in: METRES_PER_INCH, ft: METRES_PER_FOOT } as const;
const METRIC = { cm: 0.01, m: 1 } as const;
/** `30 to 36 in`, `each foot`, `a square foot` */
const QUOTED = /(?:([\d.]+) to )?([\d.]+) (sq ft|in|ft|cm|m)\b|each foot|a square foot/g;

/** `Leave 30 to 36 in (762 to 914 mm) clear.` Lengths that are in the unit's own system stay as they are. */
export function lengthsInBoth(words: string, unit: LengthUnit): string {
  return words.replaceAll(QUOTED, (quoted: string, from: string | undefined, to = "1", name = "ft") => {
    const values = [from, to].filter((each) => each !== undefined).map(Number);
    const other =
      name === "sq ft" || quoted.endsWith("square foot") ? areas(values, unit) : lengths(values, name, unit);
    return other === undefined ? quoted : `${quoted} (${other})`;
  });
}

function areas(squareFeet: readonly number[], unit: LengthUnit): string | undefined {
  if (unit === "ft-in") return undefined;
  return `${squareFeet.map((each) => Number((each / SQUARE_FEET_PER_SQUARE_METRE).toPrecision(2))).join(" to ")} m²`;
}

function lengths(values: readonly number[], name: string, unit: LengthUnit): string | undefined {
  const system: Readonly<Record<string, number>> = unit === "ft-in" ? METRIC : FEET_AND_INCHES;
  if (!(name in system)) return undefined;
  const texts = values.map((each) => formatLength(each * system[name], unit));
  // The unit is said once, as the source says it.
  return unit === "ft-in" ? texts.join(" to ") : texts.join(" to ").replace(` ${unit} to `, " to ");
}
