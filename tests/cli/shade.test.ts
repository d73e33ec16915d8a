/** `shade STUDY` through the built program: what it says of a lamp and shade. */
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { candlespan } from "../support/cli.ts";

const alone = (lamp: object, shade: object) => {
  const out = mkdtempSync(join(tmpdir(), "shade-"));
  const input = JSON.stringify({ lamp: { flux: 800, ...lamp }, shade });
  const run = candlespan(["shade", "-", "--out", out], { input });
  const read = candlespan(["inspect", join(out, "shade.ies")], {});
  return { ...run, read: read.out, file: readFileSync(join(out, "shade.ies"), "utf8") };
};

describe("shade", () => {
  // 2026-11-28: "straight down 115 cd, beam 122°" was of the light upward, and the flux was not that of the file written.
  it("says of which lobe the beam is, and what its file's table adds up to", () => {
    const { code, out, read } = alone(
      {},
      { profile: "drum", diameter: 0.45, height: 0.25, finish: "linen", top: "open", bottom: "closed" },
    );
    expect(code).toBe(0);
    const [, cd, gamma] = /maximum +([\d.]+) cd at C [\d.]+°, γ ([\d.]+)°/.exec(read) ?? [];
    expect(Number(gamma)).toBeGreaterThan(90);
    expect(out).toContain(`upward lobe: ${Number(cd).toFixed(0)} cd at γ ${Number(gamma).toFixed(0)}°`);
    const integrated = Number(/flux +([\d.]+) lm/.exec(read)?.[1]);
    const told = /adds up to (\d+) lm/.exec(out)?.[1] ?? /statistical\), (\d+) lm/.exec(out)?.[1];
    // Either is printed to a lumen.
    expect(Math.abs(Number(told) - integrated)).toBeLessThanOrEqual(0.5);
  });

  // 2026-11-29: a globe was written as an upright cylinder, though LM-63 has a sphere.
  it("writes a globe as a sphere, and a drum as a cylinder", () => {
    const opal = { diameter: 0.25, finish: "opal glass" };
    expect(alone({}, { profile: "globe", ...opal }).read).toContain(
      "opening      ellipsoid, 250 mm along C0",
    );
    expect(alone({}, { profile: "drum", ...opal }).read).toContain("opening      cylinder, 250 mm along C0");
  });

  // 2026-11-29: "0.00000000000001033483054" candela at 90° below an opaque shade with a diffuser.
  it("writes no remainder of rounding as light", () => {
    const profile = [
      [0.17, 0],
      [0.165, 0.06],
      [0.11, 0.16],
      [0.04, 0.22],
    ];
    const { file } = alone(
      { flux: 1055, shape: "A19", height: 0.1 },
      {
        profile,
        finish: "brass",
        inside: { finish: "white" },
        bottom: "diffuser",
        diffuser: { finish: "opal glass" },
      },
    );
    expect(file).not.toMatch(/[^\d.]0\.0{7}/);
  });

  it("warns of a shape code in no use", () => {
    const { code, err } = alone({ shape: "Q99" }, { profile: "dome", diameter: 0.3 });
    expect([code, err]).toEqual([0, expect.stringMatching(/shape.*taken as 99 mm wide/)]);
  });
});
