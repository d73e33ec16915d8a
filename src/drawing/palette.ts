/** The colours of every ink on screen, by day and by evening, in drawings and page alike. Marks over the colours of light have theirs
 * in elements/plan/plan.styles.ts, print in `PRINT` of paper/paper.ts. */

import type { Ink } from "./drawing.ts";
import { DARK_INK, LIGHT_INK } from "./light-scale.ts";

export type Palette = Readonly<Record<Exclude<Ink, "none">, string>>;

export const DAY: Palette = {
  paper: "#faf7f1",
  sheet: LIGHT_INK,
  ink: DARK_INK,
  quiet: "#6b6458",
  hairline: "#d9d2c5",
  luminaire: "#a4560b",
  meets: "#2f6b4f",
  short: "#a3352b",
  close: "#8a6410",
};

export const EVENING: Palette = {
  paper: "#171510",
  sheet: "#1f1c16",
  ink: "#eee7da",
  quiet: "#a79e8d",
  hairline: "#3a352b",
  luminaire: "#ffb85c",
  meets: "#7cc4a0",
  short: "#ef8a7e",
  close: "#e0b85a",
};
