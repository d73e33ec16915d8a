/**
 * One lit kitchen as three.js draws it: surfaces painted with the cache's light, things lit vertex by vertex, openings
 * that glow, and the mirror image in a polished top. Drawn from any camera, in either look; it owns what it makes and
 * gives it back with `dispose`.
 */

import {
  type BufferAttribute,
  type BufferGeometry,
  CanvasTexture,
  Color,
  type DataTexture,
  DoubleSide,
  GLSL3,
  HalfFloatType,
  LinearFilter,
  LineSegments,
  Matrix4,
  Mesh,
  PerspectiveCamera,
  RawShaderMaterial,
  Raycaster,
  RGBAFormat,
  Sprite,
  SpriteMaterial,
  Scene as ThreeScene,
  Vector2,
  Vector3,
  Vector4,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import type { Vec3 } from "../../geometry/vector.ts";
import { darkInkOver, type ScaleStep, scaleBands, scaleSteps } from "../scale.ts";
import { compose, type ShaderName } from "./compose.ts";
import { type Exposure, exposureFor, KEY } from "./exposure.ts";
import { isoluxLabels } from "./isolux-labels.ts";
import { SLOTS } from "./light-book.ts";
import { type Light, LightCache } from "./light-cache.ts";
import { EXACT, floatTexture, MOVING } from "./point-light.ts";
import {
  edgeGeometry,
  luminousGeometry,
  type RoomTriangles,
  roomTriangles,
  spotsOf,
  surfaceAt,
  type Thing,
  texelOf,
  thingsOf,
} from "./room-geometry.ts";

export type Look = "appearance" | "lux";

/** What is cut away: everything beyond the plane. */
export interface Cut {
  readonly normal: Vec3;
  readonly level: number;
}

export interface DrawOptions {
  readonly look: Look;
  readonly unit: "lx" | "fc";
  readonly exposure: Exposure;
  readonly cut?: Cut;
  /** A person not to draw: whose eye it is. */
  readonly without?: string;
  readonly labels: boolean;
}

/** Light at one point of a surface (lx). */
export interface SurfaceReading {
  readonly surface: string;
  readonly direct: number;
  readonly interreflected: number;
  readonly place: Vec3;
}

/** Entries of the scale's table, over ln E from 1 to 20,000 lx, as `shaders/view/scale.glsl` has it. */
const SCALE_ENTRIES = 1024;
const SCALE_SPAN = Math.log(20_000);
/** Share of the way to the eye by which a figure stands before its surface, so as not to sink into it. */
const BEFORE = 0.05;
/** The inside of a shade that sends nothing this way, relative to the room's mean luminance: our choice. */
const INSIDE = 0.3;
const PAPER = new Color(0xfaf7f1);
const NIGHT = new Color(0x0b0a08);
const NOWHERE = new Vector4(0, 0, 0, 1);

export class KitchenView {
  readonly cache: LightCache;
  readonly #renderer: WebGLRenderer;
  readonly #world = new ThreeScene();
  readonly #shared = {
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
  readonly #room: RawShaderMaterial;
  readonly #luminous: RawShaderMaterial;
  readonly #ink: RawShaderMaterial;
  readonly #mirrorCamera = new PerspectiveCamera();
  #mirror: WebGLRenderTarget | undefined;
  #light: Light | undefined;
  #triangles: RoomTriangles | undefined;
  #roomMesh: Mesh | undefined;
  #glow: Mesh | undefined;
  #edges: LineSegments | undefined;
  #things: { readonly thing: Thing; readonly mesh: Mesh; direct: Float32Array }[] = [];
  #labels: { readonly sprite: Sprite; readonly at: Vector3 }[] = [];
  #labelsFor = "";
  #still = false;
  #scaleUnit: "lx" | "fc" | undefined;

  constructor(renderer: WebGLRenderer) {
    this.#renderer = renderer;
    this.cache = new LightCache(renderer);
    this.#room = this.#material("view/room.vert", "view/room.frag");
    this.#luminous = this.#material("view/luminous.vert", "view/luminous.frag");
    this.#ink = this.#material("view/ink.vert", "view/ink.frag");
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
    const { placed } = this.cache.book;
    const recordOf = (layer: number, index: number): number =>
      placed.find((each) => each.layer === layer && each.index === index)?.record ?? 0;
    const glow = luminousGeometry(
      light.scene,
      recordOf,
      (layer) => this.cache.tints[Math.min(layer, SLOTS - 1)],
    );
    this.#glow = new Mesh(glow, this.#luminous);
    for (const thing of thingsOf(light.scene)) {
      if (thing.kind === "person" && !light.people) continue;
      const mesh = new Mesh(thing.triangles.geometry(), this.#room);
      this.#things.push({ thing, mesh, direct: new Float32Array(0) });
    }
    for (const object of [this.#roomMesh, this.#edges, this.#glow, ...this.#things.map(({ mesh }) => mesh)]) {
      object.frustumCulled = false;
      this.#world.add(object);
    }
    this.#lightThings(false);
    this.#still = false;
    this.#usePlate();
  }

  /** Weighs the light for other dimming. */
  weigh(scene: Light["scene"]): void {
    if (this.#light === undefined) return;
    this.#light = { ...this.#light, scene };
    this.cache.weigh(scene);
    this.#developThings();
    this.#usePlate();
  }

  /** Goes on towards the still; true when it is there. */
  proceed(budget: number, clock: () => number): boolean {
    if (this.#still) return true;
    if (!this.cache.proceed(budget, clock)) return false;
    this.#lightThings(true);
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
    this.#scaleIn(unit);
    this.#showLabels(look === "lux" && options.labels, unit, camera.getWorldPosition(new Vector3()), cut);
    u.insideLuminance.value = INSIDE * exposure.mean;
    for (const { thing, mesh } of this.#things)
      mesh.visible = thing.kind !== "person" || thing.name !== options.without;
    if (this.#edges !== undefined) this.#edges.visible = look === "lux";
    if (look === "appearance" && this.mirrors && cut === undefined) this.#drawMirror(camera);
    else u.mirrorPicture.value = null;
    camera.getWorldPosition(u.eye.value);
    u.linear.value = 0;
    u.mirrorLevel.value = -1e9;
    this.#renderer.setClearColor(look === "lux" ? PAPER : NIGHT, 1);
    this.#renderer.render(this.#world, camera);
  }

  /** Light where a ray meets the first surface. */
  readingAt(camera: PerspectiveCamera, ndc: Vector2, cut?: Cut): SurfaceReading | undefined {
    const scene = this.#light?.scene;
    const mesh = this.#roomMesh;
    if (scene === undefined || mesh === undefined) return undefined;
    const caster = new Raycaster();
    caster.setFromCamera(ndc, camera);
    const { direction } = caster.ray;
    const hit = caster.intersectObject(mesh, false).find(({ point, face }) => {
      if (face === null || face === undefined) return false;
      if (face.normal.dot(direction) >= 0) return false;
      return (
        cut === undefined ||
        cut.normal[0] * point.x + cut.normal[1] * point.y + cut.normal[2] * point.z <= cut.level
      );
    });
    return hit === undefined ? undefined : this.readingOn([hit.point.x, hit.point.y, hit.point.z]);
  }

  /** Light at a room point on a surface, direct computed for that very point. */
  readingOn(point: Vec3): SurfaceReading | undefined {
    const scene = this.#light?.scene;
    const atlas = this.cache.plate?.atlas;
    if (scene === undefined || atlas === undefined) return undefined;
    const found = surfaceAt(scene, atlas.cells, point);
    if (found === undefined) return undefined;
    const { cell, place } = found;
    const slots = this.cache.points.at(
      Float32Array.from(point),
      Float32Array.from(cell.flat.normal),
      [cell.surface],
      EXACT,
    );
    let direct = 0;
    for (let k = 0; k < SLOTS; k++) direct += this.cache.weights[k] * slots[k];
    const interreflected = this.cache.givenAt(...texelOf(cell, place));
    return { surface: scene.surfaces[cell.surface].name, direct, interreflected, place: point };
  }

  dispose(): void {
    this.#clear();
    this.#mirror?.dispose();
    this.#room.dispose();
    this.#luminous.dispose();
    this.#ink.dispose();
    this.#shared.scaleTable.value?.dispose();
    this.cache.dispose();
  }

  #material(vertex: ShaderName, fragment: ShaderName): RawShaderMaterial {
    return new RawShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: `precision highp float;\n${compose(vertex)}`,
      fragmentShader: `precision highp float;\nprecision highp int;\n${compose(fragment)}`,
      uniforms: this.#shared as unknown as Record<string, { value: unknown }>,
      side: DoubleSide,
    });
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
    this.#labelsFor = "";
  }

  /** Direct light at every vertex of every thing. */
  #lightThings(still: boolean): void {
    const { book, points } = this.cache;
    const positions: number[] = [];
    const normals: number[] = [];
    const rows: number[] = [];
    for (const { thing } of this.#things) {
      const { triangles, blocker } = thing;
      const solid = blocker < 0 ? -1 : book.solidOf[blocker];
      const row = solid < 0 ? book.rowOfAnything : book.rowWithout + solid;
      for (let i = 0; i < triangles.count; i++) rows.push(row);
      positions.push(...triangles.positions);
      normals.push(...triangles.normals);
    }
    if (rows.length === 0) return;
    const light = points.at(
      Float32Array.from(positions),
      Float32Array.from(normals),
      rows,
      still ? { ...MOVING, probes: 8 } : MOVING,
    );
    let from = 0;
    for (const each of this.#things) {
      const to = from + 4 * each.thing.triangles.count;
      each.direct = light.slice(from, to);
      from = to;
    }
    this.#developThings();
  }

  /** Weighs each vertex's light and adds the interreflected light on the cube about the thing. */
  #developThings(): void {
    const light = this.#light;
    if (light === undefined) return;
    const { weights, tints } = this.cache;
    const folded = light.scene.layers.length > SLOTS;
    const cubes = light.surfaces?.things ?? [];
    const bodies = light.scene.blockers.filter(({ kind }) => kind === "pendant" || kind === "person");
    for (const { thing, mesh, direct } of this.#things) {
      const cube = thing.blocker < 0 ? undefined : cubes[bodies.indexOf(light.scene.blockers[thing.blocker])];
      const own = mesh.geometry.getAttribute("own") as BufferAttribute;
      const out = own.array as Float32Array;
      const { normals, count } = thing.triangles;
      for (let i = 0; i < count; i++) {
        const n = normals.slice(3 * i, 3 * i + 3);
        out.fill(0, 4 * i, 4 * i + 4);
        const add = (slot: number, E: number): void => {
          const w = weights[slot] * E;
          for (let k = 0; k < 3; k++) out[4 * i + k] += w * tints[slot][k];
          out[4 * i + 3] += w;
        };
        for (let slot = 0; slot < SLOTS; slot++) add(slot, direct[4 * i + slot] ?? 0);
        cube?.layers.forEach((faces, layer) => {
          let E = 0;
          for (let k = 0; k < 3; k++) E += n[k] * n[k] * faces[2 * k + (n[k] < 0 ? 1 : 0)];
          add(folded ? 0 : layer, folded ? E * light.scene.layers[layer].dim : E);
        });
      }
      own.needsUpdate = true;
    }
  }

  #scaleIn(unit: "lx" | "fc"): void {
    if (this.#scaleUnit === unit) return;
    this.#scaleUnit = unit;
    const bands = scaleBands(unit);
    const table = new Float32Array(8 * SCALE_ENTRIES);
    for (let i = 0; i < SCALE_ENTRIES; i++) {
      // By its lower end: an entry that a step runs through belongs to the band below.
      const E = Math.exp((i / SCALE_ENTRIES) * SCALE_SPAN);
      const { colour, from, to } = bands.find((band) => E < band.to) ?? bands[bands.length - 1];
      const n = Number.parseInt(colour.slice(1), 16);
      table.set([(n >> 16) / 255, ((n >> 8) & 255) / 255, (n & 255) / 255, 1], 4 * i);
      table.set(
        [from > 0 ? Math.log(from) : -99, Number.isFinite(to) ? Math.log(to) : 99],
        4 * (SCALE_ENTRIES + i),
      );
    }
    this.#shared.scaleTable.value?.dispose();
    this.#shared.scaleTable.value = floatTexture(table, SCALE_ENTRIES, 2);
  }

  #showLabels(show: boolean, unit: "lx" | "fc", eye: Vector3, cut: Cut | undefined): void {
    const read = show && this.#labelsFor !== unit ? this.cache.read() : undefined;
    if (read !== undefined) {
      this.#dropLabels();
      this.#labelsFor = unit;
      const steps: readonly ScaleStep[] = scaleSteps(unit);
      for (const { text, level, at } of isoluxLabels(read.atlas, read.values, steps)) {
        const sprite = labelSprite(text, darkInkOver(level));
        this.#labels.push({ sprite, at: new Vector3(...at) });
        this.#world.add(sprite);
      }
    }
    for (const { sprite, at } of this.#labels) {
      const { x, y, z } = at;
      sprite.position.copy(at).lerp(eye, BEFORE);
      sprite.visible =
        show && (cut === undefined || cut.normal[0] * x + cut.normal[1] * y + cut.normal[2] * z <= cut.level);
    }
  }

  /** The room seen from the eye's image below the top, in linear luminance. */
  #drawMirror(camera: PerspectiveCamera): void {
    const level = this.#light?.scene.island?.height ?? 0;
    const u = this.#shared;
    const size = this.#renderer.getDrawingBufferSize(new Vector2());
    const [width, height] = [Math.max(1, size.x), Math.max(1, size.y)];
    if (this.#mirror === undefined || this.#mirror.width !== width || this.#mirror.height !== height) {
      this.#mirror?.dispose();
      this.#mirror = new WebGLRenderTarget(width, height, {
        type: HalfFloatType,
        format: RGBAFormat,
        minFilter: LinearFilter,
        magFilter: LinearFilter,
      });
    }
    const mirror = this.#mirrorCamera;
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
    const before = this.#renderer.getRenderTarget();
    const scissored = this.#renderer.getScissorTest();
    this.#renderer.setScissorTest(false);
    this.#renderer.setRenderTarget(this.#mirror);
    this.#renderer.setClearColor(0x000000, 1);
    this.#renderer.clear();
    this.#renderer.render(this.#world, mirror);
    this.#renderer.setRenderTarget(before);
    this.#renderer.setScissorTest(scissored);
    u.mirrorPicture.value = this.#mirror.texture;
  }

  #dropLabels(): void {
    for (const { sprite } of this.#labels) {
      this.#world.remove(sprite);
      sprite.material.map?.dispose();
      sprite.material.dispose();
    }
    this.#labels = [];
    this.#labelsFor = "";
  }

  #clear(): void {
    this.#dropLabels();
    const meshes: { geometry: BufferGeometry }[] = [];
    for (const object of [...this.#world.children]) {
      if (object instanceof Mesh || object instanceof LineSegments) meshes.push(object);
      this.#world.remove(object);
    }
    for (const { geometry } of meshes) geometry.dispose();
    this.#things = [];
    this.#roomMesh = undefined;
    this.#glow = undefined;
    this.#edges = undefined;
  }
}

