/**
 * The light of a scene kept per surface on the graphics processor, so that a change of view costs no light at all.
 *
 *   records → direct light at every node of an atlas (some draws at a time) → developed by weights and tints
 *
 * Two atlases: a coarse one lit whole in a few milliseconds while something moves, and a fine one lit in slices when it
 * rests, whose cells are divided then where light changes too fast for them (`divided-cells.ts`). Records are known by
 * scene, people and traced near fields; direct light goes with the next that is taken; dimming, maintenance and tints
 * change what is developed alone.
 */

import {
  type DataTexture,
  FloatType,
  type Material,
  Vector3,
  Vector4,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from "three";
import type { SurfaceLight } from "../engine/surfaces/surface-light.ts";
import type { Vec3 } from "../geometry/vector.ts";
import { maintainedShare } from "../scene/maintained.ts";
import type { Scene } from "../scene/scene.ts";
import { layerTints } from "./colour.ts";
import { interreflectedInCells } from "./divided-cells.ts";
import { readFloats } from "./float-texture.ts";
import { PointLight } from "./point-light.ts";
import { EDGES, MOVING, type PreviewQuality, STILL } from "./preview-quality.ts";
import { type SceneTexture, SLOTS, sceneTexture } from "./scene-texture.ts";
import { ScreenPass } from "./screen-pass.ts";
import { MOVING_ATLAS, STILL_ATLAS, type SurfaceAtlas, surfaceAtlas } from "./surface-atlas.ts";
import {
  type DividedLightTarget,
  disposeLightTarget,
  dividedLightTarget,
  giveInterreflected,
  interreflectedOn,
  type LightTarget,
  type SurfaceLightTarget,
  surfaceLightTarget,
} from "./surface-light-target.ts";

export interface Light {
  readonly scene: Scene;
  /** Interreflected light, and near fields; without it the picture shows direct light alone. */
  readonly surfaces?: SurfaceLight;
  readonly people: boolean;
}

/** Of the time that all of the fine light takes, that of the nodes before their cells are divided: about so much. */
const FINE_SHARE = 0.7;

export class LightCache {
  readonly #renderer: WebGLRenderer;
  readonly #points: PointLight;
  readonly #develop: ScreenPass;
  #light: Light | undefined;
  #records: SceneTexture | undefined;
  /** What the records were written from. */
  #recorded: (Pick<Light, "scene" | "people"> & Pick<Partial<SurfaceLight>, "traced">) | undefined;
  #coarse: SurfaceLightTarget | undefined;
  #fine: SurfaceLightTarget | undefined;
  #divided: DividedLightTarget | undefined;
  #weights = new Float32Array(SLOTS);
  #tints: Vec3[] = [];
  #atOnce = 1;

  constructor(renderer: WebGLRenderer) {
    this.#renderer = renderer;
    this.#points = new PointLight(renderer);
    this.#develop = new ScreenPass("view/develop.frag", {
      direct: { value: null },
      interreflected: { value: null },
      weights: { value: new Vector4() },
      slotColours: { value: Array.from({ length: SLOTS }, () => new Vector3(1, 1, 1)) },
    });
  }

  get records(): SceneTexture {
    if (this.#records === undefined) throw new Error("The cache has been given no light yet.");
    return this.#records;
  }

  get recordsTexture(): DataTexture | null {
    return this.#points.records ?? null;
  }

  get points(): PointLight {
    return this.#points;
  }

  /** Weight of each slot: dimming times maintenance. */
  get weights(): Float32Array {
    return this.#weights;
  }

  get tints(): readonly Vec3[] {
    return this.#tints;
  }

  /** Share of the fine light that is there, 0…1. */
  get fraction(): number {
    const [fine, divided] = [this.#fine, this.#divided].map((target) =>
      target === undefined ? 0 : target.lit / Math.max(1, target.points.draws.length),
    );
    return this.isStill ? 1 : FINE_SHARE * fine + (1 - FINE_SHARE) * divided;
  }

  get isStill(): boolean {
    return this.#divided !== undefined && isWhole(this.#divided);
  }

  /** The better atlas that is ready. */
  get target(): { readonly atlas: SurfaceAtlas; readonly developed: WebGLRenderTarget } | undefined {
    return this.isStill ? this.#fine : this.#coarse;
  }

  /** The divided cells of that atlas, where it has any. */
  get divided(): Pick<DividedLightTarget, "divisions" | "developed"> | undefined {
    return this.isStill ? this.#divided : undefined;
  }

  /** Materials that {@link take} will draw with. */
  materialsFor(light: Light): readonly Material[] {
    return [...this.#points.materialsFor(this.#recordsOf(light)), this.#develop.material];
  }

  /** Takes a scene's light; what moves is lit at once, what stands by {@link proceed}. */
  take(light: Light): void {
    this.#light = light;
    this.#points.read(this.#recordsOf(light));
    this.#weigh(light.scene);
    this.#free();
    this.#coarse = this.#targetOf(light, surfaceAtlas(light.scene, MOVING_ATLAS));
    this.#lightUpTo(this.#coarse, this.#coarse.points.draws.length, MOVING);
    this.#developTarget(this.#coarse);
  }

  /** Weighs the light anew for other dimming; costs no calculation unless layers share a slot. */
  weigh(scene: Scene): void {
    if (this.#light === undefined) return;
    if (scene.layers.length > SLOTS) {
      this.take({ ...this.#light, scene });
      return;
    }
    this.#light = { ...this.#light, scene };
    this.#weigh(scene);
    for (const target of this.#targets) this.#developTarget(target);
  }

  /** Takes finer light on the same scene's surfaces; what was computed here stays. */
  give(surfaces: SurfaceLight): void {
    if (this.#light === undefined) return;
    this.#light = { ...this.#light, surfaces };
    for (const target of [this.#coarse, this.#fine]) {
      if (target === undefined) continue;
      giveInterreflected(target, interreflectedOn(target.atlas, this.#light.scene, surfaces));
      this.#developTarget(target);
    }
    if (this.#fine === undefined || this.#divided === undefined) return;
    giveInterreflected(
      this.#divided,
      interreflectedInCells(this.#divided.cells, this.#fine.interreflectedValues),
    );
    this.#developTarget(this.#divided);
  }

  /** Lights some more of the fine atlas, then of its divided cells, about `budget` ms; true when all is whole. */
  proceed(budget: number, clock: () => number): boolean {
    const light = this.#light;
    if (light === undefined) return true;
    this.#fine ??= this.#targetOf(light, surfaceAtlas(light.scene, STILL_ATLAS));
    if (!this.#proceedOn(this.#fine, STILL, budget, clock)) return false;
    if (this.#divided === undefined) {
      // At full output, so that another dimming finds them too.
      const lux = this.#luxOf(this.#fine, new Float32Array(SLOTS).fill(1));
      this.#divided = dividedLightTarget(this.#renderer, this.#fine, lux, this.records);
      // Its draws are other ones.
      this.#atOnce = 1;
    }
    if (!this.#proceedOn(this.#divided, EDGES, budget, clock)) return false;
    for (const target of [this.#fine, this.#divided]) this.#developTarget(target);
    return true;
  }

  #proceedOn(target: LightTarget, fineness: PreviewQuality, budget: number, clock: () => number): boolean {
    const all = target.points.draws.length;
    const start = clock();
    const one = new Float32Array(4);
    while (target.lit < all) {
      const before = clock();
      this.#lightUpTo(target, Math.min(all, target.lit + this.#atOnce), fineness);
      // Reading one texel waits for the slice, so that the next is of the right size.
      if (target.direct.texture.type === FloatType)
        this.#renderer.readRenderTargetPixels(target.direct, 0, 0, 1, 1, one);
      const took = Math.max(1, clock() - before);
      const wanted = (this.#atOnce * budget) / 2 / took;
      this.#atOnce = Math.min(64, Math.max(1, Math.floor(Math.min(2 * this.#atOnce, wanted))));
      if (clock() - start > 0.75 * budget) break;
    }
    return isWhole(target);
  }

  /** All of the fine light at once; for stills and tests. */
  finish(): void {
    while (!this.proceed(1e9, () => 0));
  }

  /** Developed illuminance (lx) of every texel of the best atlas. */
  read(): { readonly atlas: SurfaceAtlas; readonly values: Float32Array } | undefined {
    const target = this.isStill ? this.#fine : this.#coarse;
    if (target === undefined) return undefined;
    return { atlas: target.atlas, values: this.#luxOf(target) };
  }

  /** Interreflected light (lx, weighed) at a texel place of the atlas in use. */
  interreflectedAt(x: number, y: number): number {
    return this.interreflectedSlotsAt(x, y).reduce((sum, E, k) => sum + this.#weights[k] * E, 0);
  }

  /** The same of each slot, not weighed. */
  interreflectedSlotsAt(x: number, y: number): Float64Array {
    const sums = new Float64Array(SLOTS);
    const target = this.isStill ? this.#fine : this.#coarse;
    if (target === undefined) return sums;
    const { width } = target.atlas;
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [s, t] = [x - i, y - j];
    for (const [di, dj, w] of [
      [0, 0, (1 - s) * (1 - t)],
      [1, 0, s * (1 - t)],
      [0, 1, (1 - s) * t],
      [1, 1, s * t],
    ] as const) {
      if (w === 0) continue;
      const at = 4 * ((j + dj) * width + i + di);
      for (let k = 0; k < SLOTS; k++) sums[k] += w * (target.interreflectedValues[at + k] ?? 0);
    }
    return sums;
  }

  dispose(): void {
    this.#free();
    this.#points.dispose();
    this.#develop.dispose();
  }

  /** The scene's records, which the light on its surfaces leaves as they are. */
  #recordsOf({ scene, people, surfaces }: Light): SceneTexture {
    const traced = surfaces?.traced;
    const before = this.#recorded;
    const isKnown = before?.scene === scene && before.people === people && before.traced === traced;
    if (!isKnown || this.#records === undefined) this.#records = sceneTexture(scene, { people, traced });
    this.#recorded = { scene, people, traced };
    return this.#records;
  }

  #weigh(scene: Scene): void {
    const folded = scene.layers.length > SLOTS;
    const tints = layerTints(scene.layers);
    this.#weights.fill(0);
    if (folded) this.#weights[0] = scene.maintenance;
    else
      scene.layers.forEach((layer, i) => {
        this.#weights[i] = maintainedShare(scene, layer);
      });
    this.#tints = Array.from({ length: SLOTS }, (_, i) => (folded ? [1, 1, 1] : (tints[i] ?? [1, 1, 1])));
  }

  /** Illuminance (lx) of every texel, each slot by its weight. */
  #luxOf(
    { direct: target, interreflectedValues }: LightTarget,
    weights: Float32Array = this.#weights,
  ): Float32Array {
    const direct = readFloats(this.#renderer, target);
    const values = new Float32Array(direct.length / 4);
    for (let t = 0; t < values.length; t++)
      for (let k = 0; k < SLOTS; k++)
        values[t] += weights[k] * (direct[4 * t + k] + interreflectedValues[4 * t + k]);
    return values;
  }

  get #targets(): readonly LightTarget[] {
    return [this.#coarse, this.#fine, this.#divided].filter((target) => target !== undefined);
  }

  #targetOf({ scene, surfaces }: Light, atlas: SurfaceAtlas): SurfaceLightTarget {
    return surfaceLightTarget(this.#renderer, atlas, this.records, interreflectedOn(atlas, scene, surfaces));
  }

  #lightUpTo(target: LightTarget, to: number, fineness: PreviewQuality): void {
    this.#points.light(target.points, target.direct, fineness, target.lit, to);
    target.lit = to;
  }

  #developTarget(target: LightTarget): void {
    const { uniforms } = this.#develop.material;
    uniforms.direct.value = target.direct.texture;
    uniforms.interreflected.value = target.interreflected;
    (uniforms.weights.value as Vector4).fromArray(this.#weights);
    const colours = uniforms.slotColours.value as Vector3[];
    this.#tints.forEach((tint, i) => {
      colours[i].set(...tint);
    });
    this.#develop.draw(this.#renderer, target.developed);
  }

  #free(): void {
    for (const target of this.#targets) disposeLightTarget(target);
    this.#divided?.divisions.dispose();
    this.#divided = undefined;
    this.#coarse = undefined;
    this.#fine = undefined;
  }
}

function isWhole({ lit, points }: LightTarget): boolean {
  return lit === points.draws.length;
}
