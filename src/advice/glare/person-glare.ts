/**
 * What of the luminaires a person's eye meets: how bright, whether the lamp itself, how it sits in a glare rating, and
 * where a polished top mirrors it.
 *
 * Field of view: half the space in front of the face. Hidden: solids between the eye and five points of the luminous
 * opening, its own body apart, since measured or traced light already ends at its rim. UGR is stated only for a level
 * line of sight (standing or seated upright) and counts sources above it within 0.0003 to 0.1 sr and H/R ≤ 1.9,
 * T/R ≤ 3 (from memory); what it leaves out is counted.
 */

import { pointToRoom } from "../../geometry/frame.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { VisibilityTree } from "../../geometry/visibility-tree.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { boxTags } from "../../scene/ceiling-boxes.ts";
import { maintainedShare } from "../../scene/maintained.ts";
import type { Person, Scene } from "../../scene/scene.ts";
import { viewBlockers } from "../people/view-blockers.ts";
import { type MirrorSpot, mirrorSpot } from "./mirror-image.ts";
import { positionIndex } from "./position-index.ts";
import { type SeenLuminaire, seenLuminaire } from "./seen-luminaire.ts";
import { type ShieldingClass, shieldingClass } from "./shielding.ts";
import { type GlareSource, UGR_SOLID_ANGLE, unifiedGlareRating } from "./unified-glare-rating.ts";

export interface LuminaireInView extends SeenLuminaire {
  readonly layer: string;
  readonly luminaire: string;
  readonly position: Vec3;
  /** Share not hidden by other solids, 0…1. */
  readonly visible: number;
  /** Angle off the line of sight (rad). */
  readonly offSight: number;
  readonly shielding: ShieldingClass;
  /** Whether it sits as high above the eye as its class asks, or is dark enough to ask nothing; undefined where only the
   * mean over the opening is known and that asks nothing: a lamp in view may be far brighter. */
  readonly shielded?: boolean;
}

export interface RatedGlare {
  readonly value: number;
  readonly background: number;
  readonly counted: number;
  /** Sources above the line of sight that the rating does not speak of: too small, too large, or too far aside. */
  readonly leftOut: number;
}

export interface MirrorImage extends MirrorSpot {
  readonly layer: string;
  readonly luminaire: string;
  /** Of its box, as every paper names it. */
  readonly tag: string;
  /** Luminance of the top around the spot, E ρ / π (cd/m²), and how many times brighter the image is on it. */
  readonly around: number;
  readonly ratio: number;
}

export interface PersonGlare {
  readonly person: string;
  readonly posture: Person["posture"];
  readonly eye: Vec3;
  /** The brightest first. */
  readonly inView: readonly LuminaireInView[];
  /** Luminaires in view whose luminous opening nobody stated: how bright they are cannot be told. */
  readonly unmeasured: number;
  readonly rating?: RatedGlare;
  /** Why there is no rating. */
  readonly unrated?: string;
  /** The strongest first. */
  readonly mirrored: readonly MirrorImage[];
}

export interface GlareRequest {
  /** Interreflected vertical illuminance at the eye (lx), for the background. */
  readonly verticalInterreflected?: number;
  /** Illuminance on the top at a place (lx), maintained. */
  readonly topIlluminance?: (x: number, y: number) => number;
}

/** Less visible than this, a luminaire is hidden. */
const GLIMPSE = 0.05;
/** An image of which less than half is left is no bright spot. */
const HALF = 0.5;
/** Off the top, so that the top itself hides nothing of what it mirrors (m). */
const LIFT = 0.002;

export function personGlare(scene: Scene, person: Person, request: GlareRequest = {}): PersonGlare {
  const { blockers, tree } = viewBlockers(scene);
  const bodies = new Map(
    blockers.flatMap(({ owner }, i) =>
      owner === undefined ? [] : [[`${owner[0]} ${owner[1]}`, i] as const],
    ),
  );
  const tagOf = boxTags(scene);
  const all = scene.layers.flatMap(({ name, dim, luminaires }, layer) =>
    luminaires.map((placed, index) => ({
      layer: name,
      placed,
      tag: tagOf([layer, index]),
      output: maintainedShare(scene, { dim }),
      own: bodies.get(`${layer} ${index}`) ?? -1,
    })),
  );
  const { eye } = person;
  let unmeasured = 0;
  const inView = all
    .flatMap(({ layer, placed, output, own }): LuminaireInView[] => {
      const offSight = offLineOfSight(person, placed.frame.origin);
      if (output === 0 || offSight >= Math.PI / 2) return [];
      const visible = visibleShare(eye, placed, tree, own);
      if (visible < GLIMPSE) return [];
      const seen = seenLuminaire(placed, eye, output);
      if (
        placed.luminaire.emission.kind === "opening" &&
        placed.luminaire.emission.opening.shape === "point"
      ) {
        unmeasured++;
        return [];
      }
      const shielding = shieldingClass(seen.luminance);
      const { name } = placed.luminaire;
      const shielded = isShielded(seen, shielding);
      return [
        {
          ...seen,
          layer,
          luminaire: name,
          position: placed.frame.origin,
          visible,
          offSight,
          shielding,
          ...(shielded === undefined ? {} : { shielded }),
        },
      ];
    })
    .filter(({ luminance }) => luminance > 0)
    .sort((a, b) => b.luminance - a.luminance);
  return {
    person: person.name,
    posture: person.posture,
    eye,
    inView,
    unmeasured,
    ...ratingOf(person, inView, request.verticalInterreflected),
    mirrored: all
      .flatMap((each) => imageOf(scene, each, eye, request, tree))
      .sort((a, b) => b.ratio - a.ratio),
  };
}

