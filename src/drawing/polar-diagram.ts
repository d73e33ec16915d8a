/**
 * The polar diagram of a luminaire: intensity (cd) as distance from the centre, γ from straight down, one curve
 * through C0 and C180, one through C90 and C270.
 *
 *   x = I(θ) sin θ, y = I(θ) cos θ (down), θ < 0 on the side of C180 or C270
 *
 * Solid and dashed tell the curves apart without colour.
 */

import type { Vec2 } from "../geometry/vector.ts";
import { roundAbove, STEPS } from "../numerics/round-above.ts";
import { beamAngle, FIELD_LEVEL, type Section, sectionAt } from "../photometry/beam-angle.ts";
import { resampleToC } from "../photometry/c-gamma-resampling.ts";
import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import { maximumIntensity } from "../photometry/maximum-intensity.ts";
import { measuredSymmetry } from "../photometry/symmetry.ts";
import { degrees, radians } from "../units/quantities.ts";
import { beamText } from "../words/beam-text.ts";
import { type Dash, type Drawing, type Ink, line, type Mark, text, textWidth } from "./drawing.ts";

const WIDTH = 440;
const MARGIN = 24;
const RADIUS = 160;
const CENTRE_X = WIDTH / 2;
const SPOKE = 30;
/** Share of the peak above the horizontal from which the upper half is drawn. */
const UPPER_HALF_FROM = 0.01;

interface Curve {
  readonly name: string;
  readonly section: Section;
  readonly ink: Ink;
  readonly dash: Dash;
  readonly widths: string;
}

/** The diagram of any distribution; types A and B by their 1° C–γ resampling. `title` and `subtitle` may come
 * from a file: untrusted, escaped by the medium. */
export function polarDiagram(distribution: IntensityDistribution, title: string, subtitle = ""): Drawing {
  const typeC = resampleToC(distribution).distribution;
  const maximum = maximumIntensity(typeC);
  const peak = maximum.intensity;
  const { curves, mean } = curvesOf(typeC);
  const upper = curves.some(({ section }) => reachesUp(section, UPPER_HALF_FROM * peak));
  const step = ringStep(peak);
  const rings = Math.max(1, Math.ceil(peak / step - 1e-9));
  const centre: Vec2 = [CENTRE_X, 76 + (upper ? RADIUS + 18 : 26)];
  const legend = centre[1] + RADIUS + 48;

  const marks: Mark[] = [
    text([MARGIN, 32], clipped(title, 15, true), "title", { ink: "ink", size: 15, strong: true }),
    text([MARGIN, 52], clipped(subtitle, 12), "title", { size: 12 }),
    ...(curves.length > 1 ? sides() : []),
    ...spokes(centre, upper),
    ...Array.from({ length: rings }, (_, i) =>
      line(
        arc(centre, (RADIUS * (i + 1)) / rings, upper),
        "candela ring",
        i + 1 === rings ? "quiet" : "hairline",
        0.75,
      ),
    ),
    ...curves.map(({ section, ink, dash }) =>
      line(outline(section, RADIUS / (rings * step), centre), "intensity curve", ink, 1.5, {
        closed: true,
        dash,
      }),
    ),
    ...ringLabels(centre, rings, step),
    ...curves.flatMap(({ name, ink, dash, widths }, i): Mark[] => {
      const y = legend + 22 * i;
      const sample: Vec2[] = [
        [MARGIN, y - 4],
        [MARGIN + 44, y - 4],
      ];
      return [
        line(sample, "legend", ink, 1.5, { dash }),
        text([MARGIN + 54, y], name, "legend", { ink: "ink", size: 12, strong: true }),
        text([MARGIN + 130, y], widths, "legend", { ink: "ink", size: 12 }),
      ];
    }),
    ...(mean === "" ? [] : [text([MARGIN + 54, legend + 22 * curves.length], mean, "legend", { size: 12 })]),
  ];
  return {
    width: WIDTH,
    height: legend + 22 * (curves.length + (mean === "" ? 0 : 1)),
    marks,
    luminaires: [],
    summary:
      `Luminous intensity in candela against the angle from straight down, ${curves.map((c) => c.name).join(" and ")}. ` +
      `Largest ${number(peak)} cd at C ${number(degrees(maximum.C), 3)}°, γ ${number(degrees(maximum.gamma), 3)}°. ` +
      `${[...curves.map((c) => `${c.name}: ${c.widths}`), ...(mean === "" ? [] : [mean])].join("; ")}.`,
  };
}

