/**
 * The room with its luminaires as a GLB file: metres, y up as glTF wants it, every node named, lights as
 * KHR_lights_punctual in candela.
 *
 * A luminaire is there twice. In the group `lights`, as a spot where its beam is under 160° and aims somewhere, else a
 * point light: its intensity is the axial one, its cone the beam (50 %) within the field (10 %). In the group `lights as
 * measured`, as its whole distribution: an LM-63 file within this one, by EXT_lights_ies [1], with dimming and
 * maintenance as its multiplier. Programs know one or the other; where one knows both, its user leaves a group out.
 * Known error: neither has a size, and outside the cone a spot gives nothing.
 *
 * [1] Khronos Group, glTF extension EXT_lights_ies: an untransformed light aims its angles (0, 0) along −z, as a
 *     luminaire's own frame does, and counts C from +x towards +y.
 */

import {
  BufferAttribute,
  BufferGeometry,
  Color,
  Group,
  Matrix4,
  Mesh,
  MeshStandardMaterial,
  Object3D,
  PointLight,
  Quaternion,
  SpotLight,
  type Light as ThreeLight,
  Vector3,
} from "three";
import { GLTFExporter } from "three/addons/exporters/GLTFExporter.js";
import type { Frame } from "../geometry/frame.ts";
import type { Vec3 } from "../geometry/vector.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { intensityTowards } from "../photometry/reference-lookup.ts";
import { maintainedShare } from "../scene/maintained.ts";
import type { Scene } from "../scene/scene.ts";
import { planckian } from "./colour.ts";
import { freeBodies } from "./free-bodies.ts";
import { luminaireLm63 } from "./luminaire-file.ts";
import { roomTriangles } from "./surface-triangles.ts";
import type { Triangles } from "./triangles.ts";

const MIME = "application/x-ies-lm-63";

/** z up to y up. */
const UPRIGHT = new Quaternion().setFromAxisAngle(new Vector3(1, 0, 0), -Math.PI / 2);

/** The GLB file of a scene. */
export async function sceneGlb(scene: Scene): Promise<Uint8Array> {
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
  for (const { name, triangles: part } of freeBodies(scene, true))
    root.add(meshOf(part, 0, part.count, name));
  const spots = groupIn(root, "lights");
  const measured = groupIn(root, "lights as measured");
  const files = new Map<Object3D, LightFile>();
  const textOf = new Map<Luminaire, string | undefined>();
  scene.layers.forEach(({ name, dim, luminaires }) => {
    const layer = groupIn(spots, `layer ${name}`);
    const whole = groupIn(measured, `layer ${name}, LM-63`);
    luminaires.forEach((placed, i) => {
      const { luminaire } = placed;
      const multiplier = maintainedShare(scene, { dim });
      const colour = colourOf(luminaire);
      const light = lightOf(placed, multiplier, colour);
      light.name = `${name} ${i + 1} light`;
      layer.add(light);
      if (!textOf.has(luminaire)) textOf.set(luminaire, luminaireLm63(luminaire));
      const text = textOf.get(luminaire);
      if (text === undefined) return;
      const stand = new Object3D();
      stand.name = `${name} ${i + 1} LM-63`;
      stand.position.set(...placed.frame.origin);
      stand.quaternion.copy(turnOf(placed.frame));
      whole.add(stand);
      files.set(stand, { name: luminaire.name, text, multiplier, colour });
    });
  });
  const exporter = new GLTFExporter();
  if (files.size > 0) exporter.register((writer) => iesLights(writer as unknown as Writer, files));
  const glb = (await exporter.parseAsync(root, {
    binary: true,
    onlyVisible: false,
    trs: true,
  })) as ArrayBuffer;
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

function groupIn(parent: Object3D, name: string): Group {
  const group = new Group();
  group.name = name;
  parent.add(group);
  return group;
}

/** A luminaire's own axes in the room. */
function turnOf({ rotation: r }: Frame): Quaternion {
  const [x, y, z] = [0, 3, 6].map((k) => new Vector3(r[k], r[k + 1], r[k + 2]));
  return new Quaternion().setFromRotationMatrix(new Matrix4().makeBasis(x, y, z));
}

/** Of the light, the largest part 1. */
function colourOf({ cct }: Luminaire): Color {
  if (cct === undefined) return new Color(1, 1, 1);
  const tint = planckian(cct);
  const most = Math.max(...tint);
  return new Color().setRGB(tint[0] / most, tint[1] / most, tint[2] / most);
}

function lightOf({ luminaire, frame }: PlacedLuminaire, output: number, colour: Color): ThreeLight {
  const { distribution } = luminaire;
  const axis: Vec3 = [0, 0, -1];
  const down = intensityTowards(distribution, ...axis);
  const beam = halfAngle(luminaire.distribution, 0.5);
  const field = Math.max(beam + 0.01, halfAngle(luminaire.distribution, 0.1));
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
    light.quaternion.copy(turnOf(frame));
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

interface LightFile {
  readonly name: string;
  readonly text: string;
  readonly multiplier: number;
  readonly colour: Color;
}

/** EXT_lights_ies: the LM-63 file of each luminaire type, once each, as a data address. */
function iesLights(writer: Writer, files: ReadonlyMap<Object3D, LightFile>) {
  const materials = new Map<string, { readonly light: number; readonly name: string }>();
  return {
    writeNode(object: Object3D, node: NodeDefinition): void {
      const file = files.get(object);
      if (file === undefined) return;
      const { name, text, multiplier, colour } = file;
      const { light } = materials.get(text) ?? { light: materials.size };
      materials.set(text, { light, name });
      node.extensions ??= {};
      node.extensions.EXT_lights_ies = { light, multiplier, color: colour.toArray() };
      writer.extensionsUsed.EXT_lights_ies = true;
    },
    afterParse(): void {
      if (materials.size === 0) return;
      writer.json.extensions ??= {};
      writer.json.extensions.EXT_lights_ies = {
        lights: [...materials].map(([text, { name }]) => ({
          name,
          mimeType: MIME,
          uri: `data:${MIME};base64,${btoa(text)}`,
        })),
      };
    },
  };
}
