/** The working edge against light calculated at the very points of the line, and the side that is worked at. */
import { describe, expect, it } from "vitest";
import { refinedPlanes } from "../../src/app/refined-planes.ts";
import { workingEdge } from "../../src/app/working-edge.ts";
import { assess } from "../../src/assessment/assess.ts";
import { depthInside, distanceToSegment } from "../../src/geometry/polygon.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import { roomToIsland } from "../../src/scene/island-frame.ts";
import { wording } from "../../src/words/wording.ts";
import { workingEdgeSentence } from "../../src/words/working-edge-text.ts";
import { calculate } from "../support/calculate.ts";
import { ISLAND, kitchen, resolved } from "../support/studies.ts";

const person = { name: "cook", stature: 1.72, posture: "leaning" };

function edgeOf(more: Parameters<typeof kitchen>[0]) {
  const study = resolved(kitchen(more));
  const [scene] = study.scenes;
  const options = { ...study.options, interreflection: false };
  const refined = refinedPlanes(scene.planes);
  const all = calculate({ ...scene, planes: [...scene.planes, ...refined.planes] }, options);
  const count = scene.planes.length;
  const result = { ...all, planes: all.planes.slice(0, count) };
  const fines = refined.fines(all.planes.slice(count));
  const edge = workingEdge(scene, assess(study, scene, result, null, fines));
  if (edge === undefined) throw new Error("no edge");
  return { edge, scene, options };
}

const L: readonly Vec2[] = [
  [0, 0],
  [2.4, 0],
  [2.4, 1.7],
  [1.6, 1.7],
  [1.6, 0.9],
  [0, 0.9],
];
const U: readonly Vec2[] = [...L.slice(0, 5), [0.8, 0.9], [0.8, 1.7], [0, 1.7]];
const ROUND = Array.from({ length: 48 }, (_, i): Vec2 => {
  const angle = (i * Math.PI) / 24;
  return [0.7 + 0.7 * Math.cos(angle), 0.7 + 0.7 * Math.sin(angle)];
});

/** The line of somebody whose feet are at a place of the island's own frame. */
function lineOn(outline: readonly Vec2[], feet?: Vec2, turn = 0) {
  const length = Math.max(...outline.map(([x]) => x));
  const width = Math.max(...outline.map(([, y]) => y));
  const [cx, cy] = ISLAND.centre;
  const [dx, dy] = [(feet?.[0] ?? 0) - length / 2, (feet?.[1] ?? 0) - width / 2];
  const angle = (turn * Math.PI) / 180;
  const at = [
    cx + dx * Math.cos(angle) - dy * Math.sin(angle),
    cy + dx * Math.sin(angle) + dy * Math.cos(angle),
  ];
  const found = edgeOf({
    island: { centre: ISLAND.centre, height: ISLAND.height, outline, turn },
    people: feet === undefined ? [] : [{ ...person, at }],
  });
  const { island } = found.scene;
  if (island === undefined) throw new Error("no island");
  const { points } = found.edge;
  const places = found.edge.distance.reduce<Vec2[]>((all, _, i) => {
    all.push(roomToIsland(island, [points[3 * i], points[3 * i + 1]]));
    return all;
  }, []);
  return { ...found, places };
}

