/** The light of a plan as SVG, made anew only when field, place on the page or whether it moves changed. */
import { nothing, type SVGTemplateResult, svg } from "lit";
import { isoluxField } from "../../app/isolux-field.ts";
import { type Box, boxAround } from "../../drawing/drawing.ts";
import { islandLight } from "../../drawing/island-light.ts";
import { corners } from "../../drawing/oriented-box.ts";
import { LABEL_SIZE, type PlanLight } from "../../drawing/plan-light.ts";
import type { PlanObjects } from "../../drawing/plan-objects.ts";
import type { PlanFrame } from "../../drawing/plan-page.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Target } from "../../scene/target.ts";
import type { TopLight } from "../shared/illuminance-probe.ts";
import { pathOf, renderHatch, round } from "../shared/marks.ts";

/** Tones of the light at rest, and while something moves. */
const TONES = 28;
const MOVING_TONES = 14;

export interface LightLayerInput {
  readonly scene: Scene;
  readonly top: TopLight;
  readonly targets: ReadonlyMap<string, Target>;
  readonly unit: "lx" | "fc";
  readonly scale: SheetScale;
  readonly frame: PlanFrame;
  readonly objects: PlanObjects;
  /** Under a moving hand a word somewhere on its line will do. */
  readonly moving: boolean;
  readonly hatch: boolean;
}

export class LightLayer {
  #key: readonly unknown[] = [];
  #drawn: SVGTemplateResult | undefined;
  /** Boxes of the figures drawn on lines. */
  words: readonly Box[] = [];

  /** Key: plane, its values, zones, targets, unit, scale, height, whether it moves, hatch. What stands over the light
   * moves labels aside, but only when the light itself is drawn anew. */
  render(input: LightLayerInput): SVGTemplateResult {
    const { top, scale, frame, moving, unit, targets, hatch, scene } = input;
    const key = [
      top.plane,
      top.light.illuminance,
      scene.zones,
      targets,
      unit,
      scale.perMetre,
      scale.width,
      frame.height,
      moving,
      hatch,
    ];
    if (this.#drawn === undefined || key.some((k, i) => k !== this.#key[i])) {
      this.#key = key;
      const light = planLightOf(input);
      this.words = light.labels.map(({ box }) => boxAround(corners(box)));
      this.#drawn = draw(light, hatch);
    }
    return this.#drawn;
  }
}

export function planLightOf({
  scene,
  top,
  targets,
  unit,
  scale,
  frame,
  objects,
  moving,
}: LightLayerInput): PlanLight {
  const { grid, values, margin } = top;
  return islandLight({ targets }, scene, {
    grid,
    field: isoluxField(grid, values, margin),
    unit,
    scale,
    frame,
    between: true,
    labelStep: moving ? 18 : undefined,
    obstacles: scene.zones.map((zone) => closed(zone.outline.map(([a, c]) => [scale.x(a), frame.y(c)]))),
    taken: objects.taken,
    avoided: objects.luminaires.map((l) => l.handle),
    tones: moving ? MOVING_TONES : TONES,
  });
}

function closed(points: Vec2[]): Vec2[] {
  return [...points, points[0]];
}

function draw(light: PlanLight, hatch: boolean): SVGTemplateResult {
  const rings = (all: readonly (readonly Vec2[])[]): string => all.map((ring) => pathOf(ring, true)).join("");
  return svg`<defs>
      <clipPath id="top"><path d=${pathOf(light.outline, true)}></path></clipPath>
    </defs>
    <g clip-path="url(#top)" aria-hidden="true">
      ${light.bands.map((band) => svg`<path d=${rings(band.rings)} fill=${band.colour} fill-rule="evenodd"></path>`)}
      ${hatch ? light.below.map((areas) => renderHatch(areas)) : nothing}
      ${light.lines.map(
        (l) =>
          svg`<path class="f-none" d=${pathOf(l.points)} stroke=${l.colour} stroke-width=${l.strong ? 1.5 : 0.75} opacity=${l.faint ? 0.6 : 1}></path>`,
      )}
    </g>
    <g aria-hidden="true">${light.labels.map(
      (l) =>
        svg`<text class="iso" x=${round(l.at[0])} y=${round(l.at[1] + LABEL_SIZE * 0.35)} font-size=${LABEL_SIZE} text-anchor="middle" fill=${l.colour} stroke=${l.ground} transform="rotate(${round(l.turn)} ${round(l.at[0])} ${round(l.at[1])})">${l.text}</text>`,
    )}</g>`;
}
