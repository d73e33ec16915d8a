/**
 * Ceiling boxes: positions good for every pendant of a shortlist, each at its best height with every box displaced at
 * once in its worst direction; how far each planned box may be off; the ceiling as it was built.
 */

import { requirementsOf } from "../assessment/assess.ts";
import { type AsBuilt, plannedBoxes, readOffsets, replay } from "../design/boxes/as-built.ts";
import { type RobustBoxes, robustBoxes } from "../design/boxes/robust-boxes.ts";
import { type ToleranceRing, toleranceRings } from "../design/boxes/tolerance-ring.ts";
import { arrangementOf } from "../design/search/arrangement-of.ts";
import { kindOf, type SearchedLayer } from "../design/search/candidate.ts";
import { type Checked, checkedOf } from "../design/search/checked.ts";
import { keepingConstraints, overload } from "../design/search/constraints.ts";
import { searchGrid } from "../design/search/search-grid.ts";
import { candidatesOf, grainOf, type SearchSpace } from "../design/search/search-space.ts";
import { standingLight } from "../design/search/standing-light.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { failure, type Outcome, success } from "../diagnostics/issue.ts";
import { boxWidth } from "../scene/box-places.ts";
import { formatLength } from "../units/length-text.ts";
import { type StudyCheck, studyCheck } from "./full-check.ts";
import { arrangementIndex, layerIndex } from "./named-in-study.ts";
import type { OpenStudy } from "./open-document.ts";
import { LEAST_EVENNESS, type RowQuestion, rowsOf } from "./search.ts";

export interface BoxesOptions extends RowQuestion {
  /** How far a box may end up from its place (m), at most 0.3; 0.025 by default. */
  readonly error?: number;
}

/** Positions are counted in steps of the lattice. */
export interface BoxesFindings extends SearchedLayer {
  readonly error: number;
  /** Least evenness asked for. */
  readonly evenness: number;
  /** Best first. */
  readonly sets: readonly RobustBoxes[];
  /** The full check of the first set with each kind. */
  readonly checked: readonly Checked[];
  /** How far each planned box may be off. */
  readonly rings: readonly ToleranceRing[];
}

export async function boxPositions(
  opened: OpenStudy,
  options: BoxesOptions,
  observer: Observer = {},
): Promise<Outcome<BoxesFindings>> {
  const { study } = opened;
  const rows = rowsOf(opened, options);
  if (!rows.ok) return rows;
  const { index, scene, layer, space } = rows.value;
  const { island } = scene;
  if (island === undefined)
    return wrong("There is no island to hang pendants over.", '"island" in the study');
  const { error = 0.025, confidence, evenness = LEAST_EVENNESS, rules = [] } = options;
  if (!(error >= 0 && error <= 0.3))
    return wrong("The error is farther than any box is set out.", "at most 300 mm");
  const kinds = rows.value.kinds.map((luminaire) => kindOf(luminaire, island));
  if (kinds.length === 0) return wrong("There is no luminaire to try.", "at least one");
  const check = await studyCheck(opened, confidence, observer);
  const place = { island, scene, layer, kinds, step: space.step };
  const sets = robustSets(opened, place, space, { error, evenness, rules, confidence }, check);
  if (!sets.ok) return sets;
  const checked = checkedWithEach(opened, { ...place, index }, sets.value[0], check);
  const result = check.light(scene);
  const verdicts = check.verdicts(scene, result);
  const rings = toleranceRings(study, scene, result, verdicts, layer, check.observer);
  return success({ ...place, error, evenness, sets: sets.value, checked, rings });
}

/** What the ceiling as built does to every verdict, and the cheapest remedy.
 * @param offsets comma-separated text with columns number, along, across, up; or box, x, y, ceiling */
