/** One atlas of surfaces with its light: what is given, what is added up, and both developed for the eye. */

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
  given: DataTexture;
  givenValues: Float32Array;
  /** Direct light, likewise. */
  readonly direct: WebGLRenderTarget;
  /** Both, weighed and tinted (`shaders/view/develop.frag.glsl`). */
  readonly developed: WebGLRenderTarget;
  /** Draws done so far. */
  lit: number;
}

/** A plate on which nothing is lit yet. */
export function surfaceLightTarget(
  renderer: WebGLRenderer,
  atlas: SurfaceAtlas,
  book: SceneTexture,
  given: Float32Array,
): SurfaceLightTarget {
  const { width, height } = atlas;
  return {
    atlas,
    points: new PointSet({ ...atlas, regions: regionsOf(atlas) }, book),
    given: floatTexture(given, width, height),
    givenValues: given,
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

/** What is given at every texel of an atlas: interreflected light. */
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

export function disposeSurfaceLightTarget({ points, given, direct, developed }: SurfaceLightTarget): void {
  points.dispose();
  given.dispose();
  direct.dispose();
  developed.dispose();
}
