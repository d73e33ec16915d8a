/**
 * Colour differences against published values, silhouettes against plain geometry, and the words they lead to.
 *
 * sRGB red, green and blue in CIELAB (D65): 53.24 80.09 67.20; 87.73 −86.18 83.18; 32.30 79.19 −107.86 (widely printed,
 * from memory; they follow from IEC 61966-2-1 and CIE 15).
 */
import { describe, expect, it } from "vitest";
import { colourDifference, type Lab, labOf } from "../../../src/advice/appearance/cielab.ts";
import { cohesion } from "../../../src/advice/appearance/style-match.ts";
import { usualViewpoint, viewpointOf, visualWeight } from "../../../src/advice/appearance/visual-weight.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { type Json, kitchen, resolved } from "../../support/studies.ts";

const lab = (colour: string): Lab => {
  const found = labOf(colour);
  if (found === undefined) throw new Error(colour);
  return found;
};

describe("CIELAB", () => {
  it("gives the primaries and white", () => {
    const known: Record<string, readonly [number, number, number]> = {
      "#ff0000": [53.24, 80.09, 67.2],
      "#00ff00": [87.73, -86.18, 83.18],
      "#00f": [32.3, 79.19, -107.86],
      white: [100, 0, 0],
      black: [0, 0, 0],
      "rgb(119, 119, 119)": [50.03, 0, 0],
    };
    let worst = 0;
    for (const [colour, [L, a, b]] of Object.entries(known)) {
      const found = lab(colour);
      worst = Math.max(worst, Math.abs(found.L - L), Math.abs(found.a - a), Math.abs(found.b - b));
    }
    console.log(`worst error of CIELAB ${worst.toFixed(3)}`);
    expect(worst).toBeLessThan(0.02);
    expect(colourDifference(lab("black"), lab("white"))).toBeCloseTo(100, 3);
  });

  it("does not guess", () => {
    for (const text of ["", "brassy", "#12", "rgb(1,2)", "rgb(300,0,0)", "constructor", "#ggg"])
      expect(labOf(text)).toBeUndefined();
  });
});

function hung(body: Json, row: Json, more: Json = {}): Scene {
  return resolved(
    kitchen({
      room: { length: 8, width: 40, ceilingHeight: 2.7 },
      island: { centre: [4, 20], length: 2.4, width: 1.1, height: 0.92, colour: "#f2f0ea" },
      luminaires: {
        pendant: { beam: { flux: 800, angle: 90 }, body, ...more },
        spot: { beam: { flux: 650, angle: 36 } },
      },
      arrangements: [
        {
          name: "a",
          layers: [
            { name: "pendants", luminaire: "pendant", row: { clearance: 0.8, ...row } },
            { name: "ambient", luminaire: "spot", grid: { columns: 2, rows: 2 } },
          ],
        },
      ],
    }),
  ).scenes[0];
}

