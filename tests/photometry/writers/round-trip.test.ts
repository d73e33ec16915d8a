/** Written and read back, a distribution is the same to the digits that were written, in every format. */
import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import type { Outcome } from "../../../src/diagnostics/issue.ts";
import type { IntensityDistribution, Symmetry } from "../../../src/photometry/intensity-distribution.ts";
import { luminousFlux } from "../../../src/photometry/luminous-flux.ts";
import type { LuminousOpening, OpeningShape } from "../../../src/photometry/luminous-opening.ts";
import type { Photometry } from "../../../src/photometry/photometry.ts";
import { expandPlanes } from "../../../src/photometry/readers/plane-expansion.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { writeEulumdat } from "../../../src/photometry/writers/eulumdat-writer.ts";
import { writeLm63 } from "../../../src/photometry/writers/lm63-writer.ts";
import { arbitraryTypeAB, arbitraryTypeC } from "../../support/distributions.ts";
import { bytesOf, photometryOf } from "../../support/photometric-text.ts";

/** Ten significant digits are written: 5e-10, and rounding when candela per 1000 lm are scaled back. */
const DIGITS = 6e-10;
/** cd; numbers below 1e-30 are written as 0. */
const DARKEST = 1e-18;
let worst = 0;
afterAll(() =>
  console.log(`worst error of a written and re-read intensity: ${worst.toExponential(1)} relative`),
);

/** Tables with a symmetry of their own: planes stored over its range, then expanded as a reader would. */
const symmetric: fc.Arbitrary<IntensityDistribution> = fc
  .record({
    symmetry: fc.constantFrom<Symmetry>(
      "quadrant",
      "mirrored in C0–C180",
      "mirrored in C90–C270",
      "rotational",
    ),
    inner: fc.uniqueArray(fc.integer({ min: 1, max: 89 }), { maxLength: 5 }),
    angles: fc.uniqueArray(fc.integer({ min: 0, max: 1800 }), { minLength: 2, maxLength: 9 }),
    values: fc.array(fc.double({ min: 0, max: 1e5, noNaN: true }), { minLength: 97, maxLength: 97 }),
  })
  .map(({ symmetry, inner, angles, values }) => {
    const [first, span] = {
      quadrant: [0, 1],
      "mirrored in C0–C180": [0, 2],
      "mirrored in C90–C270": [90, 2],
    }[symmetry as string] ?? [0, 0];
    const shares = [0, ...inner.sort((a, b) => a - b), 90];
    const horizontal = span === 0 ? [0] : shares.map((share) => first + span * share);
    if (symmetry === "mirrored in C90–C270" && !horizontal.includes(180)) horizontal.push(180);
    horizontal.sort((a, b) => a - b);
    const vertical = angles.sort((a, b) => a - b).map((tenth) => tenth / 10);
    const intensity = Float64Array.from(
      { length: horizontal.length * vertical.length },
      (_, i) => values[i % values.length],
    );
    return expandPlanes({ type: "C", symmetry, horizontal, vertical, intensity }).distribution;
  });

function expectSame(back: IntensityDistribution, sent: IntensityDistribution): void {
  expect(back.type).toBe(sent.type);
  expect(Array.from(back.horizontal)).toEqual(Array.from(sent.horizontal));
  expect(Array.from(back.vertical)).toEqual(Array.from(sent.vertical));
  for (let i = 0; i < sent.intensity.length; i++) {
    const error = Math.abs(back.intensity[i] - sent.intensity[i]) / Math.max(sent.intensity[i], DARKEST);
    worst = Math.max(worst, error);
    if (error > DIGITS) expect(back.intensity[i]).toBe(sent.intensity[i]);
  }
}

function reread(text: Outcome<string>): Photometry {
  if (!text.ok) throw new Error(text.issues[0].message);
  const back = readPhotometry(bytesOf(text.value), { file: "written" });
  if (!back.ok) throw new Error(`${back.issues[0].message}\n${text.value.slice(0, 2000)}`);
  return back.value;
}

const hasLight = (distribution: IntensityDistribution) => luminousFlux(distribution).total > 1e-3;
/** Bright enough tables: what is below the digits of the brightest may be noise. */
const typeC = fc.oneof(arbitraryTypeC, symmetric).filter(hasLight);

