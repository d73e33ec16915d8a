import { describe, expect, it } from "vitest";
import { Ledger } from "../../../src/diagnostics/ledger.ts";
import { buildShadeLuminaire } from "../../../src/luminaire/shade/build.ts";
import { resolveShade } from "../../../src/luminaire/shade/definition.ts";
import { FINISH_NAMES, FINISHES } from "../../../src/luminaire/shade/finishes.ts";
import { lampDiameter } from "../../../src/luminaire/shade/lamp-shape.ts";
import type { ShadeDocument } from "../../../src/luminaire/shade/shade-document.ts";
import { luminousFlux } from "../../../src/photometry/luminous-flux.ts";

const LAMP = { flux: 800, watts: 8, shape: "A19" };

describe("lamp shape codes", () => {
  it("counts eighths of an inch or millimetres as the trade does", () => {
    const mm = (code: string) => Math.round((lampDiameter(code) ?? 0) * 10_000) / 10;
    // Diameters as printed by the trade: A19 60 mm, G25 3.125 in, ST19 2.375 in, PAR30 3.75 in, MR16 2.0 in.
    expect([mm("A19"), mm("G25"), mm("ST19"), mm("PAR30"), mm("MR16"), mm("T8")]).toEqual([
      60.3, 79.4, 60.3, 95.3, 50.8, 25.4,
    ]);
    expect([mm("A60"), mm("G95"), mm("ST64"), mm("C35")]).toEqual([60, 95, 64, 35]);
    expect(lampDiameter("nineteen")).toBeUndefined();
    expect(lampDiameter("A1")).toBeUndefined();
  });
});

describe("finishes", () => {
  it("never send on more than they receive, and each says where its value is from", () => {
    for (const name of FINISH_NAMES) {
      const { material, known, range } = FINISHES[name];
      expect(material.inside + material.transmittance).toBeLessThanOrEqual(1);
      expect(["published", "trade default"]).toContain(known);
      expect(range.length).toBeGreaterThan(10);
    }
  });
});

describe("a definition", () => {
  it("lists what it assumed", () => {
    const built = buildShadeLuminaire("dome", { flux: 800 }, { profile: "dome", diameter: 0.3 });
    if (!built.ok) throw new Error("refused");
    expect(built.value.assumptions.map((a) => a.path)).toEqual([
      "/shade/height",
      "/shade/topDiameter",
      "/shade/finish",
      "/shade/bottom",
      "/shade/top",
      "/lamp/finish",
      "/lamp/diameter",
      "/lamp/height",
    ]);
    expect(built.value.luminaire.evidence).toBe("E");
  });

  it("refuses what cannot be, by place", () => {
    const faults = (shade: ShadeDocument, lamp = {}) => {
      const outcome = buildShadeLuminaire("x", { ...LAMP, ...lamp }, shade, { path: "/luminaires/x" });
      return outcome.ok ? [] : outcome.issues.map((issue) => issue.where.path);
    };
    expect(faults({ profile: "dome" })).toEqual(["/luminaires/x/shade/diameter"]);
    expect(faults({ profile: "dome", diameter: 0.3 }, { shape: "??" })).toEqual(["/luminaires/x/lamp/shape"]);
    expect(faults({ profile: "dome", diameter: 0.38 }, { shape: undefined, diameter: 0.5 })).toEqual([
      "/luminaires/x/lamp/diameter",
    ]);
    expect(faults({ profile: "drum", diameter: 0.45, topDiameter: 0.9 })).toEqual([
      "/luminaires/x/shade/topDiameter",
    ]);
    expect(faults({ profile: "globe", diameter: 0.2, bottom: "closed" }, { height: 0.5 })).toEqual([
      "/luminaires/x/lamp/height",
    ]);
    expect(
      faults({ profile: "drum", diameter: 0.3, transmittance: 0.9, inside: { reflectance: 0.5 } })[0],
    ).toBe("/luminaires/x/shade");
    expect(
      faults({
        profile: [
          [0.05, 0.2],
          [0.15, 0],
        ],
      }),
    ).toEqual(["/luminaires/x/shade/profile"]);
    expect(faults({ profile: "linear", length: 1.2 })).toEqual(["/luminaires/x/shade/width"]);
  });

  // 2026-11-28: light went round the outside of a closed dome from a lamp above it, a diameter hid a code, "Q99" was 99 mm wide.
  it("refuses a lamp above a lid, and says which of two sizes it takes", () => {
    const read = (lamp: object, more: Partial<ShadeDocument> = {}) => {
      const log = new Ledger();
      resolveShade(
        { ...LAMP, ...lamp },
        { profile: "dome", diameter: 0.38, height: 0.24, ...more } as ShadeDocument,
        log,
      );
      return log;
    };
    expect(read({ height: 0.4 }).errors.map(({ where, message }) => [where.path, message])).toEqual([
      ["/lamp/height", expect.stringContaining("above the shade")],
    ]);
    expect(read({ height: 0.4 }, { top: "open", topDiameter: 0.2 }).errors).toEqual([]);
    const warned = (lamp: object) =>
      read(lamp).warnings.map(({ where, message }) => `${where.path} ${message}`);
    expect(warned({})).toEqual([]);
    expect(warned({ diameter: 0.06 })).toEqual([]);
    expect(warned({ diameter: 0.2 })).toEqual([
      expect.stringMatching(/^\/lamp\/diameter .*0\.2 m, replaces/),
    ]);
    expect(warned({ shape: "Q99" })).toEqual([expect.stringMatching(/^\/lamp\/shape .*0\.099 m wide/)]);
    const built = buildShadeLuminaire("x", { ...LAMP, shape: "Q99" }, { profile: "dome", diameter: 0.38 });
    expect(built.ok && built.warnings.length).toBe(1);
  });

  it("draws every named form with a lamp inside and keeps the energy", () => {
    // Every form once, and every way of passing light once.
    const pairs = [
      ["cone", "brass"],
      ["dome", "white"],
      ["drum", "linen"],
      ["cylinder", "white"],
      ["globe", "clear glass"],
      ["bowl", "opal glass"],
      ["bell", "frosted glass"],
      ["disc", "white"],
    ] as const;
    for (const [profile, finish] of pairs) {
      const built = buildShadeLuminaire("any", LAMP, { profile, diameter: 0.3, finish });
      if (!built.ok) throw new Error(`${profile} ${finish} refused: ${built.issues[0].message}`);
      const { traced, luminaire } = built.value;
      if (traced === undefined) throw new Error("not traced");
      expect(traced.traced.absorbed + traced.traced.escaped).toBeCloseTo(1, 2);
      expect(luminousFlux(luminaire.distribution).total / luminaire.flux).toBeCloseTo(1, 1);
      expect(built.value.lightOutputRatio).toBeLessThanOrEqual(1);
    }
    const closed = buildShadeLuminaire("any", LAMP, { profile: "globe", diameter: 0.3, finish: "white" });
    expect(closed.ok ? "" : closed.issues[0].code).toBe("shade-dark");
  });

  it("puts a diffuser under a drum", () => {
    const open = resolveShade(LAMP, { profile: "drum", diameter: 0.4, finish: "linen" }, new Ledger());
    const covered = { profile: "drum", diameter: 0.4, finish: "linen", bottom: "diffuser" } as const;
    const closed = resolveShade(LAMP, covered, new Ledger());
    if (open.kind !== "revolved" || closed.kind !== "revolved") throw new Error("refused");
    expect(closed.shade.segments.length).toBeGreaterThan(open.shade.segments.length);
  });
});
