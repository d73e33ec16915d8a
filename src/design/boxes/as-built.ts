/**
 * The ceiling as it was built: boxes where they really are, the verdict that gives, and the cheapest thing that puts it
 * right.
 *
 * Remedies in the order of what they cost, ours, no source: dimmers up; all pendants hung a little lower or higher;
 * lamps of a quarter more light; one pendant, then all, led back over their places (a cord from a hook, a rod on an
 * offset bar); boxes moved. Each is judged in full; the first that gives back the planned verdict is the cheapest.
 */

import { addedClashes } from "../../advice/clashes/added-clashes.ts";
import type { Clash } from "../../advice/clashes/clash.ts";
import { clashes } from "../../advice/clashes/clashes.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { VERDICT_RANK } from "../../assessment/verdict.ts";
import { failure, type Issue, type Outcome, type Phrase, success } from "../../diagnostics/issue.ts";
import { phrase } from "../../diagnostics/phrase.ts";
import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import { highestPoint } from "../../luminaire/extent.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { pendantBoxAt } from "../../luminaire/suspension-points.ts";
import { relamped } from "../../luminaire/with-lamp-flux.ts";
import { boxTags } from "../../scene/ceiling-boxes.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import { islandDirection } from "../../scene/island-frame.ts";
import type { Scene } from "../../scene/scene.ts";
import { LEAST_OVERHANG, topOverhang } from "../../scene/top-overhang.ts";
import { withLuminaires } from "../../scene/with-hanging.ts";
import { meantLength, readMetres } from "../../units/read-length.ts";
import { lineFault, readCsv } from "../verify/csv-reader.ts";

/** Where a pendant of the layer really hangs, against the plan (m): along and across the island, up. */
export interface BuiltOffset {
  readonly index: number;
  readonly along: number;
  readonly across: number;
  readonly up: number;
}

export interface Remedy {
  readonly words: string;
  readonly assessment: ArrangementAssessment;
  /** Whether it gives back the planned verdict, or better. */
  readonly restores: boolean;
}

export interface AsBuilt {
  readonly planned: ArrangementAssessment;
  readonly built: ArrangementAssessment;
  readonly scene: Scene;
  readonly layer: number;
  /** What cannot hang as planned, as built, and as built but not as planned. */
  readonly clashes: Readonly<Record<"planned" | "built" | "added", readonly Clash[]>>;
  /** Pendants that reach farther beyond the edge of the top than planned (m). */
  readonly overhangs: readonly { readonly index: number; readonly by: number }[];
  /** Whether the verdict suffered. */
  readonly worse: boolean;
  /** Those tried, the cheapest first; the last one restores, if any does. */
  readonly remedies: readonly Remedy[];
}

/** Either offsets of the pendants in the island's frame, or places of their boxes as the set-out sheet has them measured. */
const OFFSETS = ["number", "along", "across", "up"];
const PLACES = ["box", "x", "y", "ceiling"];
/** Nobody measures a box farther off than this (m). */
const FARTHEST = 3;

/** What was planned of the pendants of a layer, for places measured in the room (m). */
export interface PlannedBox {
  /** As on paper. */
  readonly tag: string;
  readonly at: Vec2;
  readonly ceiling: number;
}

export function plannedBoxes(scene: Scene, layer: number): PlannedBox[] {
  const tag = boxTags(scene);
  return scene.layers[layer].luminaires.map((placed, index) => {
    const at = pendantBoxAt(placed);
    return { tag: tag([layer, index]), at, ceiling: ceilingAt(scene.room, ...at) };
  });
}

/** Offsets as comma-separated text: columns `number` (counted from 1), `along`, `across`, perhaps `up`; or `box` (its tag), `x`, `y` from the
 * finished faces of walls 3 and 0, perhaps `ceiling` (its height there: on the planned drop the pendant then hangs as much higher). What is
 * left blank is as planned. @param turn of the island (rad) */
