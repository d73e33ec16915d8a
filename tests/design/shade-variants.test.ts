/** One shade in five finishes: the order physics gives them, and what does not carry over. */
import { describe, expect, it } from "vitest";
import { compareShadeVariants, shadeVariants } from "../../src/design/shade-variants.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { kitchen, resolved } from "../support/studies.ts";

const LAMP = { flux: 800, finish: "frosted" } as const;
const SHADE = {
  profile: "drum",
  diameter: 0.3,
  height: 0.25,
  finish: "linen",
  inside: { reflectance: 0.6 },
} as const;

const study = resolved(
  kitchen({
    people: [{ name: "guest", at: [2.7, 1.1], facing: 90, posture: "seated" }],
    luminaires: { drum: { lamp: LAMP, shade: SHADE } },
    arrangements: [
      { name: "a", layers: [{ name: "pendants", luminaire: "drum", row: { count: 3, clearance: 0.85 } }] },
    ],
  }),
);
const engine = new LightEngine();
const request = {
  layer: 0,
  lamp: LAMP,
  calculate: (...all: Parameters<LightEngine["calculate"]>) => engine.calculate(...all),
  options: { quality: "quick" },
} as const;

const DIRECT = {
  quality: "quick",
  interreflection: "none",
  nearFieldError: 0,
  patches: 0,
  residual: 0,
  people: false,
} as const;

describe("clear against solid", () => {
  it("drops what was said of the surfaces and keeps the form", () => {
    const variants = shadeVariants(SHADE);
    expect(variants.map(({ finish }) => finish)).toEqual([
      "clear glass",
      "frosted glass",
      "opal glass",
      "white",
      "black",
    ]);
    expect(variants[3].shade).toEqual({ profile: "drum", diameter: 0.3, height: 0.25, finish: "white" });
  });

  it("orders light, ceiling, brightness and see-through as it must", () => {
    const [clear, frosted, opal, white, dark] = compareShadeVariants(study.scenes[0], {
      ...request,
      shade: SHADE,
    }).map(({ figures }) => {
      if (figures === undefined) throw new Error("unlit");
      return figures;
    });
    const ratios = [clear, frosted, opal, white, dark].map(({ lightOutputRatio }) => lightOutputRatio);
    expect([...ratios].sort((a, b) => b - a)).toEqual(ratios);
    expect(white.average).toBeGreaterThan(1.3 * dark.average);
    expect(clear.ceiling).toBeGreaterThan(dark.ceiling);
    // The same silhouette; glass passes the view, opal none of it although it passes light.
    for (const each of [frosted, opal, white, dark]) expect(each.covered).toBeCloseTo(clear.covered, 12);
    expect(clear.weight).toBeLessThan(0.2 * clear.covered);
    expect(opal.weight).toBeCloseTo(opal.covered, 12);
    expect(clear.eyes[0]).toMatchObject({ person: "guest", lamp: true });
    expect(opal.eyes[0].luminance).toBeLessThan(clear.eyes[0].luminance / 3);
    console.log(`light out ${ratios.map((r) => r.toFixed(2)).join(" ")}`);
  });

  it("says that a closed solid globe lets nothing out", () => {
    const globe = { profile: "globe", diameter: 0.25 } as const;
    const results = compareShadeVariants(study.scenes[0], {
      ...request,
      shade: globe,
      // Only what is built is asked for here.
      calculate: () => ({ planes: [{ plane: "", layers: [] }], method: DIRECT }),
    });
    expect(results[2].figures?.lightOutputRatio).toBeGreaterThan(0.7);
    expect(results[3].figures).toBeUndefined();
    expect(results[3].unlit).toMatch(/lets no light out/);
  });
});

// 2026-11-28: `shade --compare` refused linear housings.
it("sets a trough side by side, open and covered, white and dark inside", () => {
  const lamp = { flux: 2000 };
  const shade = { profile: "linear", length: 1.2, width: 0.07, bottom: "diffuser", finish: "black" } as const;
  const { scenes } = resolved(
    kitchen({
      luminaires: { trough: { lamp, shade } },
      arrangements: [
        {
          name: "a",
          layers: [{ name: "pendants", luminaire: "trough", row: { count: 1, clearance: 0.85 } }],
        },
      ],
    }),
  );
  const variants = compareShadeVariants(scenes[0], { ...request, lamp, shade });
  const of = (name: string) => variants.find((each) => each.name === name)?.figures;
  const out = (name: string): number => of(name)?.lightOutputRatio ?? Number.NaN;
  // What closes the mouth takes light, and a dark lining more of it the oftener light comes back to it.
  expect(out("open, white inside")).toBeGreaterThan(out("frosted cover, white inside"));
  expect(out("frosted cover, white inside")).toBeGreaterThan(out("opal cover, white inside"));
  expect(out("open, white inside")).toBeGreaterThan(out("open, dark inside"));
  expect(out("opal cover, white inside")).toBeGreaterThan(out("opal cover, dark inside"));
  // Of a shallow dark trough the strip's own light is what is left: the mouth's form factor from a Lambertian strip at half its
  // width above it, 1/√2 of the flux across, less what the ends take.
  expect(out("open, dark inside")).toBeGreaterThan(0.6);
  expect(out("open, dark inside")).toBeLessThan(0.78);
  for (const { name, figures } of variants) {
    expect(figures?.average, name).toBeGreaterThan(0);
    expect(figures?.downwardShare, name).toBeCloseTo(1, 2);
  }
  console.log(
    variants
      .map(
        ({ name, figures }) =>
          `${name}: ${figures?.lightOutputRatio.toFixed(3)} out, ${figures?.average.toFixed(0)} lx`,
      )
      .join("; "),
  );
});