describe("a written file", () => {
  it("LM-63 reads back as the same distribution, any type", () => {
    fc.assert(
      fc.property(
        fc.oneof(typeC, arbitraryTypeAB),
        fc.constantFrom("2002" as const, "2019" as const),
        (d, edition) => {
          // The planes of types A and B that LM-63 takes for half of a mirrored pair begin at 0.
          fc.pre(d.type === "C" || d.horizontal[0] !== 0);
          expectSame(reread(writeLm63(photometryOf(d), { edition })).distribution, d);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("EULUMDAT reads back as the same distribution, relative and absolute", () => {
    fc.assert(
      fc.property(
        typeC,
        fc.boolean(),
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        (d, absolute, ratedFlux) => {
          const back = reread(writeEulumdat(photometryOf(d, { absolute, ratedFlux })));
          expectSame(back.distribution, d);
          expect(back.absolute).toBe(absolute);
          expect(back.ratedFlux).toBeCloseTo(ratedFlux, 4);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("keeps the declared symmetry, and so stores no plane twice", () => {
    fc.assert(
      fc.property(symmetric.filter(hasLight), (d) => {
        const text = writeEulumdat(photometryOf(d));
        const back = reread(text);
        if (d.symmetry !== "mirrored in C90–C270") expect(back.distribution.symmetry).toBe(d.symmetry);
      }),
      { numRuns: 100 },
    );
  });

  it("does not write a symmetry that its values lack", () => {
    const d: IntensityDistribution = {
      type: "C",
      symmetry: "quadrant",
      horizontal: Float64Array.of(0, Math.PI / 2, Math.PI, 1.5 * Math.PI, 2 * Math.PI),
      vertical: Float64Array.of(0, Math.PI / 2),
      intensity: Float64Array.of(100, 50, 100, 40, 100, 30, 100, 40, 100, 50),
    };
    for (const back of [reread(writeLm63(photometryOf(d))), reread(writeEulumdat(photometryOf(d)))]) {
      expect(back.distribution.symmetry).toBe("none");
      expectSame(back.distribution, d);
    }
  });

  it("keeps its flux within 1e-9 from LM-63 to EULUMDAT and back", () => {
    fc.assert(
      fc.property(typeC, (d) => {
        const flux = luminousFlux(d).total;
        const there = reread(writeEulumdat(reread(writeLm63(photometryOf(d)))));
        const back = reread(writeLm63(there));
        expect(Math.abs(luminousFlux(back.distribution).total / flux - 1)).toBeLessThan(1e-9 * 3);
      }),
      { numRuns: 100 },
    );
  });
});

describe("a written opening", () => {
  const sizes = { length: 1.2, width: 0.3, height: 0.05 };
  const opening = (shape: OpeningShape, extents: Partial<LuminousOpening>): LuminousOpening => ({
    shape,
    length: 0,
    width: 0,
    height: 0,
    ...extents,
  });
  const shapes: readonly LuminousOpening[] = [
    opening("point", {}),
    opening("rectangle", { length: 1.2, width: 0.3 }),
    opening("disc", { length: 0.4, width: 0.4 }),
    opening("disc", { length: 1.2, width: 0.3 }),
    opening("upright disc", { width: 0.3, height: 0.2 }),
    opening("box", sizes),
    opening("ellipsoid", sizes),
    opening("ellipsoid", { length: 0.4, width: 0.4, height: 0.4 }),
    opening("cylinder", { length: 0.4, width: 0.4, height: 0.1 }),
    opening("cylinder", sizes),
    opening("cylinder along length", { length: 1.2, width: 0.1, height: 0.1 }),
    opening("cylinder along width", { length: 0.1, width: 1.2, height: 0.1 }),
  ];
  const d = photometryOf();

  it.each(shapes)("LM-63 $shape reads back as itself", (shape) => {
    for (const edition of ["2002", "2019"] as const)
      expect(reread(writeLm63({ ...d, opening: shape }, { edition })).opening).toEqual(shape);
  });

  it.each(shapes.filter(({ shape, length, width }) => /point|rectangle|box/.test(shape) || length === width))(
    "EULUMDAT $shape reads back as itself, or as a cylinder for a sphere",
    (shape) => {
      const back = reread(writeEulumdat({ ...d, opening: shape })).opening;
      expect(back).toEqual({ ...shape, shape: shape.shape === "ellipsoid" ? "cylinder" : shape.shape });
    },
  );

  it("lies lengthwise along C0–C180 in LM-63 and along C90–C270 in EULUMDAT, as both formats say", () => {
    const rectangle = { ...d, opening: opening("rectangle", { length: 1.2, width: 0.3 }) };
    const lm63 = writeLm63(rectangle);
    const eulumdat = writeEulumdat(rectangle);
    if (!lm63.ok || !eulumdat.ok) throw new Error("not written");
    // LM-63: width, length, height.
    expect(lm63.value).toContain(" 0.3 1.2 0\r\n");
    // EULUMDAT lines 16 and 17: length, width.
    expect(eulumdat.value.split("\r\n").slice(15, 17)).toEqual(["300", "1200"]);
  });

  it("warns of a shape that EULUMDAT has no name for", () => {
    const text = writeEulumdat({ ...d, opening: opening("upright disc", { width: 0.3, height: 0.2 }) });
    expect(text.ok && text.warnings.map((w) => w.code)).toEqual(["eulumdat-opening"]);
  });
});
