/** Edits of the kitchen give studies that the study's own check accepts. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { defaultAt, editsAt } from "../../site/edits/defaults.ts";
import { type KitchenItem, moveItem } from "../../site/edits/kitchen-moves.ts";
import type { NamedEdit } from "../../site/edits/named-edit.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { moveInside, outsideRoom, removeOutside, topSize } from "../../site/edits/room-contents.ts";
import { shapeTop, sizeTop, topShape } from "../../site/edits/top-shape.ts";
import {
  addZone,
  onlyZone,
  ownTarget,
  stretchZones,
  unjudgedPart,
  unjudgedStrips,
  withWholeTop,
} from "../../site/edits/zones.ts";
import { type Json, write } from "../../site/store/pointer.ts";
import { newStudy } from "../../src/app/new-study.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../../src/assessment/targets-published.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { isInside } from "../../src/geometry/polygon.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import { checkStudy } from "../../src/study/study.ts";
import { answers } from "../../src/workers/answers.ts";
import { resolveStudy } from "../support/resolve-study.ts";

const { luminaires: _, ...boathouse } = example as unknown as RawStudy;
const beam = { beam: { flux: 800, angle: 60 }, opening: { diameter: 0.2 } };
const study = {
  ...boathouse,
  luminaires: { dome: beam, cone: beam, globe: beam, downlight: beam },
} as unknown as RawStudy;

function applied(document: RawStudy, edit: Pick<NamedEdit, "edits">): RawStudy {
  let after = document as unknown as Json;
  for (const { path, value } of edit.edits) after = write(after, path, value);
  return after as unknown as RawStudy;
}

/** Codes of what the study's own check refuses. */
function refusals(document: RawStudy): string[] {
  const checked = checkStudy(document);
  if (!checked.ok) return checked.issues.map(({ code }) => code);
  const resolved = resolveStudy(checked.value, {
    photometry: new Map(),
    publishedTargets: PUBLISHED_TARGETS_BY_ID,
  });
  return resolved.ok ? [] : resolved.issues.map(({ code }) => code);
}

const outsideOf = (document: RawStudy): string[] =>
  refusals(document).filter((code) => code.includes("outside"));

/** Whether the study's own check had to cut a zone to the top. */
function cutZones(document: RawStudy): boolean {
  const resolved = resolveStudy(orThrow(checkStudy(document)), {
    photometry: new Map(),
    publishedTargets: PUBLISHED_TARGETS_BY_ID,
  });
  return resolved.ok && resolved.warnings.some(({ code }) => code === "zone-cut");
}

const resized = (length: number, width: number, ceilingHeight: number): RawStudy => ({
  ...study,
  room: { ...study.room, length, width, ceilingHeight },
});

describe("a smaller room", () => {
  it("names what is left outside, and moves or removes it", () => {
    const small = resized(4.5, 3.6, 2.7);
    expect(refusals(small)).toContain("body-outside");
    const outside = outsideRoom(small);
    expect(outside.map(({ name }) => name)).toEqual(["wall units", "base units", "tall larder"]);
    const moved = applied(small, moveInside(outside));
    expect(refusals(moved)).toEqual([]);
    expect(moved.bodies?.[2].box).toEqual([
      [3.3, 2.98, 0],
      [4.5, 3.6, 2.25],
    ]);
    const removed = applied(small, removeOutside(outside));
    expect(refusals(removed)).toEqual([]);
    expect(removed.bodies).toEqual([]);
  });

  it("leaves nothing outside whatever its size, by the study's own check", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 26, max: 60 }),
        fc.integer({ min: 16, max: 50 }),
        fc.integer({ min: 22, max: 30 }),
        fc.integer({ min: -30, max: 30 }),
        (length, width, height, turn) => {
          const [first, ...rest] = study.bodies ?? [];
          const room = resized(length / 10, width / 10, height / 10);
          const small = { ...room, bodies: [{ ...first, turn }, ...rest] };
          const outside = outsideRoom(small);
          expect(outside.length === 0).toBe(
            outsideOf(small).length === 0 &&
              (small.bodies ?? []).every(({ box }) => Number(box[1][2]) <= height / 10),
          );
          const moved = applied(small, moveInside(outside));
          expect(outsideOf(moved)).toEqual([]);
          expect(outsideRoom(moved)).toEqual([]);
        },
      ),
      { seed: 5, numRuns: 60 },
    );
  });
});

