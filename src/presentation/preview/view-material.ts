/** What the shaders of a view are told, shared by all of them, and the materials made of those shaders. */

import {
  type DataTexture,
  DoubleSide,
  GLSL3,
  Matrix4,
  RawShaderMaterial,
  Vector2,
  Vector3,
  Vector4,
} from "three";
import { compose, type ShaderName } from "./compose.ts";

/** No cut: everything lies on this side of it. */
export const NOWHERE = new Vector4(0, 0, 0, 1);

export function viewUniforms() {
  return {
    developed: { value: null as unknown },
    atlasSize: { value: new Vector2(1, 1) },
    eye: { value: new Vector3() },
    cut: { value: NOWHERE.clone() },
    mirrorLevel: { value: -1e9 },
    look: { value: 0 },
    linear: { value: 0 },
    mirrorPicture: { value: null as unknown },
    mirrorView: { value: new Matrix4() },
    exposure: { value: 1 },
    whiteLevel: { value: 4 },
    scaleTable: { value: null as DataTexture | null },
    insideLuminance: { value: 0 },
    lineWidth: { value: 1.4 },
    book: { value: null as unknown },
    weights: { value: new Vector4() },
    luminaireInk: { value: new Vector3(1, 0.722, 0.361) },
    ink: { value: new Vector4(0.14, 0.13, 0.11, 1) },
  };
}

export type ViewUniforms = ReturnType<typeof viewUniforms>;

export function viewMaterial(
  uniforms: ViewUniforms,
  vertex: ShaderName,
  fragment: ShaderName,
): RawShaderMaterial {
  return new RawShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: `precision highp float;\n${compose(vertex)}`,
    fragmentShader: `precision highp float;\nprecision highp int;\n${compose(fragment)}`,
    uniforms: uniforms as unknown as Record<string, { value: unknown }>,
    side: DoubleSide,
  });
}
