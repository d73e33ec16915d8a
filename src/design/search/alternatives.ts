/** What a proposal could be instead: where it was before it is shifted, with one pendant fewer, dimmed to the least that meets. */

import { isMet } from "../../assessment/verdict.ts";
import type { Scene } from "../../scene/scene.ts";
import type { ArrangementDocument } from "../../study/arrangement-schema.ts";
import type { IlluminanceUnit } from "../../units/illuminance-text.ts";
import { arrangementOf, sortOf } from "./arrangement-of.ts";
import type { RowLattice } from "./candidate.ts";
import { type Checked, type CheckedRow, checkedOf, type FullCheck, lossOf } from "./checked.ts";
import type { CandidateFigures } from "./ranking.ts";

export interface Alternatives {
  /** Shifted off the joists: the same row unshifted, and what the shift does to its light, in words. */
  readonly unshifted?: { readonly does: string };
  /** The best with one pendant fewer, and what it loses, in words. */
  readonly skipOne?: Checked & { readonly loses: string };
  /** Dimmed as far as the targets allow. */
  readonly dimmed?: Checked & { readonly dims: readonly number[]; readonly saves: number };
}

export interface AlternativesRequest {
  readonly ranked: readonly CandidateFigures[];
  readonly rows: RowLattice;
  readonly base: ArrangementDocument;
  readonly layer: number;
  readonly check: FullCheck;
  /** Rows that were checked before. */
  readonly known: Map<CandidateFigures, Checked>;
  /** In which light is said in words; lx by default. */
  readonly unit?: IlluminanceUnit;
}

/** All but the dimmed. */
export function alternativesOf(row: CheckedRow, request: AlternativesRequest): Omit<Alternatives, "dimmed"> {
  const skipOne = withoutOne(row, request);
  return {
    ...(skipOne === undefined ? {} : { skipOne }),
    ...(row.figures.candidate.planned === undefined ? {} : { unshifted: unshiftedOf(row, request) }),
  };
}

/** A row with what it comes to dimmed: asked right after its check, while its light is remembered. */
export function withDimmed<T extends Checked>(row: T, check: FullCheck): T & Pick<Alternatives, "dimmed"> {
  const dimmed = isMet(row.assessment.verdict) ? dimmedOf(row, check) : undefined;
  return dimmed === undefined ? row : { ...row, dimmed };
}

/** What the shift off the joists does to the light. */
function unshiftedOf(
  each: CheckedRow,
  { rows, base, layer, check, unit }: AlternativesRequest,
): { does: string } {
  const { candidate } = each.figures;
  const document = arrangementOf(candidate.planned ?? candidate, base, layer, each.document.name, rows);
  const resolved = check.resolve(document);
  if (!resolved.ok) return { does: "against the row without it nothing can be said" };
  return { does: lossOf(checkedOf(document, resolved.value, check), each, unit) };
}

/** The best row of the same kinds with one pendant fewer, checked, and what is lost. */
function withoutOne(
  each: CheckedRow,
  { ranked, rows, base, layer, check, known, unit }: AlternativesRequest,
): Alternatives["skipOne"] {
  const { candidate } = each.figures;
  let best: CandidateFigures | undefined;
  for (const other of ranked) {
    const { count, kinds } = other.candidate;
    // Of two kinds in turn, one pendant fewer may be all of one kind.
    const all: readonly number[] = candidate.kinds;
    if (count !== candidate.count - 1 || !kinds.every((k) => all.includes(k as number))) continue;
    if (
      best === undefined ||
      other.shortage < best.shortage ||
      (other.shortage === best.shortage && other.uniformity > best.uniformity)
    )
      best = other;
  }
  if (best === undefined) return undefined;
  const document = arrangementOf(best.candidate, base, layer, `${sortOf(best, rows)}, one fewer`, rows);
  const resolved = check.resolve(document);
  if (!resolved.ok) return undefined;
  const before = known.get(best);
  const fewer =
    before === undefined
      ? checkedOf(document, resolved.value, check)
      : renamed(before, document, resolved.value);
  known.set(best, fewer);
  return { ...fewer, loses: lossOf(each, fewer, unit) };
}

/** The same row under the name of another document. */
function renamed(checked: Checked, document: ArrangementDocument, scene: Scene): Checked {
  return { ...checked, document, scene, assessment: { ...checked.assessment, name: scene.name } };
}

/** Least share of power that dimming must save to be worth saying. */
const WORTH = 0.05;
/** Nobody hangs pendants to leave them dark. */
const LEAST_OF_PENDANTS = 0.1;

function dimmedOf(each: Checked, check: FullCheck): Alternatives["dimmed"] {
  const { layers } = each.scene;
  const floors = layers.map(({ role }) => (role === "pendant" ? LEAST_OF_PENDANTS : 0));
  const dims = check.leastPower(each.scene, floors);
  if (dims === undefined || dims.every((dim, l) => dim >= layers[l].dim)) return undefined;
  const document: ArrangementDocument = {
    ...each.document,
    name: `${each.document.name}, dimmed`,
    layers: each.document.layers.map((layer, l) => ({ ...layer, dim: dims[l] ?? layer.dim })),
  };
  const resolved = check.resolve(document);
  if (!resolved.ok) return undefined;
  const dimmed = checkedOf(document, resolved.value, check);
  const saves = 1 - dimmed.assessment.energy.watts / each.assessment.energy.watts;
  // Settings have levels of their own, so that their verdict says nothing of these.
  const verdicts = [dimmed.assessment.verdict, ...dimmed.assessment.zones.map(({ verdict }) => verdict)];
  if (!verdicts.every(isMet) || !(saves >= WORTH)) return undefined;
  return { ...dimmed, dims, saves };
}
