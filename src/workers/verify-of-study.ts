/** Site readings against one arrangement's prediction, as a worker answers it: plain data and sentences. */

import { readReadings } from "../design/verify/readings.ts";
import { verify } from "../design/verify/verify.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import { culpritSentence } from "../words/verify-text.ts";
import type { Engines } from "./engines.ts";
import type { VerifyAnswer, VerifyQuestion } from "./protocol.ts";
import { resolved } from "./resolved.ts";
import type { Files } from "./study-files.ts";

/** No list of readings is longer. */
const MOST_LETTERS = 1_000_000;

export async function verifyOfStudy(
  { document, arrangement, readings: text, meter, maintenance = 1 }: VerifyQuestion,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<VerifyAnswer>> {
  const found = await resolved({ document, arrangement }, false, files, observer);
  if (!found.ok) return found;
  const { study, scene } = found.value;
  const readings = readReadings(text.slice(0, MOST_LETTERS), scene, "readings");
  if (!readings.ok) return readings;
  const engine = await engines.get();
  const stop: Observer = { cancelled: () => observer.cancelled?.() === true };
  const verification = verify(
    {
      study,
      scene,
      readings: readings.value,
      meter,
      maintenance,
      calculate: (one, options) => engine.calculate(one, options, stop),
    },
    observer,
  );
  const { agree, compared, culprits, open, parameters, zones } = verification;
  return success({
    agree,
    compared: compared.map(({ line, read, predicted, band, agrees }) => ({
      line,
      read,
      predicted,
      band,
      agrees,
    })),
    wrong: culprits.map((culprit) => culpritSentence(culprit, { study, scene, verification })),
    open,
    learnt: parameters,
    zones,
  });
}
