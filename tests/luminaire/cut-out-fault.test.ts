/** The hole for a luminaire whose size its file states: over all, with the flange that covers the hole. */
import { expect, it } from "vitest";
import { cutOutFault, leastCutOut } from "../../src/luminaire/cut-out-fault.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import { lambertian } from "../support/tiny-scene.ts";

const downlight = (more: Partial<Luminaire>): Luminaire => ({
  ...lambertian("downlight", 600, "A"),
  body: {
    profile: "cylinder",
    diameter: 0.096,
    height: 0.08,
    offset: 0.04,
    reflectance: 0.5,
    transmittance: 0,
  },
  ...more,
});
const filed = { housing: { length: 0, width: 0.096, height: 0.08 } };

// 2026-11-29: "the body, 96 mm wide, does not pass" of a downlight in its maker's own hole of 85 mm.
it("may be narrower than that by the flange on both sides", () => {
  expect(cutOutFault(downlight({ filed, cutOut: 0.085 }), true)).toBeUndefined();
  expect(leastCutOut(downlight({ filed, cutOut: 0.085 }))).toBeCloseTo(0.036, 9);
  expect(cutOutFault(downlight({ filed, cutOut: 0.03 }), true)).toBe("small");
});

it("lets the body pass where the study states the body", () => {
  expect(cutOutFault(downlight({ cutOut: 0.085 }), true)).toBe("small");
  expect(
    cutOutFault(downlight({ filed: { housing: { ...filed.housing, width: 0.12 } }, cutOut: 0.085 }), true),
  ).toBe("small");
  expect(cutOutFault(downlight({ cutOut: 0.097 }), true)).toBeUndefined();
});
