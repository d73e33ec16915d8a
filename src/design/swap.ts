/**
 * Another luminaire or lamp in place of the one that was planned: what becomes of every verdict, and the words that keep
 * it from happening unasked.
 *
 * The substitute hangs from the boxes of the planned one (same places, same clearance above the top) and is judged by the same path: a
 * row given by its gaps or its free ends keeps the spacing they gave the planned luminaires.
 */

import { loadReport } from "../advice/load.ts";
import type { Check, ZoneAssessment } from "../assessment/assessment.ts";
import { VERDICT_RANK, type Verdict } from "../assessment/verdict.ts";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { cutOutFault } from "../luminaire/cut-out-fault.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { relamped } from "../luminaire/with-lamp-flux.ts";
import { depthBeyondVoid, isSetIn } from "../scene/recess-depth.ts";
import type { Scene } from "../scene/scene.ts";
import { withLuminaires } from "../scene/with-hanging.ts";
import type { ArrangementDocument, LayerDocument } from "../study/arrangement-schema.ts";
import { type Checked, checkedOf, type FullCheck } from "./search/checked.ts";

export interface Swap {
  readonly layer: string;
  readonly planned: Luminaire;
  readonly instead: Luminaire;
  readonly before: Checked;
  readonly after: Checked;
  /** Zones whose verdict or figure changes, worst first. */
  readonly changes: readonly {
    readonly zone: string;
    readonly before: Verdict;
    readonly after: Verdict;
    /** The check that tells most. */
    readonly check?: { readonly before: Check; readonly after: Check };
  }[];
  /** What differs between the two luminaires, in words. */
  readonly differs: readonly string[];
  /** What the other luminaire's size does to the row, in warnings that the plan does not have. */
  readonly placement: readonly Issue[];
  /** What the other luminaire lacks to sit in the ceiling as the planned one does, clauses of which it is the subject. */
  readonly setting: readonly string[];
  /** What the other loads the layer's dimmer beyond, in words; undefined where it does not, or the planned one does too. */
  readonly dimmer: string | undefined;
  /** For the order. */
  readonly order: string;
}

/** @param instead a luminaire's name, or the share of the planned one's light that another lamp or trim leaves */
export function swap(
  base: ArrangementDocument,
  layer: number,
  luminaires: ReadonlyMap<string, Luminaire>,
  instead: string | number,
  check: FullCheck,
): Outcome<Swap> {
  const written = base.layers[layer];
  const planned = written === undefined ? undefined : luminaires.get(written.luminaire);
  const other =
    typeof instead === "string"
      ? luminaires.get(instead)
      : planned === undefined
        ? undefined
        : {
            ...relamped(planned, instead),
            // A trim takes light, not power; another lamp's power is its own and is for the order to say.
            ...(planned.watts === undefined ? {} : { watts: planned.watts }),
            name: `${planned.name} with ${Math.round(100 * instead)} % of its light`,
          };
  if (planned === undefined || other === undefined)
    return failure({
      code: "substitution",
      message: "There is no such luminaire.",
      expected: [...luminaires.keys()].join(", "),
      received: JSON.stringify(instead),
    });
  const first = check.resolve(base);
  if (!first.ok) return failure(...first.issues);
  const swapped: ArrangementDocument = {
    ...base,
    name: `${base.name.slice(0, 90)}, ${other.name.slice(0, 90)} instead`,
    layers: base.layers.map((each, l) =>
      l === layer && typeof instead === "string"
        ? { ...inPlace(each, first.value, layer), luminaire: instead }
        : each,
    ),
  };
  const second = check.resolve(swapped);
  if (!second.ok) return failure(...second.issues);
  const before = checkedOf(base, first.value, check);
  const dimmer = typeof instead === "number" ? inLayer(second.value, layer, other) : second.value;
  const after = checkedOf(swapped, dimmer, check);
  const changes = after.assessment.zones
    .flatMap((zone, z) => {
      const was = before.assessment.zones[z];
      return was === undefined ? [] : [changeOf(was, zone)];
    })
    .sort(
      (a, b) =>
        VERDICT_RANK[b.after] - VERDICT_RANK[b.before] - (VERDICT_RANK[a.after] - VERDICT_RANK[a.before]),
    );
  return success({
    layer: written.name,
    planned,
    instead: other,
    before,
    after,
    changes,
    differs: differences(planned, other),
    placement: second.warnings.filter(
      ({ code, message }) =>
        code.startsWith("row-") && !first.warnings.some((each) => each.message === message),
    ),
    setting:
      typeof instead === "string" ? settingWords(first.value, second.value, layer, planned, other) : [],
    dimmer: overloadWords(before.scene, layer) === undefined ? overloadWords(after.scene, layer) : undefined,
    order: orderWords(planned, other, changes),
  });
}