describe("visual weight", () => {
  it("of a pendant without a body is that of its luminous opening, and not told where that is a point", () => {
    const far = { name: "far", eye: [4, 0.5, 1.8] as const };
    const bare = (opening: Json | undefined) =>
      visualWeight(hung(undefined as never, { count: 1 }, opening === undefined ? {} : { opening }), far);
    const lit = bare({ shape: "box", length: 1.219, width: 0.124, height: 0.156 });
    const solid = visualWeight(
      hung({ profile: "box", length: 1.219, width: 0.124, height: 0.156 }, { count: 1 }),
      far,
    );
    expect(lit?.weight).toBeCloseTo(solid?.weight ?? 0, 2);
    expect(lit?.weight).toBeGreaterThan(0.03);
    expect(bare({ shape: "cylinder", diameter: 0.2, height: 0.1 })?.words).toBe("discreet");
    expect(bare(undefined)).toBeUndefined();
  });

  // From far away a sphere's silhouette on the middle plane is π r², a box's its face.
  const far = { name: "far", eye: [4, 0.5, 1.8] as const };
  const view = 2.4 * (2.7 - 0.92);

  it("is the silhouettes' share of the view", () => {
    let worst = 0;
    for (const count of [1, 3]) {
      const globes = visualWeight(hung({ profile: "globe", diameter: 0.4, height: 0.4 }, { count }), far);
      const boxes = visualWeight(
        hung({ profile: "box", length: 0.5, width: 0.02, height: 0.3 }, { count }),
        far,
      );
      worst = Math.max(
        worst,
        Math.abs((globes?.weight ?? 0) / ((count * Math.PI * 0.04) / view) - 1),
        Math.abs((boxes?.weight ?? 0) / ((count * 0.15) / view) - 1),
      );
    }
    console.log(`worst error of visual weight ${(100 * worst).toFixed(1)} %`);
    // The globe's facets take 3 %, the view's cells half a per cent, nearness 1 %.
    expect(worst).toBeLessThan(0.05);
  });

  it("tells see-through from solid, and bold from discreet", () => {
    const body = { profile: "globe", diameter: 0.4, height: 0.4 };
    const clear = visualWeight(hung({ ...body, transmittance: 0.9 }, { count: 3 }), far);
    const solid = visualWeight(hung(body, { count: 3 }), far);
    expect(clear?.covered).toBe(solid?.covered);
    expect(clear?.weight).toBeCloseTo(0.1 * (solid?.weight ?? 0), 12);
    expect(solid?.words).toBe("bold");
    expect(clear?.words).toBe("discreet");
    expect(
      visualWeight(hung({ profile: "disc", diameter: 0.1, height: 0.05 }, { count: 1 }), far)?.words,
    ).toBe("discreet");
  });

  it("looks on through the eyes of whoever is away from the island, if anybody is", () => {
    const scene = hung({ profile: "globe", diameter: 0.4, height: 0.4 }, { count: 1 });
    const at = (y: number) =>
      ({
        name: `at ${y}`,
        stature: 1.7,
        at: [4, y],
        facing: 0,
        posture: "seated",
        eye: [4, y, 1.2],
      }) as const;
    expect(viewpointOf({ ...scene, people: [at(19), at(14), at(22)] })?.name).toBe("at 14");
    expect(viewpointOf({ ...scene, people: [at(19)] })?.name).toMatch(/^someone standing/);
    // Twice as far away, the globe in the middle plane takes no less of it; one nearer than the plane takes more.
    const far = visualWeight({ ...scene, people: [at(2)] })?.weight ?? 0;
    expect(visualWeight({ ...scene, people: [at(11)] })?.weight).toBeCloseTo(far, 2);
  });

  it("looks on from the side of the seats, inside the room", () => {
    const { island, room } = hung({ profile: "globe", diameter: 0.4, height: 0.4 }, { count: 1 });
    if (island === undefined) throw new Error("no island");
    const eye = (side: "y-" | "y+", width = room.width) =>
      usualViewpoint({ ...island, overhang: { side, depth: 0.3 } }, { ...room, width }).eye;
    expect(eye("y-")[1]).toBeCloseTo(17, 9);
    expect(eye("y+")[1]).toBeCloseTo(23, 9);
    expect(eye("y+", 22)[1]).toBeLessThan(22);
  });
});

describe("cohesion", () => {
  const body = { profile: "dome", diameter: 0.3, height: 0.2 };
  const looks = (own: Json, bodies: readonly Json[] = [], top = "#f2f0ea") => {
    const scene = hung(body, { count: 3 }, own);
    const solid = { outline: [], bottom: 0, top: 2 };
    return cohesion({
      ...scene,
      bodies: bodies.map((each) => ({ name: "cupboards", ...solid, ...each })),
      ...(scene.island === undefined ? {} : { island: { ...scene.island, colour: top } }),
    });
  };

  it("answers what it repeats, blends in with what is near, stands out from what contrasts", () => {
    expect(looks({ finish: "brushed brass" }, [{ finish: "brass handles" }])).toMatchObject({
      outcome: "answers",
      sentence: expect.stringMatching(/answers the brass of cupboards/),
    });
    expect(looks({ colour: "#e0ddd5" })?.outcome).toBe("answers");
    expect(looks({ colour: "#e8e4da" }, [{ colour: "#eeeae0" }])?.outcome).toBe("blends in");
    const dark = looks({ colour: "#1a1a1a" }, [{ colour: "white" }]);
    expect(dark?.outcome).toBe("stands out");
    expect(dark?.sentence).toMatch(/stands out from the top and cupboards, dark against light/);
    // Sheen alone repeats nothing.
    expect(looks({ finish: "satin paint" }, [{ finish: "satin oak" }])?.likenesses[0].relation).toBe(
      "contrasts",
    );
    expect(looks({}, [])?.outcome).toBe("not known");
  });

  it("weighs lit luminance against the walls", () => {
    const scene = hung(body, { count: 3 }, { colour: "#1a1a1a", opening: { diameter: 0.3 } });
    const result = new LightEngine().calculate({ ...scene, planes: [] }, { quality: "quick" });
    const far = cohesion(scene, [4, 17, 1.2], result);
    expect(far?.litRatio).toBeGreaterThan(0);
    expect(cohesion(scene)?.litRatio).toBeUndefined();
    expect(cohesion(hung(body, { count: 3 }), [4, 17, 1.2], result)?.litRatio).toBeUndefined();
  });
});
