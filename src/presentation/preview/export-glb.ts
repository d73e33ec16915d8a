/**
 * The room with its luminaires as a GLB file: metres, y up as glTF wants it, every node named, lights as
 * KHR_lights_punctual in candela.
 *
 * A luminaire becomes a spot where its beam is under 160° and aims somewhere, else a point light; its intensity is the
 * axial one, its cone the beam (50 %) within the field (10 %). Where the distribution can be written, the LM-63 text
 * rides along in EXT_lights_ies, and programs that know that extension use it instead.
 * Known error: punctual lights have no size, and outside the cone they give nothing.
 */

import {
  BufferAttribute,
  BufferGeometry,
  Color,
  Group,
  Mesh,
  MeshStandardMaterial,
  type Object3D,
  PointLight,
  Quaternion,
  SpotLight,
  type Light as ThreeLight,
  Vector3,
} from "three";
import { GLTFExporter } from "three/addons/exporters/GLTFExporter.js";
import { directionToRoom } from "../../geometry/frame.ts";
import type { Vec3 } from "../../geometry/vector.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import { intensityTowards } from "../../photometry/reference-lookup.ts";
import type { Scene } from "../../scene/scene.ts";
import { linearOf, planckian, tinted } from "./colour.ts";
import { roomTriangles } from "./surface-triangles.ts";
import { thingsOf } from "./things.ts";
import type { Triangles } from "./triangles.ts";

/** LM-63 text of a luminaire, where one can be written. */
export type PhotometricText = (placed: PlacedLuminaire) => string | undefined;

/** z up to y up. */
const UPRIGHT = new Quaternion().setFromAxisAngle(new Vector3(1, 0, 0), -Math.PI / 2);

/** The GLB file of a scene. */
export async function sceneGlb(
  scene: Scene,
  photometricText: PhotometricText = () => undefined,
): Promise<Uint8Array> {
  const root = new Group();
  root.name = scene.name || "kitchen";
  root.quaternion.copy(UPRIGHT);
  const { triangles, surfaces } = roomTriangles(scene);
  const room = new Group();
  room.name = "room";
  root.add(room);
  let from = 0;
  while (from < surfaces.length) {
    let to = from;
    while (to < surfaces.length && surfaces[to] === surfaces[from]) to++;
    const surface = scene.surfaces[surfaces[from]];
    const named = surface.part === "body" ? surface.name : surface.part;
    room.add(meshOf(triangles, from, to, `${named} ${surfaces[from] + 1}`));
    from = to;
  }
  for (const { name, triangles: part } of thingsOf(scene)) root.add(meshOf(part, 0, part.count, name));
  const texts = new Map<Object3D, string>();
  scene.layers.forEach(({ name, dim, luminaires }) => {
    const layer = new Group();
    layer.name = `layer ${name}`;
    root.add(layer);
    luminaires.forEach((placed, i) => {
      const light = lightOf(placed, dim * scene.maintenance);
      light.name = `${name} ${i + 1} light`;
      layer.add(light);
      const text = photometricText(placed);
      if (text !== undefined) texts.set(light, text);
    });
  });
  const exporter = new GLTFExporter();
  if (texts.size > 0) exporter.register((writer) => iesLights(writer as unknown as Writer, texts));
  const glb = (await exporter.parseAsync(root, { binary: true, onlyVisible: false })) as ArrayBuffer;
  root.traverse((object) => {
    if (!(object instanceof Mesh)) return;
    object.geometry.dispose();
    (object.material as MeshStandardMaterial).dispose();
  });
  return new Uint8Array(glb);
}

