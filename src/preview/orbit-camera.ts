/** Moving about: an eye and what it looks at, turned, walked and zoomed by hand, wheel or keys. z is up. */

import { PerspectiveCamera } from "three";
import type { Vec3 } from "../geometry/vector.ts";
import { FIELD } from "./viewpoints.ts";

const STEEPEST = 1.5;

export class OrbitCamera {
  readonly camera = new PerspectiveCamera(FIELD, 16 / 9, 0.05, 80);
  #eye: Vec3 = [0, 0, 1.6];
  #target: Vec3 = [1, 0, 1];

  constructor() {
    this.camera.up.set(0, 0, 1);
  }

  get eye(): Vec3 {
    return this.#eye;
  }

  get target(): Vec3 {
    return this.#target;
  }

  stand(eye: Vec3, target: Vec3, field = FIELD): void {
    this.camera.fov = field;
    this.camera.updateProjectionMatrix();
    this.#eye = eye;
    this.#target = target;
    this.#place();
  }

  /** Turns the eye about what it looks at (rad). */
  orbit(round: number, up: number): void {
    const { azimuth, height, far } = this.#polar();
    const h = Math.max(-STEEPEST, Math.min(STEEPEST, height + up));
    const a = azimuth + round;
    this.#eye = [
      this.#target[0] + far * Math.cos(h) * Math.cos(a),
      this.#target[1] + far * Math.cos(h) * Math.sin(a),
      Math.max(0.05, this.#target[2] + far * Math.sin(h)),
    ];
    this.#place();
  }

  /** Walks: ahead, to the right, up (m); the gaze keeps its direction. */
  walk(ahead: number, right: number, up: number): void {
    const { azimuth } = this.#polar();
    const [c, s] = [-Math.cos(azimuth), -Math.sin(azimuth)];
    const move: Vec3 = [ahead * c + right * s, ahead * s - right * c, up];
    this.#eye = [this.#eye[0] + move[0], this.#eye[1] + move[1], Math.max(0.05, this.#eye[2] + move[2])];
    this.#target = [this.#target[0] + move[0], this.#target[1] + move[1], this.#target[2] + move[2]];
    this.#place();
  }

  /** Nearer for a factor below one. */
  zoom(factor: number): void {
    const { far } = this.#polar();
    const to = Math.min(30, Math.max(0.3, far * factor)) / far;
    this.#eye = [0, 1, 2].map(
      (k) => this.#target[k] + to * (this.#eye[k] - this.#target[k]),
    ) as unknown as Vec3;
    this.#place();
  }

  #polar(): { azimuth: number; height: number; far: number } {
    const [x, y, z] = [0, 1, 2].map((k) => this.#eye[k] - this.#target[k]);
    const far = Math.max(1e-3, Math.hypot(x, y, z));
    return { azimuth: Math.atan2(y, x), height: Math.asin(z / far), far };
  }

  #place(): void {
    this.camera.position.set(...this.#eye);
    this.camera.lookAt(...this.#target);
    this.camera.updateMatrixWorld();
  }
}