/** What a layer loads its dimmer beyond. */
function overloadWords(scene: Scene, layer: number): string | undefined {
  const load = loadReport(scene).layers.find(({ layer: name }) => name === scene.layers[layer].name)?.dimmer;
  return load === undefined || load.outcome === "within" || load.outcome === "not known"
    ? undefined
    : load.words;
}

/** The layer with its row's spacing in plain figures where gaps or free ends gave it. */
function inPlace(written: LayerDocument, scene: Scene, layer: number): LayerDocument {
  const { row } = written;
  if (row === undefined || (row.gap === undefined && row.end === undefined)) return written;
  const { gap: _, end: __, ...rest } = row;
  const [a, b] = scene.layers[layer].luminaires.map(({ frame: { origin } }) => origin);
  if (b === undefined) return { ...written, row: rest };
  return { ...written, row: { ...rest, spacing: Math.hypot(b[0] - a[0], b[1] - a[1]) } };
}

function inLayer(scene: Scene, layer: number, luminaire: Luminaire): Scene {
  const luminaires = scene.layers[layer].luminaires.map((placed) => ({ ...placed, luminaire }));
  return withLuminaires(scene, layer, luminaires);
}

function changeOf(was: ZoneAssessment, is: ZoneAssessment): Swap["changes"][number] {
  const index = is.checks.findIndex(({ verdict }) => verdict === is.verdict);
  const [before, after] = [was.checks[index], is.checks[index]];
  return {
    zone: is.name,
    before: was.verdict,
    after: is.verdict,
    ...(before === undefined || after === undefined ? {} : { check: { before, after } }),
  };
}

function differences(a: Luminaire, b: Luminaire): string[] {
  const out = [`${b.flux.toFixed(0)} lm instead of ${a.flux.toFixed(0)} lm`];
  const say = (what: string, x: number | undefined, y: number | undefined, unit: string): void => {
    if (x !== undefined && y !== undefined && x !== y) out.push(`${what}${y}${unit} instead of ${x}${unit}`);
  };
  say("", a.watts, b.watts, " W");
  say("", a.cct, b.cct, " K");
  say("colour rendering ", a.cri, b.cri, "");
  return out;
}

function settingWords(
  before: Scene,
  after: Scene,
  layer: number,
  planned: Luminaire,
  other: Luminaire,
): string[] {
  const places = after.layers[layer].luminaires;
  if (!before.layers[layer].luminaires.some((placed) => isSetIn(before, placed))) return [];
  const { cutOut, suspension, suspensions, canopy } = other;
  const isOther = JSON.stringify(cutOut) !== JSON.stringify(planned.cutOut);
  const fault = cutOutFault(
    other,
    places.some((placed) => isSetIn(after, placed)),
  );
  const why = { small: "which its body does not pass", large: "which no flange covers" };
  const faulty = fault === undefined ? "" : `, ${why[fault]}`;
  const hangs = suspension !== undefined || suspensions !== undefined || canopy !== undefined;
  return [
    ...(cutOut === undefined ? ["has no cut-out stated"] : isOther ? [`takes another cut-out${faulty}`] : []),
    ...(hangs ? [`hangs on ${suspension === undefined ? "something of its own" : `a ${suspension}`}`] : []),
    ...(after.room.ceilingVoid !== undefined &&
    places.some((placed) => depthBeyondVoid(after, placed) !== undefined)
      ? ["goes deeper than there is room above it"]
      : []),
  ];
}

/** `Order dome: 1150 lm, 12 W, 2700 K, CRI 92. No other in its place without asking: …` */
export function orderWords(planned: Luminaire, instead: Luminaire, changes: Swap["changes"]): string {
  const facts = [
    `${planned.flux.toFixed(0)} lm`,
    ...(planned.watts === undefined ? [] : [`${planned.watts} W`]),
    ...(planned.cct === undefined ? [] : [`${planned.cct} K`]),
    ...(planned.cri === undefined ? [] : [`colour rendering ${planned.cri}`]),
    ...(planned.colour === undefined ? [] : [planned.colour]),
    ...(planned.finish === undefined ? [] : [planned.finish]),
  ];
  const worse = changes.filter((change) => VERDICT_RANK[change.after] > VERDICT_RANK[change.before]);
  const order = `Order ${planned.name}: ${facts.join(", ")}.`;
  if (worse.length === 0)
    return `${order} ${instead.name} in its place makes no verdict worse; ask before any other.`;
  const why = worse
    .map(({ zone, after }) => `${zone} ${after === "falls short" ? after : "becomes too close to call"}`)
    .join(", ");
  return `${order} No other in its place without asking: with ${instead.name} in its place ${why}.`;
}
