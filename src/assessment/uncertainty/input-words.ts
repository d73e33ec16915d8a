/** Input quantities in words, as `drivers[].input` of the JSON names them. */

import { EVIDENCE } from "../../luminaire/evidence.ts";
import type { Share } from "./figure-uncertainty.ts";

const NOUNS = { level: "light output", lobe: "beam shape", alignment: "alignment" };
const PARTS: Readonly<Record<string, string>> = { body: "cabinets", opening: "windows" };

export function inputWords(input: Share["input"]): string {
  const of = input.of ?? "";
  switch (input.kind) {
    case "level":
    case "lobe":
    case "alignment":
      return `${NOUNS[input.kind]} of ${of}${input.evidence === undefined ? "" : ` (${EVIDENCE[input.evidence].words})`}`;
    case "flux":
      return `flux of ${of}`;
    case "dimming":
      return `dimming of ${of}`;
    case "reflectance":
      return `reflectance of ${PARTS[of] ?? of}`;
    case "position":
      return "positions in plan";
    case "height":
      return "hanging heights";
    case "hung angle":
      return "angles as hung";
    default:
      return input.kind;
  }
}