/** @returns the planes drawn, and the mean over all of the table's, which is what luminaires are listed by; empty where they are one */
function curvesOf(typeC: IntensityDistribution): { curves: Curve[]; mean: string } {
  const beam = beamAngle(typeC);
  const field = beamAngle(typeC, FIELD_LEVEL);
  const widths = (C: number) => {
    const at = ({ planes }: typeof beam) => {
      const angle = planes.find((plane) => Math.abs(plane.C - C) < 1e-6)?.ofMaximum?.angle;
      return angle === undefined ? "none" : `${number(degrees(angle), 3)}°`;
    };
    return `half of maximum ${at(beam)}, a tenth ${at(field)}`;
  };
  const first: Curve = {
    name: "all planes",
    section: sectionAt(typeC, 0),
    ink: "luminaire",
    dash: "solid",
    widths: widths(0),
  };
  if (measuredSymmetry(typeC) === "rotational") return { curves: [first], mean: "" };
  const second: Curve = {
    name: "C90–C270",
    section: sectionAt(typeC, Math.PI / 2),
    ink: "ink",
    dash: "dashed",
    widths: widths(Math.PI / 2),
  };
  const angles = beam.planes.flatMap(({ ofMaximum }) =>
    ofMaximum === undefined ? [] : [degrees(ofMaximum.angle)],
  );
  const mean = beam.ofMaximum === undefined ? "" : `beam ${beamText(degrees(beam.ofMaximum), angles)}`;
  return { curves: [{ ...first, name: "C0–C180" }, second], mean };
}

/** Which half-planes lie on which side. */
function sides(): Mark[] {
  return [
    text([MARGIN, 76], "C180, C270", "side"),
    text([WIDTH - MARGIN, 76], "C0, C90", "side", { anchor: "end" }),
  ];
}

/** Spokes and their angles every 30°, both sides. */
function spokes(centre: Vec2, upper: boolean): Mark[] {
  const marks: Mark[] = [];
  for (let angle = 0; angle <= (upper ? 180 : 90); angle += SPOKE) {
    for (const side of angle % 180 === 0 ? [1] : [1, -1]) {
      const [sin, cos] = [side * Math.sin(radians(angle)), Math.cos(radians(angle))];
      const end: Vec2 = [centre[0] + RADIUS * sin, centre[1] + RADIUS * cos];
      marks.push(
        line([centre, end], "spoke", angle % 90 === 0 ? "quiet" : "hairline", 0.75),
        text(
          [centre[0] + (RADIUS + 8) * sin, centre[1] + (RADIUS + (angle === 180 ? 8 : 14)) * cos + 4],
          `${angle}°`,
          "angle",
          { anchor: angle % 180 === 0 ? "middle" : side > 0 ? "start" : "end" },
        ),
      );
    }
  }
  return marks;
}

/** Half or whole circle in steps of 3°, which bulge by a twentieth of a unit. */
function arc(centre: Vec2, radius: number, upper: boolean): Vec2[] {
  const points: Vec2[] = [];
  for (let angle = upper ? -180 : -90; angle <= (upper ? 180 : 90); angle += 3)
    points.push([
      centre[0] + radius * Math.sin(radians(angle)),
      centre[1] + radius * Math.cos(radians(angle)),
    ]);
  return points;
}

/** Candela along the right-hand horizontal, above the line, where most beams leave room. */
function ringLabels(centre: Vec2, rings: number, step: number): Mark[] {
  const unit = text([centre[0] + RADIUS - 5, centre[1] + 14], "cd", "candela", {
    anchor: "end",
    ground: "sheet",
  });
  const values = Array.from({ length: rings }, (_, i) =>
    text([centre[0] + (RADIUS * (i + 1)) / rings - 3, centre[1] - 5], number((i + 1) * step), "candela", {
      anchor: "end",
      ground: "sheet",
    }),
  );
  return [...values, unit];
}

function outline({ theta, intensity }: Section, scale: number, centre: Vec2): Vec2[] {
  const points: Vec2[] = [];
  const add = (angle: number, value: number) => {
    const x = centre[0] + scale * value * Math.sin(angle);
    const y = centre[1] + scale * value * Math.cos(angle);
    const last = points[points.length - 1];
    // A quarter of a unit is not seen; a table of a thousand angles need not be a thousand points.
    if (last === undefined || Math.hypot(x - last[0], y - last[1]) >= 0.25) points.push([x, y]);
  };
  add(theta[0], intensity[0]);
  for (let i = 1; i < theta.length; i++) {
    // Linear in the angle is no straight line here: coarse steps get points in between.
    const pieces = Math.max(1, Math.min(90, Math.ceil(degrees(theta[i] - theta[i - 1]) / 2)));
    for (let k = 1; k <= pieces; k++) {
      const t = k / pieces;
      add(
        theta[i - 1] + t * (theta[i] - theta[i - 1]),
        intensity[i - 1] + t * (intensity[i] - intensity[i - 1]),
      );
    }
  }
  return points;
}

function reachesUp({ theta, intensity }: Section, threshold: number): boolean {
  return theta.some((angle, i) => Math.abs(angle) > Math.PI / 2 + 1e-6 && intensity[i] > threshold);
}

/** A step that gives three to five rings. */
export function ringStep(peak: number): number {
  if (!(peak > 0) || !Number.isFinite(peak)) return 1;
  return roundAbove((peak / 5) * (1 - 1e-9), STEPS);
}

/** What of a line fits the width. */
function clipped(words: string, size: number, strong = false): string {
  const room = WIDTH - 2 * MARGIN;
  if (words.length < 200 && textWidth(words, size, strong) <= room) return words;
  const letters = [...words.slice(0, 400)];
  while (letters.length > 0 && textWidth(`${letters.join("")}…`, size, strong) > room) letters.pop();
  return `${letters.join("")}…`;
}

function number(x: number, figures = 4): string {
  return String(Number(x.toPrecision(figures)));
}
