/** What the age of the people of a study asks, in sentences. */

import type { AgeRemark } from "../advice/age.ts";
import { formatIlluminance, type IlluminanceUnit } from "../units/illuminance-text.ts";
import { agedPeople } from "./findings-sections.ts";

/** What the age of those who stand there asks of a zone; the verdict stays the target's. */
export function agedZone(
  remark: AgeRemark | undefined,
  name: string,
  unit: IlluminanceUnit,
): string | undefined {
  const found = remark?.zones.find(({ zone }) => zone === name);
  if (remark === undefined || found === undefined) return undefined;
  const { band } = remark;
  const source =
    unit === "fc" && found.footcandles !== undefined ? `${found.footcandles} fc in the source; ` : "";
  const answer = found.isClose ? "Too close to call" : found.reached ? "Enough too" : "Not enough";
  return `${answer} for ${agedPeople(found.people)}: the band ${band.words} asks ${formatIlluminance(found.asked, unit)} here (${source}bands of age of IES practice; confirm them in its text); the verdict stays the target's.`;
}
