/**
 * Lamp shape codes: letters for the form, a number for the largest diameter.
 *
 * American codes count eighths of an inch (A19 = 19/8 in = 60.3 mm); European ones count millimetres (A60,
 * G95). Reflector codes (PAR, MR, R, BR) and tubes (T) are always eighths; of the others, numbers up to 40 are
 * read as eighths: no bulb is 40 mm or less and called so in millimetres except candles (C35, B35, P45), which
 * are millimetres.
 */

import { METRES_PER_INCH } from "../../units/quantities.ts";

const ALWAYS_EIGHTHS = new Set(["PAR", "MR", "R", "BR", "ER", "T"]);
const ALWAYS_MILLIMETRES = new Set(["C", "B", "P", "GU"]);

/** Letters in use for the forms of bulbs and tubes (ANSI C79.1, IEC 60887; from memory), and the trade's own. */
const FORMS = new Set(
  "A AR B BA BR BT C CA CT E ED ER F G GA GT GU K LN M MB MR P PAR PS PT R RP S SB SG SP ST T TB TC TR TT".split(
    " ",
  ),
);

/** Whether the letters of a shape code name a form of lamp. */
export function isLampForm(code: string): boolean {
  return FORMS.has(/^[A-Z]*/.exec(code.trim().toUpperCase())?.[0] ?? "");
}

/** Largest diameter (m) of a shape code such as `A19`, `G95`, `PAR30`, `ST64`; undefined when it is none. */
export function lampDiameter(code: string): number | undefined {
  const match = /^([A-Z]{1,3})\s?(\d{1,3})$/.exec(code.trim().toUpperCase());
  if (match === null) return undefined;
  const number = Number(match[2]);
  if (number < 2 || number > 250) return undefined;
  // American candles are C7, B10, CA10: small numbers.
  const millimetres = ALWAYS_MILLIMETRES.has(match[1]) && number >= 25;
  const eighths = ALWAYS_EIGHTHS.has(match[1]) || (!millimetres && number <= 40);
  return eighths ? (number / 8) * METRES_PER_INCH : number / 1000;
}
