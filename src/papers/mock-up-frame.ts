/** The frame of the mock-up's sheets. */

import { sheetFrame } from "../drawing/paper/frame.ts";
import type { Handover } from "./handover.ts";

export function frameFor(handover: Handover, title: string, number: string, scale: string) {
  return sheetFrame(handover.paper, false, {
    project: handover.project,
    title,
    revision: handover.revision,
    date: handover.date,
    units: handover.unit === "mm" ? "millimetres" : "feet and inches",
    scale,
    number,
    fingerprint: handover.fingerprint,
  });
}
