/** Textures of floats, to be fetched and never filtered, and targets in which light adds up. */

import {
  DataTexture,
  DataUtils,
  FloatType,
  HalfFloatType,
  NearestFilter,
  RGBAFormat,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";

export function floatTexture(data: Float32Array, width: number, height: number): DataTexture {
  const texture = new DataTexture(data as Float32Array<ArrayBuffer>, width, height, RGBAFormat, FloatType);
  texture.minFilter = NearestFilter;
  texture.magFilter = NearestFilter;
  texture.needsUpdate = true;
  return texture;
}

/** A target in which what is drawn adds to what is there; of half precision (0.05 %) where floats cannot be blended. */
export function sumTarget(renderer: WebGLRenderer, width: number, height: number): WebGLRenderTarget {
  return new WebGLRenderTarget(width, height, {
    type: renderer.extensions.has("EXT_float_blend") ? FloatType : HalfFloatType,
    format: RGBAFormat,
    minFilter: NearestFilter,
    magFilter: NearestFilter,
    depthBuffer: false,
    stencilBuffer: false,
  });
}

/** Four floats a texel of a whole target. */
export function readFloats(renderer: WebGLRenderer, target: WebGLRenderTarget): Float32Array {
  const { width, height, texture } = target;
  const out = new Float32Array(4 * width * height);
  if (texture.type === FloatType) {
    renderer.readRenderTargetPixels(target, 0, 0, width, height, out);
    return out;
  }
  const halves = new Uint16Array(out.length);
  renderer.readRenderTargetPixels(target, 0, 0, width, height, halves);
  for (let i = 0; i < out.length; i++) out[i] = DataUtils.fromHalfFloat(halves[i]);
  return out;
}