describe("items moved by hand", () => {
  it("stop at the walls and the top's edges", () => {
    const items: readonly KitchenItem[] = [
      { kind: "island", index: 0 },
      ...[0, 1, 2].map((index) => ({ kind: "body", index }) as const),
      ...[0, 1].map((index) => ({ kind: "person", index }) as const),
      ...[0, 1, 2].map((index) => ({ kind: "zone", index }) as const),
      { kind: "opening", index: 0 },
    ];
    for (const item of items)
      for (const by of [
        [9, 9],
        [-9, -9],
        [0.1, -0.05],
      ] as const) {
        const moved = applied(study, moveItem(study, item, by) as NamedEdit);
        expect(outsideOf(moved), `${item.kind} ${item.index} by ${by}`).toEqual([]);
        expect(cutZones(moved), `${item.kind} ${item.index} by ${by}`).toBe(false);
      }
    const moved = applied(study, moveItem(study, { kind: "opening", index: 0 }, [0.25, 1]) as NamedEdit);
    expect(moved.room.openings?.[0].from).toBe(1.85);
  });
});

describe("zones", () => {
  it("say which strip of a lengthened top nobody judges, and stretch over it", () => {
    expect(unjudgedStrips(study)).toEqual([]);
    const long = { ...study, island: { ...study.island, length: 2.7 } } as RawStudy;
    const [strip] = unjudgedStrips(long);
    expect(strip.side).toBe("near the right end");
    expect(strip.depth).toBeCloseTo(0.3, 9);
    const stretched = applied(long, stretchZones(long) as NamedEdit);
    expect(unjudgedStrips(stretched)).toEqual([]);
    expect(stretched.island?.zones?.map(({ size }) => size?.[0])).toEqual([1.5, 2.7, 1.2]);
    const added = applied(long, addZone(long)).island?.zones?.at(-1);
    expect(added).toMatchObject({ from: [2.4, 0], size: [0.3, 1.1], target: "preparation" });
  });

  // 2026-11-28: corners and strips between the zones were left, in which nobody judged the light.
  it("cover every point of the top once they are stretched", () => {
    let seed = 7;
    const random = (): number => {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      return seed / 2147483648;
    };
    let polygons = 0;
    let most = 0;
    let tried = 0;
    for (let k = 0; k < 100; k++) {
      const shaped = applied(study, shapeTop(study, (["rectangle", "L", "T", "U"] as const)[k % 4]));
      const [length, width] = topSize(shaped);
      const zones = Array.from({ length: 1 + (k % 3) }, (_, z) => {
        const from = [random() * 0.7 * length, random() * 0.7 * width];
        const size = [0.2 + random() * 0.5 * (length - from[0]), 0.1 + random() * 0.5 * (width - from[1])];
        return { name: `zone ${z}`, from, size, target: "preparation" };
      });
      const arrangements = shaped.arrangements.map(({ settings: _, ...rest }) => rest);
      const given = {
        ...shaped,
        arrangements,
        island: { ...shaped.island, zones },
      } as unknown as RawStudy;
      // A zone wholly beside an L, T or U is no study.
      if (refusals(given).length > 0) continue;
      tried++;
      const after = applied(given, stretchZones(given) as NamedEdit);
      expect(unjudgedPart(after)).toBe(undefined);
      // Points of the top against the zones as the study's own check reads them.
      const resolved = resolveStudy(orThrow(checkStudy(after)), {
        photometry: new Map(),
        publishedTargets: PUBLISHED_TARGETS_BY_ID,
      });
      const [{ island, zones: read }] = orThrow(resolved).scenes;
      const top = island?.outline as readonly Vec2[];
      let missed = 0;
      for (let i = 0; i < 400; i++) {
        const point: Vec2 = [random() * length, random() * width];
        if (isInside(point, top) && !read.some(({ outline }) => isInside(point, outline))) missed++;
      }
      most = Math.max(most, missed);
      polygons += (after.island?.zones ?? []).filter(({ polygon }) => polygon !== undefined).length;
    }
    console.log(
      `most points without a zone in ${tried} kitchens: ${most} of 400; ${polygons} zones became polygons`,
    );
    expect(most).toBe(0);
    expect(tried).toBeGreaterThan(50);
    expect(polygons).toBeGreaterThan(10);
  });

  // 2026-11-28: with no whole strip open a new one lay over the whole top, and over those that were there.
  it("are added over what none of them covers", () => {
    const zones = [
      { name: "a", from: [0, 0], size: [2.4, 0.5], target: "preparation" },
      { name: "b", from: [0, 0.5], size: [1.8, 0.6], target: "preparation" },
    ];
    const open = { ...study, island: { ...study.island, zones } } as unknown as RawStudy;
    expect(unjudgedStrips(open)).toEqual([]);
    const after = applied(open, addZone(open));
    expect(after.island?.zones?.at(-1)).toMatchObject({ from: [1.8, 0.5], size: [0.6, 0.6] });
    expect(unjudgedPart(after)).toBe(undefined);
  });

  it("cover the whole top of a kitchen that is started, each under its name", async () => {
    for (const hob of [false, true])
      for (const sink of [false, true])
        for (const seats of [0, 3]) {
          const sizes = { length: 2.7, width: 1.1, ceilingHeight: 2.6, room: { length: 4.5, width: 3.6 } };
          const outcome = await answers().start({ ...sizes, hob, sink, seats }, {});
          if (!outcome.ok) throw new Error("not started");
          const started = outcome.value as unknown as RawStudy;
          const whole = withWholeTop(started);
          expect(unjudgedPart(whole)).toBeUndefined();
          expect(whole.island?.zones?.map(({ name }) => name)).toEqual(
            started.island?.zones?.map(({ name }) => name),
          );
          expect(refusals(whole)).toEqual([]);
        }
  });

  it("are added where their sides are in reach: in the middle of a top that is judged whole", () => {
    const [prep, ...others] = study.island?.zones ?? [];
    const zones = [{ ...prep, from: [0, 0], size: [2.4, 1.1] }, ...others];
    const judged = { ...study, island: { ...study.island, zones } } as unknown as RawStudy;
    const after = applied(judged, addZone(judged));
    expect(after.island?.zones?.at(-1)).toMatchObject({ from: [0.6, 0.275], size: [1.2, 0.55] });
    expect(refusals(after)).toEqual([]);
    const none = { ...study, island: { ...study.island, zones: [] } } as unknown as RawStudy;
    expect(applied(none, addZone(none)).island?.zones?.[0]).toMatchObject({ from: [0, 0], size: [2.4, 1.1] });
  });

  it("become one over the whole top, with what settings asked of the others gone too", () => {
    const l: RawStudy["island"] = {
      ...study.island,
      outline: [
        [0, 0],
        [2.4, 0],
        [2.4, 0.6],
        [1, 0.6],
        [1, 1.1],
        [0, 1.1],
      ],
    } as RawStudy["island"];
    const asked = Object.fromEntries((study.island?.zones ?? []).map(({ name }) => [name, "general"]));
    const settings = [{ name: "late", dim: {}, zones: asked }];
    const arrangements = study.arrangements.map((each) => ({ ...each, settings }));
    for (const island of [study.island, l]) {
      const before = { ...study, island, arrangements } as unknown as RawStudy;
      const after = applied(before, onlyZone(before, 1) as NamedEdit);
      expect(after.island?.zones).toHaveLength(1);
      expect(unjudgedPart(after)).toBeUndefined();
      expect(after.island?.zones?.[0]).toMatchObject({
        name: "eating",
        target: study.island?.zones?.[1].target,
      });
      expect(after.arrangements[0].settings?.[0].zones).toEqual({ eating: "general" });
      expect(refusals(after)).toEqual([]);
      expect(onlyZone(after, 0)).toBeUndefined();
    }
  });

  it("take a target of one's own, which the study's check accepts", () => {
    const own = applied(study, ownTarget(study, 1, { illuminance: 400, uniformity: 0.6 }));
    expect(own.island?.zones?.[1].target).toBe("own, eating");
    expect(own.targets?.["own, eating"]).toEqual({ illuminance: 400, uniformity: 0.6 });
    expect(refusals(own)).toEqual([]);
  });
});

