import { describe, expect, it } from "vitest";
import type { LuminousOpening } from "../../src/photometry/luminous-opening.ts";
import type { Photometry } from "../../src/photometry/photometry.ts";
import { summarise } from "../../src/photometry/summary.ts";
import { degrees } from "../../src/units/quantities.ts";
import { range, rotational, tabulated } from "../support/distributions.ts";
import { eulumdat, lm63, photometryOf, read, readGood } from "../support/photometric-text.ts";

const DISC: LuminousOpening = { shape: "disc", length: 0.2, width: 0.2, height: 0 };

/** Codes of the warnings of a photometry. */
function codes(photometry: Photometry): string[] {
  return summarise(photometry).warnings.map((warning) => warning.code);
}

describe("summary", () => {
  it("tells a Lambertian luminaire in degrees, lumens and candela", () => {
    const peak = 1000 / Math.PI;
    const summary = summarise(
      photometryOf(
        rotational((g) => peak * Math.cos(g), range(0, 90, 1)),
        { opening: DISC, watts: 10, ratedFlux: 1000 },
      ),
    );
    expect(summary).toMatchObject({
      format: "LM-63",
      edition: "2002",
      type: "C",
      symmetry: "rotational",
      measuredSymmetry: "rotational",
      absolute: true,
      flux: { rated: 1000, downwardShare: 1, upward: 0 },
      maximum: { intensity: peak, C: 0, gamma: 0 },
      axial: peak,
      beamAngle: { level: 0.5, planes: [{ C: 0 }] },
      fieldAngle: { level: 0.1 },
      fluxCode: "44 75 94 100 100",
      watts: 10,
      opening: DISC,
      planes: 1,
      angles: 91,
      warnings: [],
    });
    // 1° chords of a cosine: 2.5e-5 low.
    expect(Math.abs(summary.flux.integrated / 1000 - 1)).toBeLessThan(5e-5);
    expect(summary.efficacy).toBeCloseTo(100, 1);
    expect(Math.abs((summary.beamAngle.ofMaximum as number) - 120)).toBeLessThan(0.01);
    expect(Math.abs((summary.fieldAngle.ofAxial as number) - 168.52)).toBeLessThan(0.02);
    expect(summary.flux.zones).toHaveLength(18);
    expect(summary).not.toHaveProperty("resampling");
  });

  it("counts planes and angles as the file stores them", () => {
    const quadrant = readGood(
      lm63({ ten: "1 -1 1 3 2 1 2 0 0 0", horizontal: "0 90", candela: "100 70 0 100 50 0" }),
    );
    expect(summarise(quadrant)).toMatchObject({ symmetry: "quadrant", planes: 2, angles: 3 });
    const none = readGood(
      eulumdat({ isym: 0, planes: [0, 90, 180, 270], table: Array(4).fill([300, 200, 0]).flat() }),
    );
    expect(summarise(none)).toMatchObject({ planes: 4, angles: 3, measuredSymmetry: "rotational" });
    const { stored: _, ...uncounted } = none;
    expect(summarise(uncounted)).toMatchObject({ planes: 4, angles: 3 });
    const { stored: __, ...folded } = quadrant;
    expect(summarise(folded)).toMatchObject({ planes: 2, angles: 3 });
  });

  it("is plain data that JSON carries whole", () => {
    for (const photometry of [
      photometryOf(rotational(() => 0)),
      photometryOf(
        tabulated("B", (h, v) => 100 * Math.cos(h) * Math.cos(v), range(-90, 90, 5), range(-90, 90, 5)),
      ),
      photometryOf(
        rotational((g) => -Math.cos(g), range(90, 180, 5)),
        { watts: undefined },
      ),
    ]) {
      const summary = summarise(photometry);
      expect(JSON.parse(JSON.stringify(summary))).toEqual({ ...summary });
    }
  });

  it("puts the reader's warnings first and says nothing twice", () => {
    const text = lm63({ ten: "1 10 1 3 1 1 2 -0.2 -0.2 0", vertical: "0 45 80" });
    const outcome = read(text);
    if (!outcome.ok) throw new Error("unreadable");
    const said = summarise(outcome.value, outcome.warnings).warnings.map((warning) => warning.code);
    expect(said.filter((code) => code.endsWith("flux-mismatch"))).toHaveLength(1);
    expect(said.filter((code) => code.endsWith("vertical-range"))).toHaveLength(1);
    expect(said.slice(0, outcome.warnings.length)).toEqual(outcome.warnings.map((warning) => warning.code));
  });
});

describe("photometry warnings", () => {
  const lambert = rotational((g) => (1000 / Math.PI) * Math.cos(g), range(0, 90, 1));
  it.each<[string, Photometry]>([
    ["no-light", photometryOf(rotational(() => 0))],
    ["no-light", photometryOf(rotational(() => 5, [30]))],
    ["intensity-odd", photometryOf(rotational((g) => 1e9 * Math.cos(g)))],
    ["flux-mismatch", photometryOf(lambert, { ratedFlux: 970 })],
    ["flux-mismatch", photometryOf(lambert, { ratedFlux: 1030 })],
    ["flux-mismatch", photometryOf(lambert, { ratedFlux: 970, absolute: false })],
    ["flux-low", photometryOf(lambert, { ratedFlux: 20_000, absolute: false })],
    ["efficacy-odd", photometryOf(lambert, { watts: 1 })],
    [
      "stray-uplight",
      photometryOf(
        rotational((g) => (g < 1.6 ? 100 * Math.abs(Math.cos(g)) : 2), range(0, 180, 2)),
        { opening: DISC },
      ),
    ],
    ["vertical-range", photometryOf(rotational((g) => Math.cos(g * 1.125), range(0, 80, 5)))],
    ["ends-on-light", photometryOf(rotational(() => 100, range(0, 90, 5)))],
    [
      "nadir-disagrees",
      photometryOf(
        tabulated(
          "C",
          (C, g) => Math.cos(g) * (Math.abs(C - Math.PI) < 1 ? 110 : 100),
          range(0, 360, 90),
          range(0, 90, 5),
        ),
      ),
    ],
    [
      "zenith-disagrees",
      photometryOf(
        tabulated(
          "C",
          (C, g) => (g > 1.5 ? (Math.abs(C - Math.PI) < 1 ? 110 : 100) : 100),
          range(0, 360, 90),
          range(0, 180, 5),
        ),
      ),
    ],
    ["coarse-angles", photometryOf(rotational((g) => Math.cos(g) ** 60, range(0, 90, 5)))],
    ["resampling-error", photometryOf(tabulated("B", () => 100, range(-30, 30, 5), range(-30, 30, 5)))],
  ])("say %s", (code, photometry) => {
    expect(codes(photometry)).toContain(code);
  });

  it("are silent on a plain file", () => {
    const opening = { shape: "disc", length: 0.2, width: 0.2, height: 0 } as const;
    expect(codes(photometryOf(lambert, { ratedFlux: 1010, opening }))).toEqual([]);
    expect(codes(photometryOf(lambert, { ratedFlux: 1300, absolute: false, opening }))).toEqual([]);
    expect(codes(photometryOf(lambert, { ratedFlux: 1010 }))).toEqual(["opening-unstated"]);
    const globe = rotational(() => 80, range(0, 180, 5));
    expect(
      codes(photometryOf(globe, { opening: { shape: "ellipsoid", length: 0.3, width: 0.3, height: 0.3 } })),
    ).toEqual([]);
    expect(degrees(globe.vertical[36])).toBe(180);
  });
});
