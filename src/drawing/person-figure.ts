/** A person in elevation or section: head, neck, shoulders, arms, down to whatever hides the rest. */

import { ellipse } from "../geometry/polygon.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Person } from "../scene/scene.ts";
import { line, type Mark } from "./drawing.ts";
import type { SheetScale } from "./sheet-scale.ts";

const HEAD = { width: 0.155, depth: 0.19, height: 0.225 } as const;

/** A person as far as the top hides nothing: head, neck, shoulders, arms. Breadths of a typical adult: common
 * practice, no source. */
export function figure(
  person: Person,
  place: number,
  eyePlace: number,
  turned: number,
  cutAt: number,
  scale: Pick<SheetScale, "x" | "perMetre">,
  y: (z: number) => number,
): Mark[] {
  const { x, perMetre } = scale;
  const frontal = Math.abs(Math.sin(turned));
  const half = 0.5 * (0.44 * frontal + 0.27 * (1 - frontal));
  const eye = person.eye[2];
  const marks: Mark[] = [];
  for (const side of [-1, 1]) {
    // From under the jaw down the neck, over the shoulder and down the arm: place, height.
    const lean = (t: number): number => eyePlace + (place - eyePlace) * t;
    const spine: Vec2[] = [
      [lean(0) + side * 0.052, eye - 0.1],
      [lean(0.15) + side * 0.056, eye - 0.155],
      [lean(0.3) + side * half * 0.62, eye - 0.215],
      [lean(0.4) + side * half * 0.92, eye - 0.26],
      [lean(0.6) + side * half, eye - 0.36],
      [lean(0.85) + side * half * 1.02, eye - 0.58],
      [place + side * half * 0.98, eye - 0.8],
    ];
    const points: Vec2[] = [];
    for (const [a, z] of smoothCurve(spine)) {
      if (z < cutAt) {
        points.push([x(a), y(cutAt)]);
        break;
      }
      points.push([x(a), y(z)]);
    }
    const hip = eye - 0.8;
    // Below the hip a standing figure goes on to whatever cuts it; a seated one ends at the seat.
    if (hip > cutAt && person.posture !== "seated") points.push([x(place + side * half * 0.8), y(cutAt)]);
    marks.push(line(points, "person", "quiet", 0.75));
  }
  const head = ellipse(
    x(eyePlace),
    y(eye + 0.005),
    (HEAD.width * frontal + HEAD.depth * (1 - frontal)) * 0.5 * perMetre,
    (HEAD.height / 2) * perMetre,
  );
  marks.push(line(head, "head", "quiet", 0.75, { closed: true, fill: "paper" }));
  return marks;
}

/** Points of an interpolating cubic through a polyline (Catmull-Rom), six to a span. */
function smoothCurve(through: readonly Vec2[]): Vec2[] {
  const at = (i: number): Vec2 => through[Math.max(0, Math.min(through.length - 1, i))];
  const points: Vec2[] = [];
  for (let i = 0; i + 1 < through.length; i++) {
    for (let k = 0; k < 6; k++) {
      const t = k / 6;
      const mix = (n: 0 | 1): number => {
        const [p0, p1, p2, p3] = [at(i - 1)[n], at(i)[n], at(i + 1)[n], at(i + 2)[n]];
        return p1 + 0.5 * t * (p2 - p0 + t * (2 * p0 - 5 * p1 + 4 * p2 - p3 + t * (3 * (p1 - p2) + p3 - p0)));
      };
      points.push([mix(0), mix(1)]);
    }
  }
  points.push(through[through.length - 1]);
  return points;
}
