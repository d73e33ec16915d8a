/** Lamp and shade of revolution: from what a study says to what is traced, every assumption named. */

import type { Ledger } from "../../diagnostics/ledger.ts";
import { phrase } from "../../diagnostics/phrase.ts";
import type { ProfilePoint, RevolvedRing } from "../../geometry/revolved-surface.ts";
import { radians } from "../../units/quantities.ts";
import { FINISHES, type FinishName } from "./finishes.ts";
import type { LampDefinition } from "./lamp.ts";
import { isLampForm, lampDiameter } from "./lamp-shape.ts";
import {
  mouthOf,
  type Shade,
  type ShadeMaterial,
  type ShadeSegment,
  segmentsAlong,
  subdivide,
} from "./shade.ts";
import type { LampDocument, ShadeDocument } from "./shade-document.ts";
import { coneRings, type ShadeForm } from "./shade-form.ts";
import { SHADE_FORMS, type ShadeFormName } from "./shade-forms.ts";
import { surfaceOf } from "./surface-definition.ts";

const FAULT = "shade-definition";

export interface RevolvedAssembly {
  readonly kind: "revolved";
  readonly shade: Shade;
  readonly lamp: LampDefinition;
}

/** Resolves lamp and a shade of revolution. `profile`: a form's name or [radius, height] from the lower rim up. */
export function resolveRevolved(
  lamp: LampDocument,
  shade: ShadeDocument,
  profile: ShadeFormName | readonly ProfilePoint[],
  log: Ledger,
): RevolvedAssembly {
  const form: ShadeForm | undefined = typeof profile === "string" ? SHADE_FORMS[profile] : undefined;
  const side =
    typeof profile === "string" ? formSide(SHADE_FORMS[profile], shade, log) : drawnSide(profile, log);
  const { segments, topOpen } = segmentsOf(side.rings, shade, form, log);
  const bottom = shade.bottom ?? "open";
  return {
    kind: "revolved",
    shade: {
      segments,
      diameter: side.diameter,
      height: side.height,
      mouth: mouthOf(segments, side.rings, { below: bottom !== "closed", above: topOpen }),
    },
    lamp: lampOf(lamp, side, form, bottom !== "open" || form?.closed === true, log, closesAbove(shade, form)),
  };
}

/** Whether a named form has a lid or runs to its axis; of a drawn side it may be a bowl to light upward. */
const closesAbove = (shade: ShadeDocument, form: ShadeForm | undefined): boolean =>
  form !== undefined && (shade.top ?? (form.openTop === true ? "open" : "closed")) === "closed";

interface Side {
  readonly rings: readonly RevolvedRing[];
  readonly diameter: number;
  readonly height: number;
}

/** The side of a profile drawn by points. */
function drawnSide(profile: readonly ProfilePoint[], log: Ledger): Side {
  const [start] = profile;
  const isPoint = profile.every(([r, z]) => r === start[0] && z === start[1]);
  if (isPoint)
    log.error(
      FAULT,
      "/shade/profile",
      "The profile has no extent.",
      "points from the lower rim upwards, at least two of them apart",
      phrase`${profile.length} points in one place`,
    );
  const points: readonly ProfilePoint[] = isPoint
    ? [
        [0.1, 0],
        [0.1, 0.1],
      ]
    : profile;
  const heights = points.map(([, z]) => z);
  const lowest = Math.min(...heights);
  const [first, last] = [heights[0], heights[heights.length - 1]];
  if (first > last)
    log.error(
      FAULT,
      "/shade/profile",
      "The profile is drawn from the top down.",
      "its points from the lower rim upwards",
      phrase`a first point at ${first} above the last at ${last}`,
    );
  return {
    rings: coneRings(subdivide(points.map(([r, z]) => [r, z - lowest]))),
    diameter: 2 * Math.max(...points.map(([r]) => r)),
    height: Math.max(...heights) - lowest,
  };
}

