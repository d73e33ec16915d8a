/**
 * One lit kitchen as three.js draws it: surfaces painted with the cache's light, things lit vertex by vertex, openings
 * that glow, and the mirror image in a polished top. Drawn from any camera, in either look; it owns what it makes and
 * gives it back with `dispose`.
 */

import {
  type BufferAttribute,
  type BufferGeometry,
  Color,
  LineSegments,
  Mesh,
  type PerspectiveCamera,
  type RawShaderMaterial,
  Scene as ThreeScene,
  type Vector2,
  Vector3,
  type WebGLRenderer,
} from "three";
import type { Vec3 } from "../../geometry/vector.ts";
import type { SurfaceLight } from "../surface-light.ts";
import type { Cut } from "./cut.ts";
import { edgeGeometry } from "./edges.ts";
import { type Exposure, exposureFor, KEY } from "./exposure.ts";
import { IsoluxSprites } from "./isolux-sprites.ts";
import { SLOTS } from "./light-book.ts";
import { type Light, LightCache } from "./light-cache.ts";
import { LitThings } from "./lit-things.ts";
import { luminousGeometry } from "./luminous-openings.ts";
import { MirrorImage } from "./mirror-image.ts";
import { scaleTable } from "./scale-table.ts";
import { readingOn, type SurfaceReading, seenPoint } from "./surface-reading.ts";
import { type RoomTriangles, roomTriangles, spotsOf } from "./surface-triangles.ts";
import { viewMaterial, viewUniforms } from "./view-material.ts";

export type Look = "appearance" | "lux";

export interface DrawOptions {
  readonly look: Look;
  readonly unit: "lx" | "fc";
  readonly exposure: Exposure;
  readonly cut?: Cut;
  /** A person not to draw: whose eye it is. */
  readonly without?: string;
  readonly labels: boolean;
}

/** The inside of a shade that sends nothing this way, relative to the room's mean luminance: our choice. */
const INSIDE = 0.3;
const PAPER = new Color(0xfaf7f1);
const NIGHT = new Color(0x0b0a08);

export class KitchenView {
  readonly cache: LightCache;
  readonly #renderer: WebGLRenderer;
  readonly #world = new ThreeScene();
  readonly #shared = viewUniforms();
  readonly #room: RawShaderMaterial;
  readonly #luminous: RawShaderMaterial;
  readonly #ink: RawShaderMaterial;
  readonly #mirror = new MirrorImage();
  readonly #labels = new IsoluxSprites(this.#world);
  #light: Light | undefined;
  #triangles: RoomTriangles | undefined;
  #roomMesh: Mesh | undefined;
  #edges: LineSegments | undefined;
  #things: LitThings | undefined;
  #still = false;
  #scaleUnit: "lx" | "fc" | undefined;

  constructor(renderer: WebGLRenderer) {
    this.#renderer = renderer;
    this.cache = new LightCache(renderer);
    this.#room = viewMaterial(this.#shared, "view/room.vert", "view/room.frag");
    this.#luminous = viewMaterial(this.#shared, "view/luminous.vert", "view/luminous.frag");
    this.#ink = viewMaterial(this.#shared, "view/ink.vert", "view/ink.frag");
    this.#ink.depthWrite = false;
  }

  get light(): Light | undefined {
    return this.#light;
  }

  /** Whether a polished top mirrors the room. */
  get mirrors(): boolean {
    return this.#light?.scene.island?.finish === "polished";
  }

