/** Lamp and shade of revolution: from what a study says to what is traced, every assumption named. */

import type { ProfilePoint, RevolvedRing } from "../../geometry/revolved-surface.ts";
import { radians } from "../../units/quantities.ts";
import type {
  Assumption,
  DefinitionFault,
  Faulty,
  LampDocument,
  ShadeAssembly,
  ShadeDocument,
} from "./definition.ts";
import { FINISHES } from "./finishes.ts";
import type { LampFinish } from "./lamp.ts";
import { lampDiameter } from "./lamp-shape.ts";
import {
  coneRings,
  formRings,
  type ShadeForm,
  type ShadeMaterial,
  type ShadeSegment,
  segmentsAlong,
  subdivide,
} from "./shade.ts";
import { surfaceOf } from "./surface-definition.ts";

const HEIGHT_SHARE: Readonly<Record<ShadeForm, number>> = {
  cone: 0.8,
  dome: 0.6,
  bell: 0.75,
  drum: 0.7,
  cylinder: 1.6,
  globe: 1,
  bowl: 0.4,
  disc: 0.12,
};
const TOP_SHARE: Readonly<Record<ShadeForm, number>> = {
  cone: 0.25,
  dome: 0.25,
  bell: 0.2,
  drum: 0.9,
  cylinder: 1,
  globe: 0,
  bowl: 0,
  disc: 0.3,
};
/** Forms whose top is open unless said otherwise. */
const OPEN_TOP = new Set<ShadeForm>(["drum", "bowl"]);

