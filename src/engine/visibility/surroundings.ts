/**
 * What stands in the way of light in one scene: solids that stand still, together in one tree, and bodies that
 * come and go (pendants, people), each in its own, so that moving one leaves everything else as it was.
 */

import type { Box } from "../../geometry/box.ts";
import type { ConvexPart } from "../../geometry/convex-part.ts";
import { contentKey } from "../../numerics/content-key.ts";
import type { Blocker, Scene } from "../../scene/scene.ts";
import { convexPartsOf } from "./blocker-parts.ts";
import { Occluders } from "./occluders.ts";

export interface MovingBody {
  readonly occluders: Occluders;
  readonly blocker: Blocker;
  /** Diffuse reflectance of its outside, 0…1. */
  readonly reflectance: number;
  /** Content of its mesh and transmittance. */
  readonly key: string;
}

/** Solids that can stand between two boxes: indices of standing solids and of moving bodies. */
export interface InTheWay {
  readonly standing: readonly number[];
  readonly bodies: readonly number[];
}

/** Clothing and skin; typical value, no source. */
const PERSON_REFLECTANCE = 0.3;

export class Surroundings {
  readonly standing: Occluders;
  readonly bodies: readonly MovingBody[];
  readonly #all: readonly number[];

  constructor(standing: Occluders, bodies: readonly MovingBody[]) {
    this.standing = standing;
    this.bodies = bodies;
    this.#all = Array.from({ length: standing.count }, (_, i) => i);
  }

  /** Index among the moving bodies of a luminaire's own body, −1 if it has none. */
  ownBody(layer: number, luminaire: number): number {
    return this.bodies.findIndex(({ blocker: { owner } }) => owner?.[0] === layer && owner[1] === luminaire);
  }

  /** What can stand between box `a` and box `b`, the body `except` apart. */
  between(a: Box, b: Box, except: number, among?: InTheWay): InTheWay {
    const bodies: number[] = [];
    if (among === undefined) {
      for (let i = 0; i < this.bodies.length; i++)
        if (i !== except && this.bodies[i].occluders.stands(0, a, b)) bodies.push(i);
    } else {
      for (const i of among.bodies) if (this.bodies[i].occluders.stands(0, a, b)) bodies.push(i);
    }
    return { standing: this.standing.between(a, b, among?.standing ?? this.#all), bodies };
  }

  /** Visits the solids in the way: their convex parts, the share of light that passes them, and a number of each. */
  each(
    inTheWay: InTheWay,
    visit: (parts: readonly ConvexPart[], share: number, solid: number) => void,
  ): void {
    const { standing, bodies } = this;
    for (const solid of inTheWay.standing)
      visit(standing.parts[solid], standing.blockers[solid].transmittance, solid);
    for (const body of inTheWay.bodies)
      visit(bodies[body].occluders.parts[0], bodies[body].blocker.transmittance, standing.count + body);
  }

  /** Fraction of light that passes from a to b; only what is `inTheWay` is asked. */
  transmittance(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    inTheWay: InTheWay,
  ): number {
    let passed = this.standing.transmittance(ax, ay, az, bx, by, bz, inTheWay.standing);
    for (let k = 0; k < inTheWay.bodies.length && passed > 0; k++)
      passed *= this.bodies[inTheWay.bodies[k]].occluders.transmittance(ax, ay, az, bx, by, bz, ONLY);
    return passed;
  }
}

const ONLY = [0] as const;

export function isClear({ standing, bodies }: InTheWay): boolean {
  return standing.length === 0 && bodies.length === 0;
}

/** Blockers of a scene that never move while luminaires and people do. */
export function standingBlockers(scene: Scene): Blocker[] {
  return scene.blockers.filter(({ kind }) => kind === "island" || kind === "body");
}

/** Pendants' bodies, and people where they are wanted. `known` gives trees already built, by key. */
export function movingBodies(
  scene: Scene,
  people: boolean,
  known: ReadonlyMap<string, MovingBody> = new Map(),
): MovingBody[] {
  const bodies: MovingBody[] = [];
  for (const blocker of scene.blockers) {
    if (blocker.kind !== "pendant" && !(people && blocker.kind === "person")) continue;
    const reflectance = reflectanceOf(scene, blocker);
    const key = contentKey(
      blocker.mesh.positions,
      blocker.mesh.triangles,
      blocker.transmittance,
      reflectance,
    );
    const occluders = known.get(key)?.occluders ?? new Occluders([blocker], [convexPartsOf(scene, blocker)]);
    bodies.push({ occluders, blocker, reflectance, key });
  }
  return bodies;
}

function reflectanceOf(scene: Scene, { owner, reflectance }: Blocker): number {
  if (reflectance !== undefined) return reflectance;
  if (owner === undefined) return PERSON_REFLECTANCE;
  return scene.layers[owner[0]]?.luminaires[owner[1]]?.luminaire.body?.reflectance ?? PERSON_REFLECTANCE;
}
