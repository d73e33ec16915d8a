import { describe, expect, it } from "vitest";
import { axialIntensity, beamAngle, FIELD_LEVEL, sectionAt } from "../../src/photometry/beam-angle.ts";
import { resampleToC } from "../../src/photometry/c-gamma-resampling.ts";
import { degrees, radians } from "../../src/units/quantities.ts";
import { range, rotational, tabulated } from "../support/distributions.ts";

describe("beam and field angle", () => {
  it("are exact for a triangle, whose interpolant is itself", () => {
    // I falls linearly from 100 at 0 to 0 at 40°: half at 20°, a tenth at 36°.
    const d = rotational((g) => Math.max(0, 100 * (1 - degrees(g) / 40)), range(0, 90, 5));
    const beam = beamAngle(d);
    expect(degrees(beam.ofMaximum!)).toBeCloseTo(40, 10);
    expect(degrees(beam.ofAxial!)).toBeCloseTo(40, 10);
    expect(degrees(beamAngle(d, FIELD_LEVEL).ofMaximum!)).toBeCloseTo(72, 10);
    expect(beam.planes).toHaveLength(1);
  });

  it("tell the maximum from the axis in a batwing", () => {
    // 40 on the axis, 100 at 30°, 0 from 60°: the maximum's stretch is one wing, the axis' spans both.
    const d = rotational(
      (g) => {
        const a = degrees(g);
        return a <= 30 ? 40 + 2 * a : Math.max(0, 100 - ((a - 30) * 100) / 30);
      },
      range(0, 90, 5),
    );
    const [{ ofMaximum, ofAxial }] = beamAngle(d).planes;
    // Of the two equal wings the one on the side of C.
    expect(degrees(ofMaximum!.from)).toBeCloseTo(5, 9);
    expect(degrees(ofMaximum!.to)).toBeCloseTo(45, 9);
    expect(degrees(ofMaximum!.angle)).toBeCloseTo(40, 9);
    // Half the axial value, 20 cd, is reached at 54° on both sides.
    expect(degrees(ofAxial!.angle)).toBeCloseTo(108, 9);
  });

  it("differ by plane, and know an off-axis beam's two edges", () => {
    // Only C0 gets light: a triangle about γ = 30° of half-width 20°; C90 sees nothing.
    const d = tabulated(
      "C",
      (C, g) => (Math.abs(C % (2 * Math.PI)) < 1e-9 ? Math.max(0, 100 - 5 * Math.abs(degrees(g) - 30)) : 0),
      range(0, 360, 90),
      range(0, 90, 5),
    );
    const beam = beamAngle(d);
    expect(beam.planes.map((p) => Math.round(degrees(p.C)))).toEqual([0, 90]);
    const [first, second] = beam.planes;
    expect(degrees(first.ofMaximum!.from)).toBeCloseTo(20, 9);
    expect(degrees(first.ofMaximum!.to)).toBeCloseTo(40, 9);
    expect(first.ofAxial).toBeUndefined();
    expect(second.ofMaximum).toBeUndefined();
  });

  it("pass through the zenith for an uplight and go all round for a sphere", () => {
    const up = rotational((g) => Math.max(0, -Math.cos(g)), range(90, 180, 1));
    // cos is half at 60° from the zenith; a 1° table of it is low by its curvature only.
    expect(degrees(beamAngle(up).ofMaximum!)).toBeCloseTo(120, 2);
    expect(beamAngle(up).ofAxial).toBeUndefined();
    const sphere = rotational(() => 80, range(0, 180, 10));
    expect(degrees(beamAngle(sphere).ofMaximum!)).toBe(360);
    expect(degrees(beamAngle(sphere).ofAxial!)).toBe(360);
  });

  it("end where the table ends", () => {
    const d = rotational(() => 80, range(0, 45, 5));
    expect(degrees(beamAngle(d).ofMaximum!)).toBeCloseTo(90, 10);
    const dark = rotational(() => 0);
    expect(beamAngle(dark).ofMaximum).toBeUndefined();
  });

  it("average a nadir on which the planes disagree", () => {
    const d = tabulated("C", (C) => (C < 1 || C > 6 ? 120 : 100), range(0, 360, 90), range(0, 90, 10));
    expect(axialIntensity(d)).toBeCloseTo(105, 12);
  });

  it("work on types A and B by their C–γ planes", () => {
    const d = tabulated(
      "B",
      (h, v) => (Math.cos(h) * Math.cos(v)) ** 3,
      range(-90, 90, 1),
      range(-90, 90, 1),
    );
    const beam = beamAngle(resampleToC(d).distribution);
    const closed = 2 * Math.acos(0.5 ** (1 / 3));
    expect(Math.abs(degrees(beam.ofMaximum! - closed))).toBeLessThan(0.02);
  });

  it("cut a section with both halves in place", () => {
    const d = tabulated(
      "C",
      (C, g) => 10 * Math.round((2 * C) / Math.PI) + Math.round(degrees(g) / 45),
      range(0, 360, 90),
      range(0, 90, 45),
    );
    const { theta, intensity, axis } = sectionAt(d, radians(90));
    expect([...theta].map((t) => Math.round(degrees(t)))).toEqual(
      [-180, -90, -90, -45, 0, 0, 45, 90, 90, 180].map((t) => t || expect.anything()),
    );
    expect([...intensity]).toEqual([0, 0, 32, 31, 30, 10, 11, 12, 0, 0]);
    expect(axis).toBe(5);
  });
});