function formSide(form: ShadeForm, shade: ShadeDocument, log: Ledger): Side {
  if (shade.diameter === undefined)
    log.error(FAULT, "/shade/diameter", "The shade has no diameter.", "its largest diameter", "nothing");
  const diameter = shade.diameter ?? 0.3;
  if ((shade.topDiameter ?? 0) > diameter)
    log.error(
      FAULT,
      "/shade/topDiameter",
      "The top is wider than the shade's largest diameter.",
      phrase`at most ${diameter}`,
      [shade.topDiameter ?? 0],
    );
  const height = log.fill(
    shade.height,
    "/shade/height",
    diameter * form.heightShare,
    `a common height for this form, ${form.heightShare} of the diameter (common practice, no source)`,
  );
  const top = log.fill(
    shade.topDiameter,
    "/shade/topDiameter",
    diameter * form.topShare,
    `a common top for this form, ${form.topShare} of the diameter (common practice, no source)`,
  );
  return {
    rings: form.rings({ radius: diameter / 2, top: Math.min(top, diameter) / 2, height }),
    diameter,
    height,
  };
}

/** Side, what closes it below, and its top. */
function segmentsOf(
  rings: readonly RevolvedRing[],
  shade: ShadeDocument,
  form: ShadeForm | undefined,
  log: Ledger,
): { readonly segments: ShadeSegment[]; readonly topOpen: boolean } {
  const finish = log.fill(
    shade.finish,
    "/shade/finish",
    "white",
    "the commonest lining of a task pendant (common practice, no source)",
  );
  const material = materialOf(shade, finish);
  const segments: ShadeSegment[] = [];
  const rim = rings[0].from[0];
  const bottom =
    rim > 0 ? log.fill(shade.bottom, "/shade/bottom", "open", "not given") : (shade.bottom ?? "open");
  if (bottom !== "open" && rim > 0) {
    const cover =
      bottom === "closed" ? material : surfaceOf(shade.diffuser, shade.diffuser?.finish ?? "opal plastic");
    segments.push(...plate([0, 0], [rim, 0], 6, cover));
  }
  segments.push(...segmentsAlong(rings, material));
  const [topRadius, topHeight] = rings[rings.length - 1].to;
  const usualTop = form?.openTop === true ? "open" : "closed";
  const top =
    topRadius > 0
      ? log.fill(shade.top, "/shade/top", usualTop, form === undefined ? "not given" : "that of the form")
      : (shade.top ?? usualTop);
  const topOpen = top === "open";
  if (!topOpen && topRadius > 0) segments.push(...plate([topRadius, topHeight], [0, topHeight], 3, material));
  for (const { material: m } of segments)
    for (const reflectance of [m.inside, m.outside])
      if (reflectance + m.transmittance > 1)
        log.error(
          FAULT,
          "/shade",
          "The shade would send on more light than it receives.",
          "reflectance and transmittance that add to at most 1",
          `${reflectance} and ${m.transmittance}`,
        );
  return { segments, topOpen };
}

function plate(
  from: ProfilePoint,
  to: ProfilePoint,
  pieces: number,
  material: ShadeMaterial,
): ShadeSegment[] {
  return segmentsAlong(coneRings(subdivide([from, to], pieces)), material);
}

function materialOf(shade: ShadeDocument, finish: FinishName): ShadeMaterial {
  const base = FINISHES[finish].material;
  const inside = surfaceOf(shade.inside, finish);
  return {
    inside: inside.inside,
    specular: inside.specular,
    outside: surfaceOf(shade.outside, finish).outside,
    transmittance:
      shade.transmittance ?? (shade.inside?.finish === undefined ? base.transmittance : inside.transmittance),
    diffusion: shade.diffusion ?? base.diffusion,
  };
}

