/** A candidate as an arrangement of the study document, so that it is resolved, checked, drawn and saved like any other. */

import type { ArrangementDocument, LayerDocument } from "../../study/arrangement-schema.ts";
import { degrees } from "../../units/quantities.ts";
import { type Candidate, centreOf, kindAt, offsetOf, type RowLattice } from "./candidate.ts";
import type { CandidateFigures } from "./ranking.ts";

/** The arrangement `base` with the candidate in its layer number `layer`; a row where one kind hangs, else places. */
export function arrangementOf(
  candidate: Candidate,
  base: ArrangementDocument,
  layer: number,
  name: string,
  rows: RowLattice,
): ArrangementDocument {
  const { island, kinds, step } = rows;
  const { luminaire: _l, row: _r, grid: _g, at: _a, ...kept } = base.layers[layer];
  const first = kinds[candidate.kinds[0]];
  const about = { ...kept, role: "pendant" as const };
  const hung: LayerDocument[] =
    candidate.kinds.length === 1
      ? [
          {
            ...about,
            luminaire: first.luminaire.name,
            row: {
              count: candidate.count,
              ...(candidate.count === 1 ? {} : { spacing: exact(candidate.pitch * step) }),
              clearance: exact(candidate.clearance),
              offset: offsetOf(candidate, step).map(exact) as [number, number],
              turn: degrees(first.turn),
            },
          },
        ]
      : candidate.kinds.map((k, turn) => ({
          ...about,
          name: turn === 0 ? about.name : besides(about.name, base),
          luminaire: kinds[k as number].luminaire.name,
          at: Array.from({ length: candidate.count }, (_, i) => i)
            .filter((i) => kindAt(candidate, i) === k)
            .map((i) => {
              const [x, y, z] = centreOf(candidate, i, rows);
              return {
                position: [exact(x), exact(y), exact(z)] as [number, number, number],
                turn: degrees(island.turn + kinds[k as number].turn),
              };
            }),
        }));
  const { note: _n, ...rest } = base;
  return { ...rest, name, layers: base.layers.flatMap((each, i) => (i === layer ? hung : [each])) };
}

/** A tenth of a micrometre: no tool sets out finer, and the file stays readable. */
function exact(metres: number): number {
  return Math.round(metres * 1e7) / 1e7;
}

function besides(name: string, { layers }: ArrangementDocument): string {
  let other = `${name}, second kind`;
  while (layers.some((layer) => layer.name === other)) other += " more";
  return other;
}

/** Rows of one sort differ in spacing and height alone. */
export function sortOf({ candidate }: CandidateFigures, { kinds }: RowLattice): string {
  // A name of an arrangement is short, whatever the luminaires are called.
  const names = candidate.kinds.map((k) => kinds[k as number].luminaire.name.slice(0, 60));
  return `${candidate.count} × ${names.join(" and ")}`;
}
