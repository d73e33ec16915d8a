/** Site readings against one arrangement's prediction. */

import { readReadings } from "../design/verify/readings.ts";
import { type MeterClass, type Verification, verify } from "../design/verify/verify.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { FILE_LIMITS } from "../diagnostics/file-limits.ts";
import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import { observerSteps } from "../diagnostics/observer-steps.ts";
import type { Scene } from "../scene/scene.ts";
import { arrangementIndex } from "./named-in-study.ts";
import type { OpenStudy } from "./open-document.ts";

export interface VerifyOptions {
  /** Comma-separated text, see `design/verify/readings.ts`. */
  readonly readings: string;
  /** Names the readings in issues. */
  readonly file?: string;
  /** The arrangement that was built, by name or number; the first by default. */
  readonly arrangement?: string | number;
  /** 95 % band of the meter, relative, 0.05 by default; or one good for ratios alone. */
  readonly meter?: MeterClass;
  /** What age and dirt have left of the light by then: 1 when new and clean, the default; 0.1 to 1; or `aged`, as the
   * study's maintenance factor and every paper have it. */
  readonly maintenance?: number | "aged";
  /** Probability with which a target must be reached to be called met, 0.5 to 0.999; 0.9 by default. */
  readonly confidence?: number;
}

export interface VerifiedArrangement {
  readonly scene: Scene;
  readonly verification: Verification;
}

export async function verifyReadings(
  { study, engines }: Pick<OpenStudy, "study" | "engines">,
  {
    readings: text,
    file = "readings",
    arrangement,
    meter = 0.05,
    maintenance = 1,
    confidence,
  }: VerifyOptions,
  observer: Observer = {},
): Promise<Outcome<VerifiedArrangement>> {
  const index = arrangementIndex(study.scenes, arrangement);
  if (!index.ok) return index;
  const scene = study.scenes[index.value];
  if (text.length > FILE_LIMITS.readings)
    return failure({
      code: "readings-too-long",
      message: "The list of readings is too long.",
      expected: `at most ${FILE_LIMITS.readings} characters`,
      received: `${text.length}`,
      where: { file },
    });
  const readings = readReadings(text, scene, file);
  if (!readings.ok) return readings;
  const engine = await engines.get();
  const { whole, step } = observerSteps(observer);
  const verification = verify(
    {
      study,
      scene,
      readings: readings.value,
      meter,
      maintenance: maintenance === "aged" ? scene.maintenance : maintenance,
      calculate: (one, options) => engine.calculate(one, options, step),
      ...(confidence === undefined ? {} : { confidence }),
    },
    whole,
  );
  return success({ scene, verification }, readings.warnings);
}
