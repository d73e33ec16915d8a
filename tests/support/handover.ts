/** Hand-overs of small kitchens, lit by the textbook's point sources; and kitchens drawn at random. */

import fc from "fast-check";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { refinedPlanes } from "../../src/app/refined-planes.ts";
import { RecentCache } from "../../src/numerics/recent-cache.ts";
import {
  type Handover,
  type HandoverOption,
  handoverFacts,
  handoverOption,
} from "../../src/papers/handover.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { type Json, kitchen, resolved } from "./studies.ts";
import { textbookAssessment } from "./textbook-verdicts.ts";
import { textbookResult } from "./tiny-scene.ts";

/** Of a study, in whatever units and on whatever paper it is handed over. */
const litStudies = new RecentCache<ReturnType<typeof litStudy>>(8);

function litStudy(document: Json) {
  const study = resolved(document);
  return { ...handoverFacts(study), options: study.scenes.map((scene) => optionOf(study, scene)) };
}

export function handoverOf(document: Json, more: Partial<Handover> = {}): Handover {
  const text = JSON.stringify(document);
  litStudies.turn();
  return {
    ...litStudies.get(text, () => litStudy(JSON.parse(text))),
    chosen: 0,
    lamps: new Map(),
    paper: "A4",
    unit: "mm",
    illuminance: "lx",
    revision: "A",
    date: "2024-05-01",
    fingerprint: "abc12345",
    version: "0.0.0",
    ...more,
  };
}

/** Drawn on cells of 100 mm. */
function optionOf(study: ResolvedStudy, scene: Scene): HandoverOption {
  const refined = refinedPlanes(scene.planes, 0.1);
  const contours = refined.contours(scene, textbookResult({ ...scene, planes: refined.planes }).planes);
  const assessment = textbookAssessment(study, scene, textbookResult(scene));
  return handoverOption({ scene, assessment, contours, clashes: clashes(scene) });
}

/** Kitchens of any size a house has: turned islands, sloped ceilings, odd places to a tenth of a millimetre. */
export const kitchens: fc.Arbitrary<Json> = fc
  .record({
    length: fc.double({ min: 3.2, max: 9, noNaN: true }),
    width: fc.double({ min: 3, max: 6, noNaN: true }),
    ceiling: fc.double({ min: 2.3, max: 3.4, noNaN: true }),
    slope: fc.constantFrom(0, 0, 12.5, 30),
    towards: fc.constantFrom(0, 90, 180, 270, 33),
    turn: fc.constantFrom(0, 0, 90, -90, 17.3, 3),
    island: fc.double({ min: 1.2, max: 2.4, noNaN: true }),
    depth: fc.double({ min: 0.7, max: 1.2, noNaN: true }),
    top: fc.double({ min: 0.76, max: 1.07, noNaN: true }),
    count: fc.integer({ min: 1, max: 4 }),
    clearance: fc.double({ min: 0.6, max: 0.95, noNaN: true }),
    offset: fc.constantFrom(0, 0, 0.0437),
    columns: fc.integer({ min: 1, max: 4 }),
    rows: fc.integer({ min: 1, max: 3 }),
  })
  .map((r) =>
    kitchen({
      room: {
        length: r.length,
        width: r.width,
        ceilingHeight: r.ceiling,
        ceiling: { slope: r.slope, towards: r.towards },
      },
      island: {
        centre: [r.length / 2 + 0.0123, r.width / 2 - 0.0077],
        length: r.island,
        width: r.depth,
        height: r.top,
        turn: r.turn,
      },
      arrangements: [
        {
          name: "drawn",
          layers: [
            {
              name: "pendants",
              luminaire: "dome",
              // Pendants 300 mm wide that do not stand in one another.
              row: {
                count: Math.min(r.count, Math.floor(r.island / 0.4)),
                clearance: r.clearance,
                offset: [0, r.offset],
              },
            },
            {
              name: "ambient",
              luminaire: "spot",
              grid: { columns: r.columns, rows: r.rows, margin: 0.6123 },
            },
          ],
        },
      ],
    }),
  );
