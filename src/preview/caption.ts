/** What is printed under a picture: scenes, viewpoint, dimming and date; exposure, and what the light rests on. */

import type { Scene } from "../scene/scene.ts";
import { formatIlluminance } from "../units/illuminance-text.ts";
import type { Exposure } from "./exposure.ts";
import { luminanceText, MARKED_FROM } from "./glare-marks.ts";
import type { Look } from "./kitchen-view.ts";
import type { SurfaceReading } from "./surface-reading.ts";

const LIGHT = {
  none: "direct light alone",
  sketched: "direct light, and a sketch of the reflected light until it is there",
  full: "direct and reflected light",
} as const;

export interface Captioned {
  readonly scenes: readonly Scene[];
  /** How far the engine's interreflected light is in the picture. */
  readonly interreflected: keyof typeof LIGHT;
  readonly look: Look;
  readonly unit: "lx" | "fc";
  /** Name of the viewpoint. */
  readonly viewpoint: string;
  readonly exposure?: Exposure;
  readonly date: string;
  readonly inputs: string;
}

/** `C three opal globes`: an option bears its own letter wherever it stands. */
export function letteredName({ letter, name }: Scene): string {
  return `${letter} ${name}`;
}

function namesOf(scenes: readonly Scene[]): string {
  return scenes.map((each) => (scenes.length > 1 ? letteredName(each) : each.name)).join(", ");
}

/** One line without a figure of the exposure or a word on how the light was found; none without a scene. */
export function plainCaption({ scenes, look, unit, viewpoint }: Captioned): string[] {
  if (scenes.length === 0) return [];
  const how =
    look === "lux"
      ? `Light on every surface in ${unit}, as it stays with care`
      : "As an eye used to this room sees it; a screen shows lamps far dimmer than they are";
  return [`${namesOf(scenes)} · ${viewpoint} · ${how}`];
}

/** Two lines; none without a scene. */
export function captionLines(picture: Captioned): string[] {
  const { scenes, look, unit, exposure } = picture;
  const [scene] = scenes;
  if (scene === undefined) return [];
  const names = namesOf(scenes);
  const dims = scene.layers.map(({ name, dim }) => `${name} ${Math.round(100 * dim)} %`).join(", ");
  const how =
    look === "lux"
      ? `Illuminance in ${unit}, maintained (factor ${scene.maintenance}), in the dark`
      : exposure === undefined
        ? ""
        : `Exposed as an eye used to this room sees it (exposure value ${exposure.ev100.toFixed(1)} at ISO 100); a screen shows lamps far dimmer than they are`;
  const light = LIGHT[picture.interreflected];
  const joined = (parts: readonly string[]): string => parts.filter((part) => part !== "").join(" · ");
  return [joined([names, picture.viewpoint, dims, picture.date]), joined([how, light, picture.inputs])];
}

/** The luminances behind an exposure, for whoever asks. */
export function exposureWords({ mean, white }: Exposure): string {
  return `The eye is adapted to ${luminanceText(mean)} cd/m²; from ${luminanceText(white)} cd/m² on everything is white.`;
}

/** A reading in words. */
export function readingWords({ direct, interreflected, surface }: SurfaceReading, unit: "lx" | "fc"): string {
  const total = direct + interreflected;
  const share = total > 0 ? Math.round((100 * direct) / total) : 0;
  const lux = (E: number): string => formatIlluminance(E, unit);
  return `${surface}: ${lux(total)}, ${share} % direct (${lux(direct)}), ${lux(interreflected)} reflected`;
}

/** What there is to say of how the picture is drawn. */
export function pictureRemarks({
  isLost,
  isThinned,
  isSlow,
  hasNoGlare,
}: Readonly<Record<"isLost" | "isThinned" | "isSlow" | "hasNoGlare", boolean>>): string[] {
  if (isLost) return ["The graphics processor was lost; the picture returns when it does."];
  return [
    ...(isThinned ? ["A large room: its light is drawn less finely than usual."] : []),
    ...(isSlow ? ["This computer draws slowly: fewer pixels while the view moves."] : []),
    ...(hasNoGlare ? [`From here no luminaire is brighter than ${MARKED_FROM} cd/m².`] : []),
  ];
}
