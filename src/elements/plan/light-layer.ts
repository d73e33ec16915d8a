/** The light of a plan as SVG, made anew only when field, place on the page or fineness changed. */
import { nothing, type SVGTemplateResult, svg } from "lit";
import { drawnField, type Fineness } from "../../drawing/drawn-field.ts";
import { cellCoordinates } from "../../drawing/field-sampler.ts";
import { type IslandAxes, islandAxes } from "../../drawing/island-axes.ts";
import { LABEL_SIZE, type PlanLight, planLight } from "../../drawing/plan-light.ts";
import type { PlanFrame, PlanObjects } from "../../drawing/plan-objects.ts";
import type { SheetScale } from "../../drawing/sheet-scale.ts";
import type { Vec2 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Target } from "../../scene/target.ts";
import type { TopPlane } from "../shared/illuminance-probe.ts";
import { pathOf, round } from "../shared/marks.ts";

export interface LightLayerInput {
  readonly scene: Scene;
  readonly top: TopPlane;
  readonly targets: ReadonlyMap<string, Target>;
  readonly unit: "lx" | "fc";
  readonly scale: SheetScale;
  readonly frame: PlanFrame;
  readonly objects: PlanObjects;
  readonly fineness: Fineness;
  readonly hatch: boolean;
}

export class LightLayer {
  #key: readonly unknown[] = [];
  #drawn: SVGTemplateResult | undefined;

  /** Key: plane, its values, zones, targets, unit, scale, height, fineness, hatch. What stands over the light
   * moves labels aside, but only when the light itself is drawn anew. */
  render(input: LightLayerInput): SVGTemplateResult {
    const { top, scale, frame, fineness, unit, targets, hatch, scene } = input;
    const key = [
      top.plane,
      top.light.illuminance,
      scene.zones,
      targets,
      unit,
      scale.perMetre,
      scale.width,
      frame.height,
      fineness,
      hatch,
    ];
    if (this.#drawn === undefined || key.some((k, i) => k !== this.#key[i])) {
      this.#key = key;
      this.#drawn = draw(planLightOf(input), hatch);
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
  fineness,
}: LightLayerInput): PlanLight {
  const axes = islandAxes(scene);
  const { grid } = top;
  const toGrid = gridMetres(top);
  const place = gridToPage(top, axes, scale, frame);
  const inGrid = (points: readonly Vec2[]): Vec2[] => points.map((p) => toGrid(axes.toRoom(p)));
  const whole: Vec2[] = [
    [0, 0],
    [axes.length, 0],
    [axes.length, axes.width],
    [0, axes.width],
  ];
  const asked = scene.zones.flatMap((zone) => {
    const target = zone.target === undefined ? undefined : targets.get(zone.target);
    const level = target?.requirements.find((r) => r.quantity === "illuminance")?.value;
    return level === undefined ? [] : [{ outline: inGrid(zone.outline), level }];
  });
  return planLight({
    field: drawnField(grid, top.values, fineness),
    outline: inGrid(scene.island?.outline ?? whole),
    targets: asked,
    unit,
    between: true,
    // Under a moving hand a word somewhere on its line will do.
    labelStep: fineness === "coarse" ? 18 : undefined,
    place,
    obstacles: scene.zones.map((zone) => closed(zone.outline.map(([a, c]) => [scale.x(a), frame.y(c)]))),
    taken: [...objects.taken, ...objects.luminaires.map((l) => l.handle)],
  });
}

function closed(points: Vec2[]): Vec2[] {
  return [...points, points[0]];
}

function draw(light: PlanLight, hatch: boolean): SVGTemplateResult {
  const rings = (all: readonly (readonly Vec2[])[]): string => all.map((ring) => pathOf(ring, true)).join("");
  return svg`<defs>
      <clipPath id="top"><path d=${pathOf(light.outline, true)}></path></clipPath>
      ${light.below.map((zone, z) => svg`<clipPath id="below-${z}"><path d=${pathOf(zone.clip, true)}></path></clipPath>`)}
    </defs>
    <g clip-path="url(#top)" aria-hidden="true">
      ${light.bands.map((band) => svg`<path d=${rings(band.rings)} fill=${band.colour} fill-rule="evenodd"></path>`)}
      ${
        hatch
          ? light.below.map(
              (zone, z) =>
                svg`<g clip-path="url(#below-${z})"><path d=${rings(zone.rings)} fill="url(#hatch)" fill-rule="evenodd"></path></g>`,
            )
          : nothing
      }
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

/** Metres along a grid's own sides of a room point. */
export function gridMetres({ grid }: TopPlane): (point: Vec2) => Vec2 {
  const cells = cellCoordinates(grid);
  const u = Math.hypot(...grid.u) / grid.columns;
  const v = Math.hypot(...grid.v) / grid.rows;
  return ([x, y]) => {
    const [s, t] = cells([x, y, grid.corner[2]]);
    return [s * u, t * v];
  };
}

/** From a grid's own sides through room and island to the page; an affine map, taken from three points. */
export function gridToPage(
  { grid }: TopPlane,
  axes: IslandAxes,
  scale: SheetScale,
  frame: PlanFrame,
): (point: Vec2) => Vec2 {
  const page = (x: number, y: number): Vec2 => {
    const [along, across] = axes.toIsland([x, y]);
    return [scale.x(along), frame.y(across)];
  };
  const u = Math.hypot(...grid.u);
  const v = Math.hypot(...grid.v);
  const o = page(grid.corner[0], grid.corner[1]);
  const pu = page(grid.corner[0] + grid.u[0] / u, grid.corner[1] + grid.u[1] / u);
  const pv = page(grid.corner[0] + grid.v[0] / v, grid.corner[1] + grid.v[1] / v);
  const [ux, uy, vx, vy] = [pu[0] - o[0], pu[1] - o[1], pv[0] - o[0], pv[1] - o[1]];
  return ([s, t]) => [o[0] + s * ux + t * vx, o[1] + s * uy + t * vy];
}
