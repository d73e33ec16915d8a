import { describe, expect, it } from "vitest";
import { formatIlluminance, readIlluminance } from "../../src/units/illuminance-text.ts";

describe("illuminance in words", () => {
  // 1 fc = 1 lm/ft² = 10.7639 lx.
  it("reads both units", () => {
    expect(readIlluminance("500 lx")).toEqual({ ok: true, lux: 500 });
    const fc = readIlluminance("50 fc");
    expect(fc.ok && fc.lux).toBeCloseTo(538.1955, 4);
    expect(readIlluminance("50 foot-candles")).toEqual(fc);
  });

  it("shows what a bare number could mean", () => {
    expect(readIlluminance("50")).toMatchObject({ ok: false, problem: expect.stringContaining('"50 fc"') });
    expect(readIlluminance("bright").ok).toBe(false);
  });

  it("writes both units", () => {
    expect(formatIlluminance(538.2, "fc")).toBe("50 fc");
    expect(formatIlluminance(538.2, "lx")).toBe("538 lx");
    expect(formatIlluminance(9.97, "lx")).toBe("10 lx");
    expect(formatIlluminance(3.14, "lx")).toBe("3.1 lx");
    // 2026-11-28: a point under a standing person read −0.0 fc.
    expect([-1e-9, -0.04, 0].map((lux) => formatIlluminance(lux, "fc"))).toEqual([
      "0.0 fc",
      "0.0 fc",
      "0.0 fc",
    ]);
  });
});
