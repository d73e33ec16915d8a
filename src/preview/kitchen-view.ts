/**
 * One lit kitchen as three.js draws it: surfaces painted with the cache's light, things lit vertex by vertex, openings
 * that glow, and the mirror image in a polished top. Drawn from any camera, in either look; it owns what it makes and
 * gives it back with `dispose`.
 */

import {
  BufferGeometry,
  Color,
  LinearSRGBColorSpace,
  LineSegments,
  Mesh,
  PerspectiveCamera,
  type RawShaderMaterial,
  Scene as ThreeScene,
  Vector2,
  Vector3,
  Vector4,
  type WebGLRenderer,
} from "three";
import type { SurfaceLight } from "../engine/surfaces/surface-light.ts";
import type { Vec3 } from "../geometry/vector.ts";
import { BodyMeshes } from "./body-meshes.ts";
import type { Cut } from "./cut.ts";
import { edgeGeometry } from "./edges.ts";
import { type Exposure, exposureFor, KEY } from "./exposure.ts";
import { floatTexture } from "./float-texture.ts";
import { frontLines } from "./front-lines.ts";
import { IsoluxSprites } from "./isolux-sprites.ts";
import { type Light, LightCache } from "./light-cache.ts";
import { luminousGeometry } from "./luminous-openings.ts";
import { MirrorImage } from "./mirror-image.ts";
import { RoomMesh } from "./room-mesh.ts";
import { scaleTable } from "./scale-table.ts";
import { SLOTS } from "./scene-texture.ts";
import { isInSight, readingOn, type SurfaceReading, seenPoint } from "./surface-reading.ts";
import { mirroringSurfaces } from "./surface-triangles.ts";
import { LINE, type RoomCase, RoomMaterials, viewMaterial, viewUniforms } from "./view-material.ts";

export type Look = "appearance" | "lux";

export interface DrawOptions {
  readonly look: Look;
  readonly unit: "lx" | "fc";
  readonly exposure: Exposure;
  readonly cut?: Cut;
  /** A person not to draw: whose eye it is. */
  readonly without?: string;
  readonly labels: boolean;
  /** Whether the view moves: the mirror image is drawn at half its size. */
  readonly moving: boolean;
}

/** The inside of a shade that sends nothing this way, relative to the room's mean luminance: our choice. */
const INSIDE = 0.3;
const PAPER = new Color().setHex(0xfaf7f1, LinearSRGBColorSpace);
const NIGHT = new Color().setHex(0x171510, LinearSRGBColorSpace);

/** No cell is divided: what is read beyond the texture's only texel is nothing too. */
const UNDIVIDED = floatTexture(new Float32Array(4), 1, 1);

/** How a room is drawn in its mirror image. */
const MIRRORED = { lux: false, linear: true, cut: true, section: false, mirrors: false };

export class KitchenView {
  readonly cache: LightCache;
  readonly #renderer: WebGLRenderer;
  readonly #world = new ThreeScene();
  readonly #shared = viewUniforms();
  readonly #rooms = new RoomMaterials(this.#shared);
  readonly #luminous: RawShaderMaterial;
  readonly #ink: RawShaderMaterial;
  readonly #frontInk: RawShaderMaterial;
  readonly #mirror = new MirrorImage();
  readonly #labels = new IsoluxSprites(this.#world);
  #light: Light | undefined;
  #room: RoomMesh | undefined;
  #edges: LineSegments | undefined;
  #fronts: LineSegments | undefined;
  #things: BodyMeshes | undefined;
  #still = false;
  #compiled = false;
  #scaleUnit: "lx" | "fc" | undefined;

