/** The light of a study's arrangements, calculated and judged. */

import { assess, type FineField } from "../assessment/assess.ts";
import { bodyShadows } from "../assessment/body-shadow.ts";
import { fixedBandJudge, type Judge } from "../assessment/fixed-band.ts";
import { toleranceJudge } from "../assessment/tolerance/tolerance-judge.ts";
import { printable } from "../diagnostics/printable.ts";
import { LightEngine } from "../engine/light-engine.ts";
import type { CalculationResult } from "../engine/result.ts";
import { marginPlane } from "../presentation/isolux.ts";
import type { JudgedArrangement } from "../presentation/report/judged-arrangement.ts";
import { fineGrid } from "../scene/calculation-grid.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { CalculationPlane, PlaneGrid } from "../scene/calculation-plane.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { type Io, usageError } from "./command.ts";

/** Planes larger than this are rooms, not tops; contours and fine minima are for tops (m²). */
const LARGEST_FINE = 12;

export interface LightChoice {
  readonly arrangement?: string;
  readonly quick?: boolean;
  readonly people?: boolean;
  /** Probability with which a target must be reached to be called met; the default of the tolerance otherwise. */
  readonly confidence?: number;
}

export function lightArrangements(study: ResolvedStudy, choice: LightChoice, io: Io): JudgedArrangement[] {
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
  // One engine for all: it remembers the room's form factors and the layers the arrangements share.
  const engine = new LightEngine();
  // One of its own for the doubts, whose many small changes would turn over the first one's memory.
  const doubting = new LightEngine();
  return scenes.map((scene, index) => {
    const progress = progressOf(
      io,
      scenes.length > 1 ? `${printable(scene.name, 40)} (${index + 1} of ${scenes.length})` : "",
    );
    const judged = lightArrangement(study, scene, options, engine, progress.report, (own) =>
      options.quality === "quick"
        ? fixedBandJudge
        : toleranceJudge(scene, own, (...asked) => doubting.calculate(...asked), {
            confidence: choice.confidence,
          }),
    );
    const shadows = options.people
      ? bodyShadows(scene, { options, engine, observer: { progress: progress.report } })
      : undefined;
    progress.done();
    return shadows === undefined ? judged : { ...judged, bodyShadows: shadows };
  });
}

function lightArrangement(
  study: ResolvedStudy,
  scene: Scene,
  options: CalculationOptions,
  engine: LightEngine,
  report: (stage: string, fraction: number) => void,
  judgeOf: (own: CalculationResult) => Judge,
): JudgedArrangement {
  const refined = scene.planes.flatMap((plane) => {
    const fine = area(plane) <= LARGEST_FINE ? fineGrid(plane) : undefined;
    if (fine?.grid === undefined) return [];
    return [{ of: plane.name, fine, margin: marginPlane(fine as CalculationPlane & { grid: PlaneGrid }) }];
  });
  // One calculation for all of them: the room's interreflection is the same.
  const planes = [...scene.planes, ...refined.flatMap(({ fine, margin }) => [fine, margin])];
  const result = engine.calculate({ ...scene, planes }, options, { progress: report });
  const count = scene.planes.length;
  const fine = new Map<string, FineField & { readonly margin: FineField }>();
  refined.forEach((each, i) => {
    const field = result.planes[count + 2 * i];
    const margin = { plane: each.margin, field: result.planes[count + 2 * i + 1] };
    fine.set(each.of, { plane: each.fine, field, margin });
  });
  const own = { ...result, planes: result.planes.slice(0, count) };
  return { scene, result: own, fine, assessment: assess(study, scene, own, { fine, judge: judgeOf(own) }) };
}

function area({ weights }: CalculationPlane): number {
  let sum = 0;
  for (const weight of weights) sum += weight;
  return sum;
}

/** One line on a terminal, rewritten; nothing into files and pipes. */
function progressOf(io: Io, name: string): { report(stage: string, fraction: number): void; done(): void } {
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
