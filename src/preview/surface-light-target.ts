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
import { floatTexture, sumTarget } from "./float-texture.ts";
import { PointSet } from "./point-set.ts";
import { type SceneTexture, SLOTS } from "./scene-texture.ts";
import { onAtlas, regionsOf, type SurfaceAtlas } from "./surface-atlas.ts";

export interface SurfaceLightTarget {
  readonly atlas: SurfaceAtlas;
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

/** A target on which nothing is lit yet. */
export function surfaceLightTarget(
  renderer: WebGLRenderer,
  atlas: SurfaceAtlas,
  records: SceneTexture,
  interreflected: Float32Array,
): SurfaceLightTarget {
  const { width, height } = atlas;
  return {
    atlas,
    points: new PointSet({ ...atlas, regions: regionsOf(atlas) }, records),
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

export function disposeSurfaceLightTarget({
  points,
  interreflected,
  direct,
  developed,
}: SurfaceLightTarget): void {
  points.dispose();
  interreflected.dispose();
  direct.dispose();
  developed.dispose();
}