describe("the working edge", () => {
  it.each([
    ["a rectangle", () => edgeOf({ island: { ...ISLAND, turn: 20 } }), ISLAND.length],
    ["the notch of an L", () => lineOn(L, [0.8, 1.2], 20), 1.6],
  ] as const)("has the light of a calculation at its points: %s", (_what, found, long) => {
    const { edge, scene, options } = found();
    const probe = {
      name: "line",
      role: "probe" as const,
      quantity: "planar" as const,
      points: edge.points,
      normal: [0, 0, 1] as const,
      weights: new Float64Array(edge.distance.length).fill(1),
    };
    const [{ layers }] = calculate({ ...scene, planes: [probe] }, options).planes;
    const lux = edge.distance.map((_, i) =>
      layers.reduce((sum, { direct }, l) => sum + direct[i] * scene.layers[l].dim * scene.maintenance, 0),
    );
    const average = lux.reduce((a, b) => a + b, 0) / lux.length;
    const least = Math.min(...lux);
    const worst = lux.reduce(
      (most, value, i) => Math.max(most, Math.abs(edge.illuminance[i] / value - 1)),
      0,
    );
    console.log(
      `working edge: worst point ${(100 * worst).toFixed(3)} %, average ${(100 * (edge.average / average - 1)).toFixed(4)} %`,
    );
    // Bilinear over cells of h = 25 mm: h²/8 · E″ in each of two directions, E″ ≤ 4 E/d² under a point at d ≥ 0.6 m: 0.18 %.
    expect(worst).toBeLessThan(0.0018);
    expect(edge.uniformity / (least / average)).toBeCloseTo(1, 2);
    expect(edge.distance.length).toBe(Math.round(long / 0.025));
  });

  it("is where somebody stands, else across from the seats, else at y = 0", () => {
    const at = (x: number, y: number) => ({ people: [{ ...person, at: [x, y] }] });
    const [cx, cy] = ISLAND.centre;
    expect(edgeOf(at(cx, cy + 0.9)).edge).toMatchObject({ side: "y+", person: "cook", inside: 0.15 });
    expect(edgeOf(at(cx + 1.6, cy)).edge.side).toBe("x+");
    // Whoever sits does not work there, though named first.
    const guest = { ...person, name: "guest", posture: "seated", at: [cx, cy - 0.9] };
    const people = [guest, { ...person, at: [cx, cy + 0.9] }];
    expect(edgeOf({ people }).edge).toMatchObject({ side: "y+", person: "cook" });
    expect(
      edgeOf({ island: { ...ISLAND, overhang: { side: "y-", depth: 0.3 } }, people: [] }).edge.side,
    ).toBe("y+");
    const { edge } = edgeOf({ people: [] });
    expect(edge.side).toBe("y-");
    expect(edge.person).toBe(undefined);
    expect(workingEdgeSentence(edge, wording())).toMatch(
      /^Along the edge that is worked at, 150 mm inside it: \d+ lx, evenness 0\.\d\d; least \d+ lx, \d+ mm from the left end\.$/,
    );
  });

  // 2026-11-29: the line lay 150 mm inside the bounding box of the top, at y = 1.55 for a cook in the inner corner of an L.
  it.each([
    [
      "the notch of an L",
      L,
      [0.8, 1.2],
      [
        [1.6, 0.9],
        [0, 0.9],
      ],
      "y+",
    ],
    [
      "the inner side of its leg",
      L,
      [1.3, 1.4],
      [
        [1.6, 1.7],
        [1.6, 0.9],
      ],
      "x-",
    ],
    [
      "the end of its leg",
      L,
      [2, 2],
      [
        [2.4, 1.7],
        [1.6, 1.7],
      ],
      "y+",
    ],
    [
      "its long side",
      L,
      [1.2, -0.3],
      [
        [0, 0],
        [2.4, 0],
      ],
      "y-",
    ],
    [
      "of two at a corner, the one farther behind",
      L,
      [2.5, -0.4],
      [
        [0, 0],
        [2.4, 0],
      ],
      "y-",
    ],
    [
      "the inside of a U",
      U,
      [1.2, 1.2],
      [
        [1.6, 0.9],
        [0.8, 0.9],
      ],
      "y+",
    ],
  ] as const)(
    "is the edge of the outline that somebody stands at: %s",
    (_what, outline, feet, [a, b], side) => {
      for (const turn of [0, 25]) {
        const { edge, places } = lineOn(outline, feet, turn);
        const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
        expect(edge.side).toBe(side);
        for (const place of places) {
          expect(depthInside(place, outline)).toBeGreaterThan(0);
          expect(distanceToSegment(place, a, b)).toBeCloseTo(0.15, 9);
        }
        expect(places.length).toBe(Math.round(long / 0.025));
        expect(edge.distance[0]).toBeCloseTo(long / places.length / 2, 9);
        expect(edge.darkest).toBeLessThan(long);
      }
    },
  );

  it("follows a round top, and is the longest edge that faces away from the seats of an L", () => {
    const { edge, places } = lineOn(ROUND, [0.7, -0.4]);
    expect(edge.side).toBe("y-");
    for (const place of places) expect(depthInside(place, ROUND)).toBeCloseTo(0.15, 2);
    const { places: ofL } = lineOn(L);
    for (const [, y] of ofL) expect(y).toBeCloseTo(0.15, 9);
    const away = edgeOf({
      island: { centre: ISLAND.centre, height: ISLAND.height, outline: L, seats: { side: "y-" } },
      people: [],
    }).edge;
    expect(away.side).toBe("y+");
    expect(away.from).toBe(0);
    // No side of it is within 45° of any that is asked.
    const rhomb: readonly Vec2[] = [
      [0.7, 0],
      [1.4, 0.8],
      [0.7, 1.6],
      [0, 0.8],
    ];
    for (const [, y] of lineOn(rhomb).places) expect(y).toBeGreaterThan(0);
    expect(away.distance.length).toBe(Math.round(1.6 / 0.025));
  });
});
