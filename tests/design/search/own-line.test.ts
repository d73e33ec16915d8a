/**
 * Rows are searched about the line of the row that is drawn, and no pendant is proposed beside the top. The top here is an L whose box has its
 * middle 50 mm from the inner edge: a row about that middle would hang over the aisle. Which place is over the top is worked out by hand.
 */
import { describe, expect, it } from "vitest";
import { boxPositions } from "../../../src/app/boxes.ts";
import { openDocument } from "../../../src/app/open-document.ts";
import { searchRows } from "../../../src/app/search.ts";
import { stationOf } from "../../../src/design/search/candidate.ts";
import { islandToRoom } from "../../../src/scene/island-frame.ts";
import { type Json, kitchen, L_OUTLINE } from "../../support/studies.ts";

async function opened(row: Json, joists: Json = {}) {
  const study = kitchen({
    room: { length: 5.4, width: 4.2, ceilingHeight: 2.7, ...joists },
    island: { centre: [2.7, 2.1], height: 0.92, outline: L_OUTLINE },
    calculation: { interreflection: false },
  }) as { arrangements: { layers: Json[] }[] };
  study.arrangements[0].layers[0] = { ...study.arrangements[0].layers[0], row };
  const outcome = await openDocument(study);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const OWN = { count: 3, clearance: 0.8, offset: [0, -0.4] };
const QUESTION = { counts: [3], clearances: [0.8], wanted: 1, evenness: 0 };

describe("on an L", () => {
  it("arrange keeps the row's own line", async () => {
    const found = await searchRows(await opened(OWN), QUESTION);
    if (!found.ok) throw new Error(JSON.stringify(found.issues));
    const { proposals } = found.value.result;
    expect(proposals.map(({ document }) => document.layers[0].row?.offset)).toEqual([[0, -0.4]]);
  });

  it("boxes keep it too", async () => {
    const found = await boxPositions(await opened(OWN), QUESTION);
    if (!found.ok) throw new Error(JSON.stringify(found.issues));
    const { sets, step } = found.value;
    expect(sets.length).toBeGreaterThan(0);
    for (const { boxes } of sets) expect(boxes.across * step).toBeCloseTo(-0.4, 9);
  });

  // 2026-11-29: "each box up to 25 mm off" of a set that half a millimetre off lay on a joist.
  it("boxes keep clear of the joists however far each may be off", async () => {
    const joists = { joists: { along: "y", spacing: 0.6, width: 0.045, first: 0.2 } };
    const clearOf = async (error: number): Promise<number> => {
      const found = await boxPositions(await opened(OWN, joists), { ...QUESTION, error });
      if (!found.ok) throw new Error(JSON.stringify(found.issues));
      const { sets, step, island } = found.value;
      expect(sets.length).toBeGreaterThan(0);
      const xs = sets.flatMap(({ boxes }) =>
        Array.from({ length: boxes.count }, (_, i) => {
          const along = island.length / 2 + stationOf(boxes, i) * step + (boxes.shift?.[0] ?? 0);
          return islandToRoom(island, [along, island.width / 2])[0];
        }),
      );
      return Math.min(...xs.map((x) => Math.abs(((((x - 0.2) % 0.6) + 0.9) % 0.6) - 0.3)));
    };
    // Half a joist and half a box of 4 in, as wide as boxes are where the study does not say.
    const least = 0.0225 + 0.0508;
    expect(await clearOf(0)).toBeGreaterThanOrEqual(least - 1e-6);
    expect(await clearOf(0.025)).toBeGreaterThanOrEqual(least + 0.025 - 1e-6);
  });

  // 2026-11-29: boxes were good for all of rows whose load the dimmer does not carry, which arrange left out.
  it("neither proposes what the dimmer does not carry", async () => {
    const study = async (maximumWatts: number) => {
      const one = await opened(OWN);
      const document = structuredClone(one.document) as unknown as {
        luminaires: Record<string, Json>;
        arrangements: { layers: Json[] }[];
      };
      Object.assign(document.luminaires.dome, { watts: 9, markedWatts: 40 });
      Object.assign(document.arrangements[0].layers[0], { dimmer: { maximumWatts } });
      const outcome = await openDocument(document);
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
      return outcome.value;
    };
    const question = { ...QUESTION, counts: [2, 3] };
    const enough = await boxPositions(await study(120), question);
    expect(enough.ok && new Set(enough.value.sets.map(({ boxes }) => boxes.count))).toEqual(new Set([2, 3]));
    const few = await boxPositions(await study(100), question);
    expect(few.ok && new Set(few.value.sets.map(({ boxes }) => boxes.count))).toEqual(new Set([2]));
    const none = await boxPositions(await study(50), question);
    expect(none.ok ? [] : none.issues.map(({ message }) => message)).toEqual([
      "No row of them keeps the dimmer's load: the load would be more than the dimmer carries.",
    ]);
  });

  it("leaves out rows that reach over the aisle, and says how to let them off", async () => {
    // About the middle of the box: centres at 0.85 of 0.90 m, rims beyond.
    const found = await searchRows(await opened({ count: 3, clearance: 0.8 }), QUESTION);
    if (!found.ok) throw new Error(JSON.stringify(found.issues));
    const { proposals, leftOut } = found.value.result;
    expect(proposals).toEqual([]);
    expect(leftOut[0]).toMatchObject({ all: true, count: 3 });
    expect(leftOut[0].why).toContain("beyond the edge of the top (--across, --along)");
    const moved = await searchRows(await opened({ count: 3, clearance: 0.8 }), { ...QUESTION, across: 0.4 });
    if (!moved.ok) throw new Error(JSON.stringify(moved.issues));
    for (const { document } of moved.value.result.proposals) {
      const across = 0.85 + (document.layers[0].row?.offset?.[1] ?? 0);
      expect(across + 0.15).toBeLessThanOrEqual(0.9 + 1e-9);
      expect(across - 0.15).toBeGreaterThanOrEqual(-1e-9);
    }
    expect(moved.value.result.proposals).toHaveLength(1);
  });

  it("says how long a row too long would be", async () => {
    const found = await searchRows(await opened(OWN), { ...QUESTION, counts: [2], end: 1.2 });
    if (!found.ok) throw new Error(JSON.stringify(found.issues));
    // The narrowest to try is 0.30 m: 2 × 0.30 + 0.10 + 2 × 1.20 = 3.10 m of 2.80 m.
    expect(found.value.result.leftOut.map(({ why }) => why)).toEqual([
      "a row of 2 with its least gaps and free ends (--count, --gap, --end) takes 3100 mm of a top of 2800 mm",
    ]);
  });

  it("says what a row off the middle has for its length", async () => {
    const off = { count: 2, clearance: 0.8, offset: [0.6, -0.4] };
    const found = await searchRows(await opened(off), { ...QUESTION, counts: [5] });
    if (!found.ok) throw new Error(JSON.stringify(found.issues));
    // 5 × 0.30 + 4 × 0.10 + 2 × 0.15 = 2.20 m, though the top is 2.80 m long: 2.80 − 2 × 0.60 = 1.60 m.
    expect(found.value.result.leftOut.map(({ why }) => why)).toEqual([
      "a row of 5 with its least gaps and free ends (--count, --gap, --end) takes 2200 mm of the 1600 mm that 600 mm off the middle leave of a top of 2800 mm (--along)",
    ]);
  });
});
