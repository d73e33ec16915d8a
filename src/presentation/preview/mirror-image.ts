/**
 * The mirror image in a polished top: the room seen from the eye's image below the top's plane, in linear luminance.
 * The surface that mirrors finds its place in it by projecting itself with the same camera.
 */

import {
  HalfFloatType,
  LinearFilter,
  PerspectiveCamera,
  RGBAFormat,
  type Scene as ThreeScene,
  Vector2,
  Vector3,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import type { ViewUniforms } from "./view-material.ts";

export class MirrorImage {
  readonly #camera = new PerspectiveCamera();
  #target: WebGLRenderTarget | undefined;

  /** Draws the image in a plane at `level` (m) for the eye's camera and hands it to the uniforms. */
  draw(
    renderer: WebGLRenderer,
    world: ThreeScene,
    u: ViewUniforms,
    camera: PerspectiveCamera,
    level: number,
  ): void {
    const target = this.#targetFor(renderer);
    const mirror = this.#camera;
    mirror.fov = Math.min(120, camera.fov * 1.15);
    mirror.aspect = camera.aspect;
    mirror.near = camera.near;
    mirror.far = camera.far;
    const eye = camera.getWorldPosition(new Vector3());
    const forward = camera.getWorldDirection(new Vector3());
    mirror.up.set(0, 0, 1);
    mirror.position.set(eye.x, eye.y, 2 * level - eye.z);
    mirror.lookAt(eye.x + forward.x, eye.y + forward.y, 2 * level - eye.z - forward.z);
    mirror.updateProjectionMatrix();
    mirror.updateMatrixWorld();
    u.mirrorView.value.multiplyMatrices(mirror.projectionMatrix, mirror.matrixWorldInverse);
    u.eye.value.copy(mirror.position);
    u.linear.value = 1;
    u.mirrorLevel.value = level + 0.002;
    u.mirrorPicture.value = null;
    const before = renderer.getRenderTarget();
    const scissored = renderer.getScissorTest();
    renderer.setScissorTest(false);
    renderer.setRenderTarget(target);
    renderer.setClearColor(0x000000, 1);
    renderer.clear();
    renderer.render(world, mirror);
    renderer.setRenderTarget(before);
    renderer.setScissorTest(scissored);
    u.mirrorPicture.value = target.texture;
  }

  dispose(): void {
    this.#target?.dispose();
    this.#target = undefined;
  }

  #targetFor(renderer: WebGLRenderer): WebGLRenderTarget {
    const size = renderer.getDrawingBufferSize(new Vector2());
    const [width, height] = [Math.max(1, size.x), Math.max(1, size.y)];
    const known = this.#target;
    if (known?.width === width && known.height === height) return known;
    known?.dispose();
    const target = new WebGLRenderTarget(width, height, {
      type: HalfFloatType,
      format: RGBAFormat,
      minFilter: LinearFilter,
      magFilter: LinearFilter,
    });
    this.#target = target;
    return target;
  }
}
