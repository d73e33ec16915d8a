/** One atlas of surfaces with its light: interreflected light, direct light added up, and both developed for the eye. */

import {
  type DataTexture,
  FloatType,
  NearestFilter,
  RGBAFormat,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import type { SurfaceLight } from "../engine/surfaces/surface-light.ts";
import type { Scene } from "../scene/scene.ts";
import { type DividedCells, dividedCells, interreflectedInCells } from "./divided-cells.ts";
import { floatTexture, sumTarget } from "./float-texture.ts";
import { PointSet, type PointValues } from "./point-set.ts";
import { type SceneTexture, SLOTS } from "./scene-texture.ts";
import { onAtlas, regionsOf, type SurfaceAtlas } from "./surface-atlas.ts";

/** Points with their light. */
export interface LightTarget {
  readonly points: PointSet;
  /** Interreflected light, four slots a texel (lx at full output, initial). */
  interreflected: DataTexture;
  interreflectedValues: Float32Array;
  /** Direct light, likewise. */
  readonly direct: WebGLRenderTarget;
  /** Both, weighed and tinted (`shaders/view/develop.frag.glsl`). */
  readonly developed: WebGLRenderTarget;
  /** Draws done so far. */
  lit: number;
}

export interface SurfaceLightTarget extends LightTarget {
  readonly atlas: SurfaceAtlas;
}

/** The cells of an atlas that are divided, with their light. */
export interface DividedLightTarget extends LightTarget {
  readonly cells: DividedCells;
  /** Where each cell's nodes are, for `shaders/view/room.frag.glsl`. */
  readonly divisions: DataTexture;
}

/** A target on which nothing is lit yet. */
export function surfaceLightTarget(
  renderer: WebGLRenderer,
  atlas: SurfaceAtlas,
  records: SceneTexture,
  interreflected: Float32Array,
): SurfaceLightTarget {
  const points = { ...atlas, regions: regionsOf(atlas) };
  return { atlas, ...lightTarget(renderer, points, records, interreflected) };
}

/** Likewise, of the cells in which the light of a target (lx a texel) changes too fast. */
export function dividedLightTarget(
  renderer: WebGLRenderer,
  { atlas, interreflectedValues }: SurfaceLightTarget,
  lux: Float32Array,
  records: SceneTexture,
): DividedLightTarget {
  const cells = dividedCells(atlas, lux);
  return {
    cells,
    divisions: floatTexture(cells.starts, atlas.width, atlas.height),
    ...lightTarget(renderer, cells, records, interreflectedInCells(cells, interreflectedValues)),
  };
}

function lightTarget(
  renderer: WebGLRenderer,
  points: PointValues,
  records: SceneTexture,
  interreflected: Float32Array,
): LightTarget {
  const { width, height } = points;
  return {
    points: new PointSet(points, records),
    interreflected: floatTexture(interreflected, width, height),
    interreflectedValues: interreflected,
    direct: sumTarget(renderer, width, height),
    developed: new WebGLRenderTarget(width, height, {
      type: FloatType,
      format: RGBAFormat,
      minFilter: NearestFilter,
      magFilter: NearestFilter,
      depthBuffer: false,
    }),
    lit: 0,
  };
}

/** Gives a target other interreflected light. */
export function giveInterreflected(target: LightTarget, values: Float32Array): void {
  const { width, height } = target.points;
  target.interreflected.dispose();
  target.interreflectedValues = values;
  target.interreflected = floatTexture(values, width, height);
}

/** Interreflected light at every texel of an atlas. */
export function interreflectedOn(
  atlas: SurfaceAtlas,
  scene: Scene,
  surfaces: SurfaceLight | undefined,
): Float32Array {
  const folded = scene.layers.length > SLOTS;
  const slots = scene.layers.map(({ dim }, i) => ({ slot: folded ? 0 : i, share: folded ? dim : 1 }));
  return surfaces === undefined
    ? new Float32Array(4 * atlas.width * atlas.height)
    : onAtlas(atlas, surfaces.interreflected, slots);
}

export function disposeLightTarget({ points, interreflected, direct, developed }: LightTarget): void {
  points.dispose();
  interreflected.dispose();
  direct.dispose();
  developed.dispose();
}
