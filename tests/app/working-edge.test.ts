/** The working edge against light calculated at the very points of the line, and the side that is worked at. */
import { describe, expect, it } from "vitest";
import { refinedPlanes } from "../../src/app/refined-planes.ts";
import { workingEdge } from "../../src/app/working-edge.ts";
import { assess } from "../../src/assessment/assess.ts";
import { workingEdgeSentence } from "../../src/words/working-edge-text.ts";
import { wording } from "../../src/words/wording.ts";
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

describe("the working edge", () => {
  it("has the light of a calculation at its points", () => {
    const { edge, scene, options } = edgeOf({ island: { ...ISLAND, turn: 20 } });
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
    expect(edge.distance.length).toBe(Math.round(ISLAND.length / 0.025));
  });

  it("is where somebody stands, else across from the seats, else at y = 0", () => {
    const at = (x: number, y: number) => ({ people: [{ ...person, at: [x, y] }] });
    const [cx, cy] = ISLAND.centre;
    expect(edgeOf(at(cx, cy + 0.9)).edge).toMatchObject({ side: "y+", person: "cook", inside: 0.15 });
    expect(edgeOf(at(cx + 1.6, cy)).edge.side).toBe("x+");
    expect(
      edgeOf({ island: { ...ISLAND, overhang: { side: "y-", depth: 0.3 } }, people: [] }).edge.side,
    ).toBe("y+");
    const { edge } = edgeOf({ people: [] });
    expect(edge.side).toBe("y-");
    expect(edge.person).toBe(undefined);
    expect(workingEdgeSentence(edge, wording())).toMatch(
      /^Where hands are, 150 mm inside the edge: \d+ lx, evenness 0\.\d\d; least \d+ lx, \d+ mm from the left end\.$/,
    );
  });
});