export async function builtBoxes(
  opened: OpenStudy,
  options: Pick<RowQuestion, "arrangement" | "layer" | "confidence">,
  offsets: { readonly text: string; readonly file: string },
  observer: Observer = {},
): Promise<Outcome<AsBuilt>> {
  const { study } = opened;
  const index = arrangementIndex(study.scenes, options.arrangement);
  if (!index.ok) return index;
  const scene = study.scenes[index.value];
  const layer = layerIndex(scene, options.layer);
  if (!layer.ok) return layer;
  const read = readOffsets(
    offsets.text,
    plannedBoxes(scene, layer.value),
    scene.island?.turn ?? 0,
    offsets.file,
  );
  if (!read.ok) return read;
  const check = await studyCheck(opened, options.confidence, observer);
  return success(
    replay(
      scene,
      layer.value,
      read.value,
      (each) => check.judge(each),
      (metres) => formatLength(metres, study.display.length),
    ),
  );
}

function robustSets(
  { study }: OpenStudy,
  rows: SearchedLayer,
  space: SearchSpace,
  {
    error,
    evenness,
    rules,
    confidence = 0.9,
  }: Pick<BoxesOptions, "confidence"> & Required<Pick<BoxesOptions, "error" | "evenness" | "rules">>,
  { calculate, observer }: StudyCheck,
): Outcome<readonly RobustBoxes[]> {
  const { island, scene, layer, kinds, step } = rows;
  // Positions must suit the widest: rows of each kind, kept where every kind keeps its distance.
  const widest = kinds.reduce((a, b) => (b.rim > a.rim ? b : a));
  const patterns = candidatesOf(
    { ...space, clearances: [space.clearances[0]], pairs: false },
    [widest],
    island,
  );
  // However far off it is set, a box keeps clear of joists and keep-outs: so does one as much wider on each side.
  const room = { ...scene.room, ceilingBox: boxWidth(scene.room) + 2 * error };
  const { kept } = keepingConstraints(
    patterns,
    { ...rows, scene: { ...scene, room }, kinds: [widest] },
    {
      rules,
      load: false,
      leastEnd: space.leastEnd,
      grain: grainOf(study.display.length),
    },
  );
  // Whichever of them hangs there is to be dimmed.
  const dimmed = kept.filter((row) =>
    kinds.every((_, k) => overload({ ...row, kinds: [k] }, rows) === undefined),
  );
  if (kept.length > 0 && dimmed.length === 0) {
    const why = kinds.flatMap((_, k) => overload({ ...kept[0], kinds: [k] }, rows) ?? []);
    return wrong(`No row of them keeps the dimmer's load: ${why[0]}.`, "other counts, luminaires or dimmer");
  }
  const grid = searchGrid(island, scene.zones, step);
  const sets = robustBoxes(
    {
      scene,
      layer,
      kinds,
      grid,
      light: standingLight(scene, layer, kinds, grid, calculate, observer),
      requirements: grid.zones.map(({ zone }) => requirementsOf(study, zone)),
      confidence,
      nearFieldError: study.options.nearFieldError,
      clearances: space.clearances,
      error,
      evenness,
    },
    dimmed,
    observer,
  );
  return success(sets);
}

/** The full check of a set of boxes with every kind at its best height. */
function checkedWithEach(
  { document }: OpenStudy,
  rows: SearchedLayer & { readonly index: number },
  set: RobustBoxes | undefined,
  check: StudyCheck,
): readonly Checked[] {
  const { kinds, layer, index } = rows;
  return (set?.kinds ?? []).flatMap(({ kind, clearance }): Checked[] => {
    check.observer.progress?.("checking in full", kind / kinds.length);
    const boxes = (set as RobustBoxes).boxes;
    const name = `${boxes.count} × ${kinds[kind].luminaire.name.slice(0, 60)}`;
    const row = { ...boxes, kinds: [kind] as const, clearance };
    const written = arrangementOf(row, document.arrangements[index], layer, name, rows);
    const resolved = check.resolve(written);
    return resolved.ok ? [checkedOf(written, resolved.value, check)] : [];
  });
}

function wrong<T>(message: string, expected: string): Outcome<T> {
  return failure({ code: "boxes", message, expected });
}
