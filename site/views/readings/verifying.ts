/** Readings being taken and compared, of the option that was built: kept with the study on screen until another title or option. */

import type { Issue } from "../../../src/app.ts";
import type { Running, VerifyAnswer } from "../../../src/workers/browser.ts";
import type { LightAge } from "../../light/reading-points.ts";
import type { SiteReadings } from "../../storage/taken-readings.ts";

export interface Verifying {
  /** Of what was tapped. */
  key: string;
  readings: SiteReadings;
  lit: string;
  chosen: number;
  /** A list pasted or read from a file. */
  text: string;
  running?: Running<VerifyAnswer>;
  /** The study and the option the answer is about. */
  about?: { readonly document: unknown; readonly arrangement: number; readonly age: LightAge };
  answer?: VerifyAnswer;
  issues?: readonly Issue[];
}
