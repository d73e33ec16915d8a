/**
 * The search: which pendants, how many, how far apart, how high, where. Ranked by light on one lattice, the best few
 * that differ in kind checked in full and given with their reasons.
 */

import { requirementsOf } from "../../assessment/assess.ts";
import type { Observer } from "../../diagnostics/cancelled.ts";
import { failure, type Outcome, success } from "../../diagnostics/issue.ts";
import type { Calculate } from "../../engine/calculate.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { LightingSetting, Scene } from "../../scene/scene.ts";
import type { ArrangementDocument } from "../../study/arrangement-schema.ts";
import { formatLength, type LengthUnit } from "../../units/length-text.ts";
import { type Candidate, type Kind, kindOf } from "./candidate.ts";
import type { FullCheck } from "./checked.ts";
import { type Constraints, keepingConstraints, type LeftOut } from "./constraints.ts";
import { OBJECTIVES, type Objective } from "./pareto.ts";
import { type PeopleConstraints, type Proposals, proposalsOf } from "./proposals.ts";
import { rankCandidates } from "./ranking.ts";
import { type SearchGrid, searchGrid } from "./search-grid.ts";
import { candidatesOf, grainOf, mostCandidates, type SearchSpace, usualSpace } from "./search-space.ts";
import type { SoughtSetting } from "./setting-mixtures.ts";
import { standingLight } from "./standing-light.ts";

export interface SearchRequest {
  readonly study: Pick<ResolvedStudy, "targets" | "display" | "options">;
  /** The arrangement searched from, resolved and as written, and the layer whose luminaires are sought. */
  readonly scene: Scene;
  readonly base: ArrangementDocument;
  readonly layer: number;
  readonly kinds: readonly Luminaire[];
  readonly check: FullCheck;
  readonly calculate: Calculate;
  readonly space?: Partial<SearchSpace>;
  readonly constraints?: Partial<Constraints & PeopleConstraints>;
  readonly objectives?: readonly Objective[];
  readonly wanted?: number;
  readonly confidence?: number;
  /** Least evenness of the whole top that is proposed; 0, any, by default. */
  readonly evenness?: number;
  /** Settings that rows must serve at whatever levels do it; the scene is then at full output. */
  readonly settings?: readonly LightingSetting[];
}

export interface SearchResult extends Proposals {
  readonly candidates: number;
  /** Rows that reach all targets as far as the ranking can tell. */
  readonly promising: number;
  readonly leftOut: readonly LeftOut[];
  /** Whether there were more rows than one search looks at, and those of the greatest clearances were not tried. */
  readonly cutShort: boolean;
}

export function searchArrangements(request: SearchRequest, observer?: Observer): Outcome<SearchResult> {
  const { study, scene, layer, calculate } = request;
  const { island } = scene;
  const wrong = (message: string, expected: string): Outcome<SearchResult> =>
    failure({ code: "search", message, expected });
  if (island === undefined)
    return wrong("There is no island to hang pendants over.", '"island" in the study');
  if (scene.layers[layer] === undefined)
    return wrong("The arrangement has no layer to search.", "a layer of pendants");
  if (request.kinds.length === 0) return wrong("There is no luminaire to try.", "at least one");
  const space = { ...usualSpace(study.display.length, island), ...request.space };
  const kinds = request.kinds.map((luminaire) => kindOf(luminaire, island));
  const {
    faces = false,
    heads = false,
    shielding = false,
    rules = [],
    load = true,
  } = request.constraints ?? {};
  const rows = { scene, layer, island, kinds, step: space.step };
  const grid = searchGrid(island, scene.zones, space.step);
  const mostRows = mostCandidates(grid.points.length / 3);
  const all = candidatesOf(space, kinds, island, mostRows);
  const { kept, leftOut: stopped } = keepingConstraints(all, rows, {
    rules,
    load,
    leastEnd: space.leastEnd,
    grain: grainOf(study.display.length),
  });
  const leftOut =
    all.length < mostRows
      ? [...tooLong(space, all, kinds, island.length, study.display.length), ...stopped]
      : stopped;
  const light = standingLight(scene, layer, kinds, grid, calculate, observer);
  const ranked = rankCandidates(
    {
      scene,
      layer,
      kinds,
      grid,
      light,
      requirements: grid.zones.map(({ zone }) => requirementsOf(study, zone)),
      ...(request.settings === undefined ? {} : { settings: soughtOf(request.settings, study, grid) }),
      confidence: request.confidence ?? 0.9,
      nearFieldError: study.options.nearFieldError,
    },
    kept,
    observer,
  );
  const proposals = proposalsOf(
    {
      ranked,
      rows,
      base: request.base,
      layer,
      check: request.check,
      objectives: request.objectives ?? OBJECTIVES,
      people: { faces, heads, shielding },
      wanted: request.wanted ?? 4,
      evenness: request.evenness ?? 0,
      unit: study.display.illuminance,
      length: study.display.length,
    },
    observer,
  );
  return success({
    ...proposals,
    candidates: all.length,
    promising: ranked.filter(
      ({ shortage, uniformity }) => shortage === 0 && uniformity >= (request.evenness ?? 0),
    ).length,
    leftOut,
    cutShort: all.length >= mostRows,
  });
}

/** Counts of which no row fits on the top. */
function tooLong(
  { counts, leastGap, leastEnd, about, along }: SearchSpace,
  all: readonly Candidate[],
  kinds: readonly Kind[],
  length: number,
  unit: LengthUnit,
): LeftOut[] {
  const fitting = new Set(all.map(({ count }) => count));
  const off = Math.min(...along.map((shift) => Math.abs(about[0] + shift)));
  const say = (metres: number): string => formatLength(metres, unit);
  const rim = Math.min(...kinds.map((kind) => kind.rim));
  return counts
    .filter((count) => !fitting.has(count))
    .map((count) => {
      const row = count * rim + (count - 1) * leastGap + 2 * leastEnd;
      const room =
        off > 0.0005
          ? `the ${say(length - 2 * off)} that ${say(off)} off the middle leave of a top of ${say(length)} (--along)`
          : `a top of ${say(length)}`;
      const why = `a row of ${count} with its least gaps and free ends (--count, --gap, --end) takes ${say(row)} of ${room}`;
      return { why, count, rows: 0, all: true };
    });
}

/** What each setting asks of the zones of the grid. */
function soughtOf(
  settings: readonly LightingSetting[],
  study: SearchRequest["study"],
  { zones }: SearchGrid,
): SoughtSetting[] {
  return settings.map(({ targets, find = "least power" }) => ({
    find,
    requirements: zones.map(({ zone }) => {
      const target = targets.get(zone.name);
      return requirementsOf(study, target === undefined ? zone : { target: target ?? undefined });
    }),
  }));
}