describe("the top's shape", () => {
  it("is known again, accepted and sized", () => {
    for (const shape of ["L", "T", "U", "rectangle"] as const) {
      const shaped = applied(study, shapeTop(study, shape));
      expect(topShape(shaped)).toBe(shape);
      expect(refusals(shaped)).toEqual([]);
      const sized = applied(shaped, { edits: sizeTop(shaped, 0, 3) });
      expect(topSize(sized)[0]).toBe(3);
      expect(topShape(sized)).toBe(shape);
      expect(refusals(sized)).toEqual([]);
    }
  });
});

describe("defaults", () => {
  const document = orThrow(newStudy({ length: 2.4, width: 1.1, ceilingHeight: 2.6 }, "open")) as Json;
  const { defaults } = orThrow(
    resolveStudy(orThrow(checkStudy(document)), {
      photometry: new Map(),
      publishedTargets: PUBLISHED_TARGETS_BY_ID,
    }),
  );

  it("are found where the document is silent, and set in one edit", () => {
    const height = defaultAt(defaults, document, ["island", "height"]);
    expect(height?.value).toBe(0.914);
    expect(defaultAt(defaults, document, ["island", "length"])).toBeUndefined();
    expect(defaultAt(defaults, document, ["island", "centre", 1])?.value).toBe(1.75);
    const at = ["island", "centre", 0];
    let after = document;
    for (const { path, value } of editsAt(defaultAt(defaults, document, at), at, 2))
      after = write(after, path, value);
    expect((after as { island: { centre: Json } }).island.centre).toEqual([2, 1.75]);
  });
});
