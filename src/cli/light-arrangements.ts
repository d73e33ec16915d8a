/** The light of a study's arrangements, calculated and judged. */

import { bodyShadows } from "../advice/body-shadow.ts";
import { findingsOf } from "../advice/findings.ts";
import type { JudgedArrangement } from "../app/judged-arrangement.ts";
import { type Engines, lightArrangement } from "../app/light-arrangement.ts";
import { printable } from "../diagnostics/printable.ts";
import { LightEngine } from "../engine/light-engine.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { type Io, usageError } from "./command.ts";

export interface LightChoice {
  readonly arrangement?: string;
  readonly quick?: boolean;
  readonly people?: boolean;
  /** Whether rules of thumb, eyes and heads, load and look are worked out too. */
  readonly findings?: "brief" | "full";
  /** Probability with which a target must be reached to be called met; the default otherwise. */
  readonly confidence?: number;
}

/** The engines of one run, for all its arrangements. */
export function newEngines(): Engines {
  const light = new LightEngine();
  return { light, uncertainty: new LightEngine(light.sources) };
}

export function lightArrangements(
  study: ResolvedStudy,
  choice: LightChoice,
  io: Io,
  engines: Engines = newEngines(),
): JudgedArrangement[] {
  const scenes = study.scenes.filter(
    (scene) => choice.arrangement === undefined || scene.name === choice.arrangement,
  );
  if (scenes.length === 0)
    throw usageError(
      "The study has no arrangement of that name.",
      study.scenes.map((scene) => JSON.stringify(scene.name)).join(", "),
      JSON.stringify(choice.arrangement),
    );
  const options: CalculationOptions = {
    ...study.options,
    quality: choice.quick === true ? "quick" : study.options.quality,
    people: choice.people === true || study.options.people,
  };
  return scenes.map((scene, index) => {
    const progress = progressOf(
      io,
      scenes.length > 1 ? `${printable(scene.name, 40)} (${index + 1} of ${scenes.length})` : "",
    );
    const judged = lightArrangement(study, scene, options, engines, progress.report, {
      confidence: choice.confidence,
    });
    const shadows = options.people
      ? bodyShadows(scene, { options, engine: engines.light, observer: { progress: progress.report } })
      : undefined;
    const findings =
      choice.findings === undefined
        ? undefined
        : findingsOf(study, scene, judged.result, judged.assessment, judged.eyes, choice.findings === "full");
    progress.done();
    return {
      ...judged,
      ...(shadows === undefined ? {} : { bodyShadows: shadows }),
      ...(findings === undefined ? {} : { findings }),
    };
  });
}

/** One line on a terminal, rewritten; nothing into files and pipes. */
export function progressOf(
  io: Io,
  name: string,
): { report(stage: string, fraction: number): void; done(): void } {
  if (io.interactive !== true) return { report: () => undefined, done: () => undefined };
  let shown = "";
  return {
    report(stage, fraction) {
      const text = `${name === "" ? "" : `${name}: `}${stage} ${Math.round(fraction * 100)} %`;
      if (text === shown) return;
      shown = text;
      io.err(`\r\u001b[K${text}`);
    },
    done: () => io.err("\r\u001b[K"),
  };
}