/** Resolves lamp and a shade of revolution; faults instead where they cannot be. */
export function resolveRevolved(
  lamp: LampDocument,
  shade: ShadeDocument,
  drawn: ShadeForm | readonly ProfilePoint[],
): ShadeAssembly | Faulty {
  const assumptions: Assumption[] = [];
  const faults: DefinitionFault[] = [];
  const assume = <T>(key: string, given: T | undefined, value: T, why: string): T => {
    if (given !== undefined) return given;
    assumptions.push({ key, value, why });
    return value;
  };

  const form = typeof drawn === "string" ? drawn : undefined;
  let rings: RevolvedRing[];
  let height: number;
  let diameter: number;
  if (form === undefined) {
    const points = drawn as readonly ProfilePoint[];
    const lowest = Math.min(...points.map(([, z]) => z));
    rings = coneRings(subdivide(points.map(([r, z]) => [r, z - lowest])));
    height = Math.max(...points.map(([, z]) => z)) - lowest;
    diameter = 2 * Math.max(...points.map(([r]) => r));
    if (points[0][1] > points[points.length - 1][1]) {
      faults.push({
        key: "/shade/profile",
        message: "The profile is drawn from the top down.",
        expected: "its points from the lower rim upwards",
        received: `a first point at ${points[0][1]} m above the last at ${points[points.length - 1][1]} m`,
      });
    }
  } else {
    if (shade.diameter === undefined) {
      faults.push({
        key: "/shade/diameter",
        message: "The shade has no diameter.",
        expected: "its largest diameter",
        received: "nothing",
      });
    }
    diameter = shade.diameter ?? 0.3;
    height = assume(
      "/shade/height",
      shade.height,
      diameter * HEIGHT_SHARE[form],
      `a common height for this form, ${HEIGHT_SHARE[form]} of the diameter (common practice, no source)`,
    );
    const top = assume(
      "/shade/topDiameter",
      shade.topDiameter,
      diameter * TOP_SHARE[form],
      `a common top for this form, ${TOP_SHARE[form]} of the diameter (common practice, no source)`,
    );
    rings = formRings(form, diameter, height, Math.min(top, diameter));
  }

  const finish = assume(
    "/shade/finish",
    shade.finish,
    "white",
    "the commonest lining of a task pendant (common practice, no source)",
  );
  const base = FINISHES[finish];
  const inside = surfaceOf(shade.inside, finish);
  const outside = surfaceOf(shade.outside, finish);
  const material: ShadeMaterial = {
    inside: inside.inside,
    specular: inside.specular,
    outside: outside.outside,
    transmittance:
      shade.transmittance ??
      (shade.inside?.finish === undefined ? base.material.transmittance : inside.transmittance),
    diffusion: shade.diffusion ?? base.material.diffusion,
  };
  const segments: ShadeSegment[] = [];
  const bottom = shade.bottom ?? "open";
  const rim = rings[0].from[0];
  if (bottom !== "open" && rim > 0) {
    const cover =
      bottom === "closed" ? material : surfaceOf(shade.diffuser, shade.diffuser?.finish ?? "opal plastic");
    segments.push(
      ...segmentsAlong(
        coneRings(
          subdivide(
            [
              [0, 0],
              [rim, 0],
            ],
            6,
          ),
        ),
        cover,
      ),
    );
  }
  segments.push(...segmentsAlong(rings, material));
  const [topRadius, topHeight] = rings[rings.length - 1].to;
  const topOpen = (shade.top ?? (form !== undefined && OPEN_TOP.has(form) ? "open" : "closed")) === "open";
  if (!topOpen && topRadius > 0) {
    segments.push(
      ...segmentsAlong(
        coneRings(
          subdivide(
            [
              [topRadius, topHeight],
              [0, topHeight],
            ],
            3,
          ),
        ),
        material,
      ),
    );
  }
  for (const { material: m } of segments) {
    for (const reflectance of [m.inside, m.outside]) {
      if (reflectance + m.transmittance > 1) {
        faults.push({
          key: "/shade",
          message: "The shade would send on more light than it receives.",
          expected: "reflectance and transmittance that add to at most 1",
          received: `${reflectance} and ${m.transmittance}`,
        });
      }
    }
  }

  const lampFinish = assume<LampFinish>(
    "/lamp/finish",
    lamp.finish,
    lamp.beam === undefined ? "frosted" : "directional",
    lamp.beam === undefined ? "a frosted lamp (common practice, no source)" : "a beam angle was given",
  );
  let lampSize = lamp.diameter;
  if (lampSize === undefined && lamp.shape !== undefined) {
    lampSize = lampDiameter(lamp.shape);
    if (lampSize === undefined) {
      faults.push({
        key: "/lamp/shape",
        message: "The lamp's shape code is not understood.",
        expected: 'letters and a number such as "A19", "G95" or "PAR30", or "diameter" instead',
        received: JSON.stringify(lamp.shape),
      });
    }
  }
  const lampWidth = assume(
    "/lamp/diameter",
    lampSize,
    0.06,
    "an A19 or A60 lamp, 60 mm (common practice, no source)",
  );
  const closed = bottom !== "open" || form === "globe";
  const z = assume(
    "/lamp/height",
    lamp.height,
    form === "globe" || form === "bowl" ? height / 2 : Math.max(lampWidth / 2, height * 0.45),
    form === "globe" || form === "bowl"
      ? "the middle of the shade"
      : "45 % of the shade's height above its rim (common practice, no source)",
  );
  if (closed && (z - lampWidth / 2 < 0 || z + lampWidth / 2 > height)) {
    faults.push({
      key: "/lamp/height",
      message: "The lamp does not fit inside the closed shade.",
      expected: `a lamp between the shade's ends, 0 to ${height} m`,
      received: `a lamp from ${(z - lampWidth / 2).toFixed(3)} to ${(z + lampWidth / 2).toFixed(3)} m`,
    });
  }
  const count = lamp.count ?? 1;
  const radius = lamp.radius ?? 0;
  if (radius + lampWidth / 2 > diameter / 2 && radius > 0) {
    faults.push({
      key: "/lamp/radius",
      message: "The lamps reach beyond the shade.",
      expected: `at most ${(diameter / 2 - lampWidth / 2).toFixed(3)} m`,
      received: `${radius} m`,
    });
  }
  if (faults.length > 0) return { kind: "faulty", faults };
  return {
    kind: "revolved",
    shade: {
      segments,
      diameter,
      height,
      solid: segments.every((s) => s.material.transmittance === 0) && bottom === "open",
    },
    lamp: {
      flux: lamp.flux,
      finish: lampFinish,
      diameter: lampWidth,
      beam: lamp.beam === undefined ? undefined : radians(lamp.beam),
      orientation: lamp.orientation ?? "base-up",
      z,
      radius,
      count,
      filamentLength: lamp.filament,
      // Off-axis lamps are not drawn, so neither are their caps.
      capDiameter: count > 1 ? 0 : undefined,
    },
    assumptions,
  };
}