  constructor(renderer: WebGLRenderer) {
    this.#renderer = renderer;
    this.cache = new LightCache(renderer);
    this.#luminous = viewMaterial(this.#shared, "view/luminous.vert", "view/luminous.frag");
    this.#ink = viewMaterial(this.#shared, "view/ink.vert", "view/ink.frag");
    this.#frontInk = viewMaterial(
      { ...this.#shared, ink: { value: new Vector4(0.06, 0.055, 0.045, 0.45) } },
      "view/ink.vert",
      "view/ink.frag",
    );
    this.#frontInk.transparent = true;
    for (const ink of [this.#ink, this.#frontInk]) ink.depthWrite = false;
  }

  get light(): Light | undefined {
    return this.#light;
  }

  /** Compiles and links what a picture of this light is drawn with, beside the page: waiting for a link would stop it. */
  async compile(light: Light, look: Look): Promise<void> {
    const mirrors = look === "appearance" && mirroringSurfaces(light.scene).length > 0;
    const lux = look === "lux";
    if (mirrors) this.#useMaterials(MIRRORED);
    this.#useMaterials({ lux, linear: false, cut: false, section: false, mirrors });
    const lines = lux ? [this.#ink, this.#frontInk] : [this.#frontInk];
    const geometry = new BufferGeometry();
    const all = new ThreeScene();
    for (const material of [...this.cache.materialsFor(light), ...this.#rooms.made, this.#luminous, ...lines])
      all.add(new Mesh(geometry, material));
    await this.#renderer.compileAsync(all, new PerspectiveCamera());
    this.#compiled = true;
  }

  /** Whether it may be drawn without stopping the page. */
  get isCompiled(): boolean {
    return this.#compiled;
  }

  /** Takes another scene or other light of it. The picture is coarse until {@link proceed} has gone on. */
  take(light: Light): void {
    this.#clear();
    this.#light = light;
    this.cache.take(light);
    this.#room = new RoomMesh(light.scene);
    this.#edges = new LineSegments(edgeGeometry(light.scene), this.#ink);
    // Over the surfaces, which would paint it out: ink leaves no depth.
    this.#edges.renderOrder = 1;
    this.#fronts = new LineSegments(frontLines(light.scene), this.#frontInk);
    this.#fronts.renderOrder = 1;
    this.#things = new BodyMeshes(light);
    for (const object of [
      this.#room.mesh,
      this.#edges,
      this.#fronts,
      this.#glowing(light),
      ...this.#things.meshes,
    ]) {
      object.frustumCulled = false;
      this.#world.add(object);
    }
    this.#things.light(this.cache, light, false);
    this.#still = false;
    this.#useTarget();
  }

  /** Weighs the light for other dimming. */
  weigh(scene: Light["scene"]): void {
    if (this.#light === undefined) return;
    this.#light = { ...this.#light, scene };
    this.cache.weigh(scene);
    this.#things?.develop(this.cache, this.#light);
    this.#useTarget();
  }

  /** Takes finer light on the same scene's surfaces. */
  give(surfaces: SurfaceLight): void {
    if (this.#light === undefined) return;
    this.#light = { ...this.#light, surfaces };
    this.cache.give(surfaces);
    this.#things?.develop(this.cache, this.#light);
    this.#useTarget();
  }

  /** Goes on towards the still; true when it is there. */
  proceed(budget: number, clock: () => number): boolean {
    if (this.#still) return true;
    if (!this.cache.proceed(budget, clock)) return false;
    if (this.#light !== undefined) this.#things?.light(this.cache, this.#light, true);
    this.#still = true;
    this.#useTarget();
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
    u.weights.value.fromArray(this.cache.weights);
    const { x, y } = this.#renderer.getCurrentViewport(new Vector4());
    u.corner.value.set(x, y);
    u.lineWidth.value = LINE * Math.max(1, this.#renderer.getPixelRatio());
    u.insideLuminance.value = INSIDE * exposure.mean;
    this.#scaleIn(unit);
    const eye = camera.getWorldPosition(new Vector3());
    this.#things?.leaveOut(options.without);
    if (this.#edges !== undefined) this.#edges.visible = look === "lux";
    // Ink is of the screen: a mirror image holds luminance.
    if (this.#fronts !== undefined) this.#fronts.visible = false;
    const mirrors = look === "appearance" && cut === undefined && this.#drawMirror(camera, options);
    if (this.#fronts !== undefined) this.#fronts.visible = true;
    u.eye.value.copy(eye);
    u.linear.value = 0;
    u.cut.value.set(...(cut === undefined ? ([0, 0, 0] as const) : cut.normal), cut?.level ?? 1);
    this.#useMaterials({
      lux: look === "lux",
      linear: false,
      cut: cut !== undefined,
      section: cut !== undefined,
      mirrors,
    });
    this.#room?.sortFrom(eye);
    if (look === "lux" && options.labels) this.#showLabels(camera, eye, options);
    else this.#labels.hide();
    const ground = look === "lux" ? PAPER : NIGHT;
    u.filling.value.set(ground.r, ground.g, ground.b);
    this.#renderer.setClearColor(ground, 1);
    this.#renderer.render(this.#world, camera);
  }

  /** Light where a ray meets the first surface. */
  readingAt(camera: PerspectiveCamera, ndc: Vector2, cut?: Cut): SurfaceReading | undefined {
    const point = this.#room === undefined ? undefined : seenPoint(this.#room.mesh, camera, ndc, cut);
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
    this.#rooms.dispose();
    this.#luminous.dispose();
    this.#ink.dispose();
    this.#frontInk.dispose();
    this.#shared.scaleTable.value?.dispose();
    this.cache.dispose();
  }

  #glowing({ scene }: Light): Mesh {
    const { luminaires } = this.cache.records;
    const recordOf = (layer: number, index: number): number =>
      luminaires.find((each) => each.layer === layer && each.index === index)?.record ?? 0;
    const tintOf = (layer: number): Vec3 => this.cache.tints[Math.min(layer, SLOTS - 1)];
    return new Mesh(luminousGeometry(scene, recordOf, tintOf), this.#luminous);
  }

  /** The mirror image in a polished top; false where there is none in sight. */
  #drawMirror(camera: PerspectiveCamera, { moving }: DrawOptions): boolean {
    const room = this.#room;
    const level = this.#light?.scene.island?.height;
    if (room === undefined || level === undefined || room.mirrorOutlines.length === 0) return false;
    const mirror = { level, outlines: room.mirrorOutlines };
    const image = this.#mirror;
    if (!image.aim(this.#renderer, camera, mirror, moving ? 0.5 : 1)) return false;
    const u = this.#shared;
    u.eye.value.copy(image.eye);
    u.linear.value = 1;
    // What is below the plane is not in its image.
    u.cut.value.set(0, 0, -1, -level - 0.002);
    this.#useMaterials(MIRRORED);
    room.sortFrom(image.eye);
    image.draw(this.#renderer, this.#world, u);
    return true;
  }

  #showLabels(camera: PerspectiveCamera, eye: Vector3, { unit, cut }: DrawOptions): void {
    const { mesh } = this.#room ?? {};
    if (mesh === undefined) return;
    const meshes = [mesh, ...(this.#things?.meshes ?? [])];
    const height = this.#renderer.getSize(new Vector2()).y;
    this.#labels.show(this.cache, unit, camera, height, (point) => isInSight(meshes, eye, point, cut));
  }

  #useMaterials(which: Omit<RoomCase, "surface">): void {
    const surface = { ...which, surface: true, section: false, mirrors: false };
    const bodies = this.#rooms.of({ ...surface, section: which.section });
    const top = which.mirrors ? this.#rooms.of({ ...surface, mirrors: true }) : bodies;
    const shell = this.#rooms.of(surface);
    this.#room?.useMaterials(top, bodies, shell);
    const things = this.#rooms.of({ ...surface, surface: false });
    this.#things?.useMaterials(things);
  }

  #useTarget(): void {
    const target = this.cache.target;
    if (target === undefined) return;
    const { divided } = this.cache;
    this.#shared.developed.value = target.developed.texture;
    this.#shared.divisions.value = divided?.divisions ?? UNDIVIDED;
    this.#shared.divided.value = divided?.developed.texture ?? UNDIVIDED;
    this.#shared.records.value = this.cache.recordsTexture;
    this.#room?.useAtlas(target.atlas);
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
    this.#room = undefined;
    this.#edges = undefined;
    this.#fronts = undefined;
  }
}
