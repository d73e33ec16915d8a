/**
 * The same LM-63 text through two other open readers, three's IESLoader and Babylon.js' LoadIESData. Both give
 * intensities relative to the peak on a grid of degrees, so shapes are compared, inside the measured range only
 * (one extrapolates beyond it). Absolute candela are held by hand-worked files and flux integrals elsewhere.
 */
import { LoadIESData } from "@babylonjs/core/Lights/IES/iesLoader.js";
import { FloatType } from "three";
import { IESLoader } from "three/examples/jsm/loaders/IESLoader.js";
import { afterAll, describe, expect, it } from "vitest";
import type { IntensityDistribution } from "../../../src/photometry/intensity-distribution.ts";
import { intensityAt } from "../../../src/photometry/reference-lookup.ts";
import { writeLm63 } from "../../../src/photometry/writers/lm63-writer.ts";
import { radians } from "../../../src/units/quantities.ts";
import { range, tabulated } from "../../support/distributions.ts";
import { bytesOf, lm63, photometryOf, readGood } from "../../support/photometric-text.ts";

/** Their tables are single precision: 2^-24 relative, and angles at i·180/179 carry rounding of their own. */
const SINGLE = 2e-6;
let worst = 0;
afterAll(() =>
  console.log(`worst error against two other LM-63 readers: ${worst.toExponential(1)} of the peak`),
);

const lobe = (C: number, gamma: number) =>
  900 * Math.max(0, Math.cos(gamma)) ** 3 * (1 + 0.3 * Math.cos(C) + 0.2 * Math.sin(C)) + 5 + gamma;
const written = (horizontal: number[], vertical: number[], I = lobe) => {
  const text = writeLm63(photometryOf(tabulated("C", I, horizontal, vertical)));
  if (!text.ok) throw new Error("not written");
  return text.value;
};
const FILES: readonly (readonly [name: string, text: string])[] = [
  ["one plane to the zenith", written([0], range(0, 180, 5))],
  ["one plane, uneven angles", written([0], [0, 1, 4, 9, 30, 31, 77, 90])],
  [
    "no symmetry",
    written(range(0, 360, 15), range(0, 180, 10), (C, g) => lobe(Math.round(C * 1e6) === 6283185 ? 0 : C, g)),
  ],
  ["uneven planes", written([0, 10, 95, 200, 360], range(0, 90, 7.5), (C, g) => lobe(C > 6 ? 0 : C, g))],
  [
    "a quadrant",
    lm63({
      ten: "1 -1 1 4 3 1 2 0 0 0",
      vertical: "0 30 60 90",
      horizontal: "0 30 90",
      candela: "9 8 4 1\r\n9 7 3 1\r\n9 5 2 0",
    }),
  ],
  [
    "half a circle, multiplied",
    lm63({
      ten: "1 900 2.5 3 3 1 2 0 0 0",
      three: "0.9 1 5",
      horizontal: "0 45 180",
      candela: "9 8 4\r\n9 7 3\r\n9 5 2",
    }),
  ],
];

const span = ({ vertical }: IntensityDistribution) => [vertical[0], vertical[vertical.length - 1]];

describe.each(FILES)("%s", (_, text) => {
  const { distribution } = readGood(text);
  const peak = distribution.intensity.reduce((most, value) => Math.max(most, value), 0);
  const [least, most] = span(distribution);
  let off = 0;
  const compare = (theirs: number, C: number, gamma: number) => {
    if (gamma < least || gamma > most) return 0;
    const error = Math.abs(theirs - intensityAt(distribution, C, gamma) / peak);
    off = Math.max(off, error);
    worst = Math.max(worst, off);
    return 1;
  };

  it("agrees with three", () => {
    const loader = new IESLoader() as IESLoader & { type: number };
    loader.type = FloatType;
    const { image } = loader.parse(text);
    const data = image.data as unknown as ArrayLike<number>;
    const planes = data.length / 180;
    let compared = 0;
    for (let C = 0; C < planes; C++)
      for (let i = 0; i < 180; i++)
        compared += compare(data[C * 180 + i], radians(C), radians((i * 180) / 179));
    expect(compared).toBeGreaterThan(80);
    expect(off).toBeLessThan(SINGLE);
  });

  it("agrees with Babylon.js over the planes it fills", () => {
    const { data } = LoadIESData(bytesOf(text));
    const planes = /\r\n0\r\n/.test(text) ? 1 : readEnd(text);
    let compared = 0;
    for (let C = 0; C < planes; C++)
      for (let gamma = 0; gamma < 180; gamma++)
        compared += compare(data[C * 180 + gamma], radians(C), radians(gamma));
    expect(compared).toBeGreaterThan(80);
    expect(off).toBeLessThan(SINGLE);
  });
});

/** Last horizontal angle of the text (degrees): that reader mirrors nothing beyond it. */
function readEnd(text: string): number {
  const { symmetry } = readGood(text).distribution;
  return symmetry === "quadrant" ? 90 : symmetry === "none" ? 360 : 180;
}