function lampOf(
  lamp: LampDocument,
  { diameter, height }: Side,
  form: ShadeForm | undefined,
  closed: boolean,
  log: Ledger,
  closedAbove: boolean,
): LampDefinition {
  const finish = log.fill(
    lamp.finish,
    "/lamp/finish",
    lamp.beam === undefined ? "frosted" : "directional",
    lamp.beam === undefined ? "a frosted lamp (common practice, no source)" : "a beam angle was given",
  );
  const width = log.fill(
    lampWidth(lamp, log),
    "/lamp/diameter",
    0.06,
    "an A19 or A60 lamp, 60 mm (common practice, no source)",
  );
  const inMiddle = form?.lampInMiddle === true;
  const z = log.fill(
    lamp.height,
    "/lamp/height",
    inMiddle ? height / 2 : Math.max(width / 2, height * 0.45),
    inMiddle
      ? "the middle of the shade"
      : "45 % of the shade's height above its rim (common practice, no source)",
  );
  if (closed && (z - width / 2 < 0 || z + width / 2 > height))
    log.error(
      FAULT,
      "/lamp/height",
      "The lamp does not fit inside the closed shade.",
      phrase`a lamp between the shade's ends, 0 to ${height}`,
      phrase`a lamp from ${z - width / 2} to ${z + width / 2}`,
    );
  else if (closedAbove && lamp.height !== undefined && z > height)
    log.error(
      FAULT,
      "/lamp/height",
      "The lamp stands above the shade, which is closed there.",
      phrase`at most ${height} above the rim, or "top": "open"`,
      [z],
    );
  if (width > diameter)
    log.error(
      FAULT,
      lamp.diameter === undefined ? "/lamp/shape" : "/lamp/diameter",
      "The lamp is wider than the shade.",
      phrase`at most ${diameter}`,
      [width],
    );
  const count = lamp.count ?? 1;
  const radius = lamp.radius ?? 0;
  if (radius + width / 2 > diameter / 2 && radius > 0)
    log.error(
      FAULT,
      "/lamp/radius",
      "The lamps reach beyond the shade.",
      phrase`at most ${diameter / 2 - width / 2}`,
      [radius],
    );
  return {
    flux: lamp.flux,
    finish,
    diameter: width,
    beam: lamp.beam === undefined ? undefined : radians(lamp.beam),
    orientation: lamp.orientation ?? "base-up",
    z,
    radius,
    count,
    filamentLength: lamp.filament,
    // Off-axis lamps are not drawn, so neither are their caps.
    capDiameter: count > 1 ? 0 : undefined,
  };
}

/** A given diameter this much off the code's (m) is another lamp: bulbs of one code differ by a millimetre or two. */
const OTHER_LAMP = 0.005;

/** The lamp's diameter as given or by its shape code (m). */
function lampWidth(lamp: LampDocument, log: Ledger): number | undefined {
  if (lamp.shape === undefined) return lamp.diameter;
  const size = lampDiameter(lamp.shape);
  if (lamp.diameter !== undefined) {
    if (size !== undefined && Math.abs(size - lamp.diameter) > OTHER_LAMP)
      log.warn(
        "lamp-shape",
        "/lamp/diameter",
        phrase`The lamp's diameter, ${lamp.diameter}, replaces that of its shape code.`,
        phrase`${size} for ${JSON.stringify(lamp.shape)}, or one of the two left out`,
      );
    return lamp.diameter;
  }
  if (size !== undefined && !isLampForm(lamp.shape))
    log.warn(
      "lamp-shape",
      "/lamp/shape",
      phrase`The letters of the lamp's shape code are none in use: it is taken as ${size} wide.`,
      'letters such as "A", "G", "ST" or "PAR", or "diameter" beside it',
    );
  if (size === undefined)
    log.error(
      FAULT,
      "/lamp/shape",
      "The lamp's shape code is not understood.",
      'letters and a number such as "A19", "G95" or "PAR30", or "diameter" instead',
      JSON.stringify(lamp.shape),
    );
  return size;
}