  /** Takes another scene or other light of it. The picture is coarse until {@link proceed} has gone on. */
  take(light: Light): void {
    this.#clear();
    this.#light = light;
    this.cache.take(light);
    this.#triangles = roomTriangles(light.scene);
    this.#roomMesh = new Mesh(this.#triangles.triangles.geometry(), this.#room);
    this.#edges = new LineSegments(edgeGeometry(light.scene), this.#ink);
    this.#things = new LitThings(light, this.#room);
    for (const object of [this.#roomMesh, this.#edges, this.#glowing(light), ...this.#things.meshes]) {
      object.frustumCulled = false;
      this.#world.add(object);
    }
    this.#things.light(this.cache, light, false);
    this.#still = false;
    this.#usePlate();
  }

  /** Weighs the light for other dimming. */
  weigh(scene: Light["scene"]): void {
    if (this.#light === undefined) return;
    this.#light = { ...this.#light, scene };
    this.cache.weigh(scene);
    this.#things?.develop(this.cache, this.#light);
    this.#usePlate();
  }

  /** Takes finer light on the same scene's surfaces. */
  give(surfaces: SurfaceLight): void {
    if (this.#light === undefined) return;
    this.#light = { ...this.#light, surfaces };
    this.cache.give(surfaces);
    this.#things?.develop(this.cache, this.#light);
    this.#usePlate();
  }

  /** Goes on towards the still; true when it is there. */
  proceed(budget: number, clock: () => number): boolean {
    if (this.#still) return true;
    if (!this.cache.proceed(budget, clock)) return false;
    if (this.#light !== undefined) this.#things?.light(this.cache, this.#light, true);
    this.#still = true;
    this.#usePlate();
    return true;
  }

  get isStill(): boolean {
    return this.#still;
  }

  /** The exposure the room itself asks for. */
  exposure(): Exposure {
    const read = this.cache.read();
    const scene = this.#light?.scene;
    if (read === undefined || scene === undefined) return { mean: 1, white: 10, ev100: 3 };
    return exposureFor(scene, read.atlas, read.values);
  }

  draw(camera: PerspectiveCamera, options: DrawOptions): void {
    const u = this.#shared;
    const { look, exposure, cut, unit } = options;
    camera.updateMatrixWorld();
    u.look.value = look === "lux" ? 1 : 0;
    u.exposure.value = KEY / exposure.mean;
    u.whiteLevel.value = (KEY * exposure.white) / exposure.mean;
    u.cut.value.set(...(cut === undefined ? ([0, 0, 0] as const) : cut.normal), cut?.level ?? 1);
    u.weights.value.fromArray(this.cache.weights);
    u.insideLuminance.value = INSIDE * exposure.mean;
    this.#scaleIn(unit);
    const eye = camera.getWorldPosition(new Vector3());
    if (look === "lux" && options.labels) this.#labels.show(this.cache, unit, eye, cut);
    else this.#labels.hide();
    this.#things?.leaveOut(options.without);
    if (this.#edges !== undefined) this.#edges.visible = look === "lux";
    if (look === "appearance" && this.mirrors && cut === undefined)
      this.#mirror.draw(this.#renderer, this.#world, u, camera, this.#light?.scene.island?.height ?? 0);
    else u.mirrorPicture.value = null;
    u.eye.value.copy(eye);
    u.linear.value = 0;
    u.mirrorLevel.value = -1e9;
    this.#renderer.setClearColor(look === "lux" ? PAPER : NIGHT, 1);
    this.#renderer.render(this.#world, camera);
  }

  /** Light where a ray meets the first surface. */
  readingAt(camera: PerspectiveCamera, ndc: Vector2, cut?: Cut): SurfaceReading | undefined {
    const point = this.#roomMesh === undefined ? undefined : seenPoint(this.#roomMesh, camera, ndc, cut);
    return point === undefined ? undefined : this.readingOn(point);
  }

  /** Light at a room point on a surface, direct computed for that very point. */
  readingOn(point: Vec3): SurfaceReading | undefined {
    const scene = this.#light?.scene;
    return scene === undefined ? undefined : readingOn(this.cache, scene, point);
  }

  dispose(): void {
    this.#clear();
    this.#mirror.dispose();
    this.#room.dispose();
    this.#luminous.dispose();
    this.#ink.dispose();
    this.#shared.scaleTable.value?.dispose();
    this.cache.dispose();
  }

  #glowing({ scene }: Light): Mesh {
    const { luminaires } = this.cache.book;
    const recordOf = (layer: number, index: number): number =>
      luminaires.find((each) => each.layer === layer && each.index === index)?.record ?? 0;
    const tintOf = (layer: number): Vec3 => this.cache.tints[Math.min(layer, SLOTS - 1)];
    return new Mesh(luminousGeometry(scene, recordOf, tintOf), this.#luminous);
  }

  #usePlate(): void {
    const plate = this.cache.plate;
    if (plate === undefined || this.#triangles === undefined || this.#roomMesh === undefined) return;
    this.#shared.developed.value = plate.developed.texture;
    this.#shared.atlasSize.value.set(plate.atlas.width, plate.atlas.height);
    this.#shared.book.value = this.cache.bookTexture;
    const spot = this.#roomMesh.geometry.getAttribute("spot") as BufferAttribute;
    (spot.array as Float32Array).set(spotsOf(this.#triangles, plate.atlas));
    spot.needsUpdate = true;
    this.#labels.forget();
  }

  #scaleIn(unit: "lx" | "fc"): void {
    if (this.#scaleUnit === unit) return;
    this.#scaleUnit = unit;
    this.#shared.scaleTable.value?.dispose();
    this.#shared.scaleTable.value = scaleTable(unit);
  }

  #clear(): void {
    this.#labels.drop();
    const meshes: { geometry: BufferGeometry }[] = [];
    for (const object of [...this.#world.children]) {
      if (object instanceof Mesh || object instanceof LineSegments) meshes.push(object);
      this.#world.remove(object);
    }
    for (const { geometry } of meshes) geometry.dispose();
    this.#things = undefined;
    this.#roomMesh = undefined;
    this.#edges = undefined;
  }
}
