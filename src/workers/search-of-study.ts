/** The search for rows of pendants as a worker answers it: plain data, each proposal judged as the screen judges. */

import { assess } from "../assessment/assess.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../assessment/targets-published.ts";
import { verdictMethod } from "../assessment/uncertainty/verdict-method.ts";
import { searchArrangements } from "../design/search/search.ts";
import { pendantShortlist } from "../design/search/shortlist.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import type { Calculate } from "../engine/calculate.ts";
import { buildShadeLuminaire } from "../luminaire/shade/build.ts";
import { resolveStudyWith } from "../scene/resolve-with.ts";
import { checkStudy } from "../study/study.ts";
import type { Engines } from "./engines.ts";
import type { SearchAnswer, SearchQuestion } from "./protocol.ts";
import { resolved, withKnownLuminaires } from "./resolved.ts";
import { type Files, photometryOf } from "./study-files.ts";

export async function searchOfStudy(
  question: SearchQuestion,
  files: Files,
  engines: Engines,
  observer: Observer,
): Promise<Outcome<SearchAnswer>> {
  const { document, arrangement } = question;
  const found = await resolved({ document, arrangement }, false, files, observer);
  if (!found.ok) return found;
  const checked = checkStudy(document);
  if (!checked.ok) return checked;
  const { study, scene } = found.value;
  const base = checked.value.arrangements[arrangement];
  const layer = scene.layers.findIndex(({ name, role }) =>
    question.layer === undefined ? role === "pendant" : name === question.layer,
  );
  const known = new Map(
    [...study.luminaires].map(([name, made]) => [
      name,
      files.same(made, checked.value.luminaires?.[name], photometryOf(checked.value, files)(name)),
    ]),
  );
  const names = question.luminaires ?? pendantShortlist(checked.value, study.scenes);
  const unknown = names.find((name) => !known.has(name));
  if (unknown !== undefined)
    return failure({
      code: "search",
      severity: "error",
      message: "There is no such luminaire.",
      expected: [...known.keys()].join(", "),
      received: JSON.stringify(unknown),
      where: {},
    });
  const engine = await engines.get();
  const uncertainty = await engines.uncertainty();
  const stop: Observer = { cancelled: () => observer.cancelled?.() === true };
  const outcome = searchArrangements(
    {
      study,
      scene,
      base,
      layer,
      kinds: names.flatMap((name) => known.get(name) ?? []),
      calculate: (one, options) => engine.calculate(one, options, stop),
      check: {
        resolve(proposed) {
          const one = resolveStudyWith(
            { ...checked.value, arrangements: [proposed] },
            {
              photometry: photometryOf(checked.value, files),
              publishedTargets: PUBLISHED_TARGETS_BY_ID,
              observer: stop,
            },
            buildShadeLuminaire,
          );
          return one.ok ? success(withKnownLuminaires(one.value.scenes[0], known)) : failure(...one.issues);
        },
        judge(one) {
          const result = engine.calculate(one, { ...study.options, quality: "full" }, stop);
          const own: Calculate = (...asked) => uncertainty.calculate(...asked);
          return assess(
            study,
            one,
            result,
            verdictMethod(one, result, own, { observer: stop, sources: uncertainty.sources }),
          );
        },
      },
      space: {
        ...(question.counts === undefined ? {} : { counts: question.counts }),
        ...(question.clearances === undefined ? {} : { clearances: question.clearances }),
        ...(question.pairs === undefined ? {} : { pairs: question.pairs }),
      },
      constraints: {
        rules: question.rules ?? [],
        faces: question.faces === true,
        heads: question.heads === true,
        shielding: question.shielding === true,
      },
      wanted: Math.min(8, Math.max(1, question.wanted ?? 4)),
    },
    observer,
  );
  if (!outcome.ok) return outcome;
  const { candidates, promising, turnedDown, leftOut, proposals } = outcome.value;
  return success({
    candidates,
    promising,
    checked: outcome.value.checked,
    turnedDown,
    leftOut,
    proposals: proposals.map(
      ({ document: own, reasons, assessment, average, uniformity, skipOne, dimmed }) => ({
        arrangement: own,
        reasons,
        verdict: assessment.verdict,
        average,
        uniformity,
        watts: assessment.energy.watts,
        zones: assessment.zones.map(({ name, verdict }) => ({ name, verdict })),
        ...(skipOne === undefined ? {} : { skipOne: skipOne.loses }),
        ...(dimmed === undefined
          ? {}
          : { dimmed: { dims: dimmed.dims, watts: dimmed.assessment.energy.watts } }),
      }),
    ),
  });
}