function meshOf(triangles: Triangles, from: number, to: number, name: string): Mesh {
  const geometry = new BufferGeometry();
  const slice = (values: readonly number[]): BufferAttribute =>
    new BufferAttribute(Float32Array.from(values.slice(3 * from, 3 * to)), 3);
  geometry.setAttribute("position", slice(triangles.positions));
  geometry.setAttribute("normal", slice(triangles.normals));
  const index = triangles.index
    .filter((vertex) => vertex >= from && vertex < to)
    .map((vertex) => vertex - from);
  geometry.setIndex(new BufferAttribute(Uint32Array.from(index), 1));
  const [r, g, b] = triangles.albedo.slice(3 * from, 3 * from + 3);
  const material = new MeshStandardMaterial({ color: new Color(r, g, b), roughness: 0.9, metalness: 0 });
  const mesh = new Mesh(geometry, material);
  mesh.name = name;
  return mesh;
}

function lightOf({ luminaire, frame }: PlacedLuminaire, output: number): ThreeLight {
  const { distribution } = luminaire;
  const axis: Vec3 = [0, 0, -1];
  const down = intensityTowards(distribution, ...axis);
  const beam = halfAngle(luminaire.distribution, 0.5);
  const field = Math.max(beam + 0.01, halfAngle(luminaire.distribution, 0.1));
  const [r, g, b] = tinted(linearOf("#ffffff") ?? [1, 1, 1], 1);
  const colour = new Color(r, g, b);
  if (luminaire.cct !== undefined) {
    const tint = planckian(luminaire.cct);
    const most = Math.max(...tint);
    colour.setRGB(tint[0] / most, tint[1] / most, tint[2] / most);
  }
  const isSpot = down > 0 && beam < (80 * Math.PI) / 180;
  const mean = luminaire.flux / (4 * Math.PI);
  const light = isSpot ? new SpotLight(colour, output * down) : new PointLight(colour, output * mean);
  light.position.set(...frame.origin);
  if (light instanceof SpotLight) {
    light.angle = Math.min(field, Math.PI / 2 - 1e-3);
    light.penumbra = Math.min(1, Math.max(0, 1 - beam / light.angle));
    light.distance = 0;
    light.decay = 2;
    // A spot shines along its own −z, to a target that is its child: so the exporter writes it without losing its aim.
    const aim = new Vector3(...directionToRoom(frame.rotation, axis));
    light.quaternion.setFromUnitVectors(new Vector3(0, 0, -1), aim);
    light.target.position.set(0, 0, -1);
    light.add(light.target);
    light.target.name = "";
  }
  return light;
}

/** Angle from the nadir (rad) at which the intensity in C0 has fallen to a share of the axial one. */
function halfAngle(distribution: PlacedLuminaire["luminaire"]["distribution"], share: number): number {
  const axial = intensityTowards(distribution, 0, 0, -1);
  for (let degrees = 1; degrees < 180; degrees++) {
    const γ = (degrees * Math.PI) / 180;
    if (intensityTowards(distribution, Math.sin(γ), 0, -Math.cos(γ)) < share * axial) return γ;
  }
  return Math.PI;
}

/** What is used of the exporter's writer. */
interface Writer {
  readonly json: { extensions?: Record<string, unknown> };
  readonly extensionsUsed: Record<string, boolean>;
}

interface NodeDefinition {
  extensions?: Record<string, unknown>;
}

/** EXT_lights_ies: the LM-63 text of each luminaire, once each, as a data address. */
function iesLights(writer: Writer, texts: ReadonlyMap<Object3D, string>) {
  const known: string[] = [];
  return {
    writeNode(object: Object3D, node: NodeDefinition): void {
      const text = texts.get(object);
      if (text === undefined) return;
      let light = known.indexOf(text);
      if (light < 0) light = known.push(text) - 1;
      node.extensions ??= {};
      node.extensions.EXT_lights_ies = { light };
      writer.extensionsUsed.EXT_lights_ies = true;
    },
    afterParse(): void {
      if (known.length === 0) return;
      writer.json.extensions ??= {};
      writer.json.extensions.EXT_lights_ies = {
        lights: known.map((text) => ({ uri: `data:application/x-ies-lm-63;base64,${btoa(text)}` })),
      };
    },
  };
}
