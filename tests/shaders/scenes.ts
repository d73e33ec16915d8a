/** The scenes of the shader tests: the worked example, and its room with luminaires made from formulas. */
import { frame } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { PlacedLuminaire } from "../../src/luminaire/placed-luminaire.ts";
import type { ShadeMaterial } from "../../src/luminaire/shade/shade.ts";
import type { ShadeFormName } from "../../src/luminaire/shade/shade-forms.ts";
import { shadeLuminaire } from "../../src/luminaire/shade/shade-luminaire.ts";
import { luminaireBlockers } from "../../src/scene/luminaire-blockers.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { boathouseStudy } from "../support/boathouse-light.ts";
import { luminaire, opening, placed, sampled } from "../support/luminaires.ts";
import { plainShade } from "../support/shades.ts";

const FOLDER = "/fixtures-data/boathouse/";
const degree = Math.PI / 180;
const study = boathouseStudy(FOLDER);
/** Wider to one side than to the other, more down than up. */
const lopsided = sampled(
  ([x, y, z]) => 400 * (1.2 + Math.max(0, -z)) * (1 + 0.7 * x) * (1 + 0.3 * y * x),
  10,
  2,
);
const upAndDown = sampled(([, , z]) => 900 * z * z * (z > 0 ? 0.6 : 1) + 20, 90, 1);
const downward = sampled(([, , z]) => (z < 0 ? 700 * -z : 0), 90, 1, 90);

function only(scene: Scene, luminaires: readonly PlacedLuminaire[]): Scene {
  const [layer] = scene.layers;
  return {
    ...scene,
    layers: [{ ...layer, dim: 1, luminaires }],
    blockers: scene.blockers.filter(({ kind }) => kind !== "pendant"),
  };
}

/** The worked example, its pendants opaque cones and an opal drum of which only lamp and shade are known, one
 * cone tilted. */
function shaded(scene: Scene): Scene {
  tracedOnce ??= traceAll(scene);
  return tracedOnce;
}

let tracedOnce: Scene | undefined;

function traceAll(scene: Scene): Scene {
  const traced = (
    form: ShadeFormName,
    height: number,
    top: number,
    material: Partial<ShadeMaterial>,
    lampHeight: number,
  ): Luminaire =>
    shadeLuminaire(
      plainShade(form, 0.3, height, top, material),
      [
        {
          flux: 800,
          finish: "frosted",
          diameter: 0.06,
          orientation: "base-up",
          z: lampHeight,
          capDiameter: 0.027,
        },
      ],
      { name: form, origin: "test", accuracy: { axial: 0.03, ratio: 0.01 } },
    ).luminaire;
  const types = [
    traced("cone", 0.25, 0.08, { inside: 0.85, outside: 0.5 }, 0.12),
    traced("drum", 0.2, 0.3, { inside: 0.35, outside: 0.35, transmittance: 0.5, diffusion: 1 }, 0.1),
  ];
  const [pendants, ...others] = scene.layers;
  const luminaires = pendants.luminaires.map((each, i) => ({
    luminaire: types[i % types.length],
    frame: i === 0 ? frame(each.frame.origin, { turn: 60 * degree, tilt: 15 * degree, spin: 0 }) : each.frame,
  }));
  const layers = [{ ...pendants, luminaires }, ...others];
  const standing = scene.blockers.filter(({ kind }) => kind !== "pendant");
  return { ...scene, layers, blockers: [...standing, ...luminaireBlockers(layers)] };
}

/** Scenes whose light is asked of both. */
export async function sceneOf(name: string): Promise<Scene> {
  const { scenes } = await study;
  const [scene] = scenes;
  const over = (z: number): Vec3 => [2.5, 1.9, z];
  switch (name) {
    case "three domes":
      return scene;
    case "two narrow cones":
      return scenes[1];
    case "three opal globes":
      return scenes[2];
    case "asymmetric, turned and tilted": {
      const type = luminaire(lopsided, opening("rectangle", 0.5, 0.1));
      return only(scene, [
        {
          luminaire: type,
          frame: frame(over(1.9), { turn: 60 * degree, tilt: 25 * degree, spin: 40 * degree }),
        },
      ]);
    }
    case "near-field disc":
      return only(scene, [placed(luminaire(downward, opening("disc", 0.6)), over(1.45))]);
    case "up and down":
      return only(scene, [placed(luminaire(upAndDown, opening("cylinder", 0.2, 0.2, 0.3)), over(1.9))]);
    case "linear box":
      return only(scene, [placed(luminaire(upAndDown, opening("box", 1.2, 0.08, 0.06)), over(1.7))]);
    case "lamp and shade":
      return shaded(scenes[0]);
    default:
      throw new Error(`no scene "${name}"`);
  }
}