export function readOffsets(
  text: string,
  planned: readonly PlannedBox[],
  turn: number,
  file?: string,
): Outcome<BuiltOffset[]> {
  const table = readCsv(text, file);
  if (!table.ok) return table;
  const { header, rows } = table.value;
  const names = header.map((name) => name.trim().toLowerCase());
  const issues: Issue[] = [];
  const at = (line: number) => ({ ...(file === undefined ? {} : { file }), line });
  const fault = (line: number, message: string, expected?: Phrase, received?: Phrase): void => {
    issues.push(lineFault("offsets", at(line), message, expected, received));
  };
  const columns = names.some((name) => PLACES.includes(name)) ? PLACES : OFFSETS;
  for (const name of names)
    if (!columns.includes(name))
      fault(1, "A column is not known.", `${OFFSETS.join(", ")}; or ${PLACES.join(", ")}`, name);
  for (const name of columns.slice(0, 3))
    if (!names.includes(name)) fault(1, `The column "${name}" is missing.`);
  if (issues.length > 0) return failure(...issues);
  const seen = new Set<number>();
  // One unit left out is left out of the whole sheet, and told once.
  let unitless = 0;
  const offsets = rows.flatMap(({ fields, line }): BuiltOffset[] => {
    const cell = (name: string): string => (fields[names.indexOf(name)] ?? "").trim();
    const length = (name: string, from: number): number => {
      const raw = cell(name);
      if (/^[.…]*$/.test(raw)) return 0;
      const read = readMetres(raw);
      if (read.ok && Math.abs(read.metres - from) <= FARTHEST) return read.metres - from;
      const meant = meantLength(raw, from, FARTHEST);
      if (meant !== undefined && unitless++ > 0) return 0;
      fault(
        line,
        `The column "${name}" holds no ${columns === PLACES ? "place" : "offset"}.${meant === undefined ? "" : ` Did you mean "${meant}"? Write the unit in every line: without one it is metres.`}`,
        columns === PLACES
          ? phrase`metres, or a unit, within ${FARTHEST} of ${from}`
          : phrase`metres, or a unit, at most ${FARTHEST}`,
        raw,
      );
      return 0;
    };
    const [first] = columns;
    const which = cell(first);
    const named = planned.findIndex(({ tag }) => tag.toLowerCase() === which.toLowerCase());
    // Papers name a box by its tag, whichever columns are filled in.
    const index =
      named < 0 && columns === OFFSETS && /^\d{1,4}$/.test(which) && Number(which) <= planned.length
        ? Number(which) - 1
        : named;
    const box = planned[index] as PlannedBox | undefined;
    if (box === undefined) {
      const tags = planned.map(({ tag }) => tag).join(", ");
      const numbers = columns === PLACES ? tags : `1 to ${planned.length}, or ${tags}`;
      const others = "; those of another layer in a file of their own, with --layer";
      fault(line, "There is no such pendant in this layer.", numbers + others, which);
      return [];
    }
    if (seen.has(index)) fault(line, "A pendant is given twice.", undefined, which);
    seen.add(index);
    if (columns === OFFSETS)
      return [{ index, along: length("along", 0), across: length("across", 0), up: length("up", 0) }];
    const [x, y] = [length("x", box.at[0]), length("y", box.at[1])];
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return [{ index, along: c * x + s * y, across: c * y - s * x, up: length("ceiling", box.ceiling) }];
  });
  return issues.length > 0 ? failure(...issues) : success(offsets);
}

/** The scene with the layer's luminaires where they were built. */
export function builtScene(scene: Scene, layer: number, offsets: readonly BuiltOffset[]): Scene {
  const { island } = scene;
  return moved(scene, layer, (placed, index) => {
    const offset = offsets.find((each) => each.index === index);
    if (offset === undefined) return placed.frame.origin;
    const [x, y, z] = placed.frame.origin;
    const level = [offset.along, offset.across] as const;
    const [dx, dy] = island === undefined ? level : islandDirection(island, level);
    return [x + dx, y + dy, z + offset.up];
  });
}

function moved(scene: Scene, layer: number, to: (placed: PlacedLuminaire, index: number) => Vec3): Scene {
  const luminaires = scene.layers[layer].luminaires.map((placed, index) => ({
    ...placed,
    frame: { ...placed.frame, origin: to(placed, index) },
  }));
  return withLuminaires(scene, layer, luminaires);
}

const HANGS = [-0.05, 0.05, -0.1, 0.1];
const STRONGER = 1.25;