/** A figure of constant size on the screen. */
function labelSprite(text: string, dark: boolean): Sprite {
  const scale = 3;
  const canvas = document.createElement("canvas");
  const context = canvas.getContext("2d") as CanvasRenderingContext2D;
  const font = `600 ${13 * scale}px "Source Sans 3 Variable", "Source Sans 3", system-ui, sans-serif`;
  context.font = font;
  canvas.width = Math.ceil(context.measureText(text).width) + 8 * scale;
  canvas.height = 18 * scale;
  context.font = font;
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.lineWidth = 4 * scale;
  context.lineJoin = "round";
  context.strokeStyle = dark ? "rgba(255,253,249,0.75)" : "rgba(23,21,16,0.7)";
  context.strokeText(text, canvas.width / 2, canvas.height / 2);
  context.fillStyle = dark ? "#24211c" : "#fffdf9";
  context.fillText(text, canvas.width / 2, canvas.height / 2);
  const map = new CanvasTexture(canvas);
  map.minFilter = LinearFilter;
  map.generateMipmaps = false;
  map.colorSpace = "";
  const sprite = new Sprite(
    new SpriteMaterial({
      map,
      sizeAttenuation: false,
      depthTest: true,
      depthWrite: false,
      toneMapped: false,
    }),
  );
  // At 50° of field, a thousandth of the distance to the picture plane is about a pixel of 720.
  sprite.scale.set((canvas.width / scale) * 0.00118, (canvas.height / scale) * 0.00118, 1);
  sprite.renderOrder = 2;
  return sprite;
}