function offLineOfSight({ eye, facing }: Person, source: Vec3): number {
  const [x, y, z] = [source[0] - eye[0], source[1] - eye[1], source[2] - eye[2]];
  const ahead = x * Math.cos(facing) + y * Math.sin(facing);
  return Math.acos(Math.min(1, Math.max(-1, ahead / Math.hypot(x, y, z))));
}

/** Luminaires below the eye are exempt: what they show of a lamp is not in the line of sight. */
function isShielded(seen: SeenLuminaire, { angle }: ShieldingClass): boolean | undefined {
  if (seen.elevation <= 0) return true;
  if (angle > 0) return seen.elevation >= angle;
  return seen.what === "mean over the opening" ? undefined : true;
}

/** Mean transmittance from the eye to the middle and four points of the opening. */
function visibleShare(
  eye: Vec3,
  { luminaire, frame }: PlacedLuminaire,
  tree: VisibilityTree,
  own: number,
): number {
  const { length, width } = luminaire.emission.opening;
  const places: readonly Vec3[] = [
    [0, 0, 0],
    [0.35 * length, 0, 0],
    [-0.35 * length, 0, 0],
    [0, 0.35 * width, 0],
    [0, -0.35 * width, 0],
  ];
  let passed = 0;
  for (const local of places) {
    // A hair below the opening, so that a luminaire flush with a ceiling is not hidden by it.
    const [x, y, z] = pointToRoom(frame, [local[0], local[1], -0.001]);
    passed += tree.transmittance(eye[0], eye[1], eye[2], x, y, z, own);
  }
  return passed / places.length;
}

function ratingOf(
  { eye, facing, posture }: Person,
  inView: readonly LuminaireInView[],
  indirect: number | undefined,
): Pick<PersonGlare, "rating" | "unrated"> {
  if (posture === "leaning") return { unrated: "the line of sight is not level" };
  if (indirect === undefined || !(indirect > 0)) return { unrated: "the background was not calculated" };
  const sources: GlareSource[] = [];
  let leftOut = 0;
  for (const { position, mean, solidAngle, elevation, visible } of inView) {
    if (elevation <= 0) continue;
    const [x, y] = [position[0] - eye[0], position[1] - eye[1]];
    const ahead = x * Math.cos(facing) + y * Math.sin(facing);
    const aside = Math.abs(-x * Math.sin(facing) + y * Math.cos(facing));
    const above = position[2] - eye[2];
    const seen = solidAngle * visible;
    const spoken =
      seen >= UGR_SOLID_ANGLE[0] && seen <= UGR_SOLID_ANGLE[1] && above <= 1.9 * ahead && aside <= 3 * ahead;
    if (!spoken) {
      leftOut++;
      continue;
    }
    const sigma = Math.atan(Math.hypot(aside, above) / ahead);
    sources.push({
      luminance: mean,
      solidAngle: seen,
      positionIndex: positionIndex(sigma, Math.atan2(aside, above)),
    });
  }
  if (sources.length === 0)
    return {
      unrated:
        leftOut > 0
          ? "no source in view is of a size and place the rating speaks of"
          : "no source above the eye in view",
    };
  const background = indirect / Math.PI;
  return {
    rating: { value: unifiedGlareRating(sources, background), background, counted: sources.length, leftOut },
  };
}

function imageOf(
  { island }: Scene,
  {
    layer,
    placed,
    tag,
    output,
    own,
  }: { layer: string; placed: PlacedLuminaire; tag: string; output: number; own: number },
  eye: Vec3,
  { topIlluminance }: GlareRequest,
  tree: VisibilityTree,
): MirrorImage[] {
  if (island === undefined || topIlluminance === undefined || output === 0) return [];
  const image = mirrorSpot(island, placed, eye, output);
  if (image === undefined || image.luminance === 0) return [];
  // Both legs of the way must be open: from the eye to the spot, and on to the luminaire.
  const [x, y, z] = [image.spot[0], image.spot[1], image.spot[2] + LIFT];
  const seen = tree.transmittance(eye[0], eye[1], eye[2], x, y, z);
  if (seen * visibleShare([x, y, z], placed, tree, own) < HALF) return [];
  const around = (topIlluminance(image.spot[0], image.spot[1]) * island.topReflectance) / Math.PI;
  const ratio = around > 0 ? image.luminance / around : Infinity;
  return [{ ...image, layer, luminaire: placed.luminaire.name, tag, around, ratio }];
}