/** @param judge the path every arrangement takes @param length how a length is said */
export function replay(
  plan: Scene,
  layer: number,
  offsets: readonly BuiltOffset[],
  judge: (scene: Scene) => ArrangementAssessment,
  length: (metres: number) => string,
): AsBuilt {
  const scene = builtScene(plan, layer, offsets);
  const planned = judge(plan);
  const built = judge(scene);
  const [before, after] = [clashes(plan), clashes(scene)];
  const worse = VERDICT_RANK[built.verdict] > VERDICT_RANK[planned.verdict];
  const remedies: Remedy[] = [];
  if (worse)
    for (const { words, scene: tried } of remediesOf(plan, scene, layer, offsets, length)) {
      const assessment = judge(tried);
      const restores = VERDICT_RANK[assessment.verdict] <= VERDICT_RANK[planned.verdict];
      remedies.push({ words, assessment, restores });
      if (restores) break;
    }
  return {
    planned,
    built,
    scene,
    layer,
    clashes: { planned: before, built: after, added: addedClashes(before, after) },
    overhangs: overhangs(plan, scene, layer),
    worse,
    remedies,
  };
}

function overhangs(plan: Scene, built: Scene, layer: number): AsBuilt["overhangs"] {
  return built.layers[layer].luminaires.flatMap((placed, index) => {
    const by = topOverhang(built.island, placed);
    const planned = topOverhang(plan.island, plan.layers[layer].luminaires[index]);
    return by > planned + LEAST_OVERHANG ? [{ index, by }] : [];
  });
}

function* remediesOf(
  plan: Scene,
  built: Scene,
  layer: number,
  offsets: readonly BuiltOffset[],
  length: (metres: number) => string,
): Generator<{ readonly words: string; readonly scene: Scene }> {
  if (built.layers.some(({ dim }) => dim < 1))
    yield {
      words: "Turn the dimmers up to full.",
      scene: { ...built, layers: built.layers.map((each) => ({ ...each, dim: 1 })) },
    };
  for (const rise of HANGS) {
    const scene = moved(built, layer, ({ frame: { origin } }) => [origin[0], origin[1], origin[2] + rise]);
    if (!underCeiling(scene, layer)) continue;
    yield { words: `Hang all of them ${length(Math.abs(rise))} ${rise > 0 ? "higher" : "lower"}.`, scene };
  }
  yield {
    words: "Fit lamps of a quarter more light, if the luminaire's marking allows them.",
    scene: withLuminaires(
      built,
      layer,
      built.layers[layer].luminaires.map((placed) => ({ ...placed, luminaire: stronger(placed) })),
    ),
  };
  const tag = boxTags(plan);
  const farthest = [...offsets].sort((a, b) => Math.hypot(b.along, b.across) - Math.hypot(a.along, a.across));
  const back = (indices: ReadonlySet<number>): Scene =>
    moved(built, layer, ({ frame: { origin } }, index) =>
      indices.has(index) ? plan.layers[layer].luminaires[index].frame.origin : origin,
    );
  const how = (index: number): string =>
    plan.layers[layer].luminaires[index].luminaire.suspension === "rod"
      ? "on an offset bar"
      : "from a hook over its place";
  const [first] = farthest;
  if (first !== undefined)
    yield {
      words: `Hang ${tag([layer, first.index])} ${how(first.index)}.`,
      scene: back(new Set([first.index])),
    };
  if (farthest.length > 1)
    yield {
      words: `Hang ${farthest.map(({ index }) => tag([layer, index])).join(", ")} over their places, or move their boxes there.`,
      scene: back(new Set(farthest.map(({ index }) => index))),
    };
}

const lamps = new WeakMap<PlacedLuminaire["luminaire"], PlacedLuminaire["luminaire"]>();

function stronger({ luminaire }: PlacedLuminaire): PlacedLuminaire["luminaire"] {
  const lamp = lamps.get(luminaire) ?? relamped(luminaire, STRONGER);
  lamps.set(luminaire, lamp);
  return lamp;
}

function underCeiling({ layers, room }: Scene, layer: number): boolean {
  return layers[layer].luminaires.every(({ luminaire, frame: { origin, rotation } }) => {
    const top = origin[2] + Math.max(0, highestPoint(luminaire, rotation));
    return top <= ceilingAt(room, origin[0], origin[1]);
  });
}
