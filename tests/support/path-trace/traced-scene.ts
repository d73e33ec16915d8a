/**
 * A resolved scene as the trace sees it: a convex room, solids in it, emitters. Faces take their reflectance from the
 * scene's surfaces; bodies of pendants and people from what the scene says of them.
 */
import type { Scene } from "../../../src/scene/scene.ts";
import type { Surface } from "../../../src/scene/surface.ts";
import { type ConvexSolid, convexSolids } from "./convex-solid.ts";
import { Emitter } from "./emitter.ts";
import { bodySolid, MOUTH, OUTSIDE } from "./round-solid.ts";
import { MISS, type Solid } from "./solid.ts";

const ON_PLANE = 1e-5;
/** Rays start and end this far from surfaces (m). */
export const OFFSET = 1e-6;

/** Surfaces of one plane; most have one reflectance throughout. */
interface FacePlane {
  readonly surfaces: readonly Surface[];
  readonly reflectance: number | undefined;
}

interface TracedSolid {
  readonly solid: Solid;
  readonly transmittance: number;
  /** By face. */
  readonly planes: readonly FacePlane[];
}

export interface TraceOptions {
  /** Whether people stand in the light. */
  readonly people: boolean;
}

export class TracedScene {
  readonly emitters: readonly Emitter[];
  /** Of the hit found last: position, unit normal towards the ray's side, reflectance, solid (−1: the room). */
  readonly hit = new Float64Array(3);
  readonly hitNormal = new Float64Array(3);
  hitReflectance = 0;
  hitSolid = -1;
  hitTransmittance = 0;
  /** Hits on faces for which the scene has no surface: none where surfaces cover what can be seen. */
  hitsWithoutSurface = 0;
  private readonly solids: readonly TracedSolid[];
  /** low x, y, z, high x, y, z of each solid */
  private readonly bounds: Float64Array;
  /** Inward nx, ny, nz, c of each plane of the room: inside n · p ≥ c. */
  private readonly shell: Float64Array;
  private readonly shellPlanes: readonly FacePlane[];

  constructor(scene: Scene, { people }: TraceOptions) {
    const room = scene.surfaces.filter(({ part }) => /^(floor|ceiling|opening|wall \d)$/.test(part));
    const planes = planesOf(room);
    this.shellPlanes = planes.map(({ surfaces }) => facePlane(surfaces));
    this.shell = Float64Array.from(planes.flatMap(({ normal, offset }) => [...normal, offset]));
    const furniture = scene.surfaces.filter((surface) => !room.includes(surface));
    const placed = scene.layers.flatMap(({ luminaires }, layer) =>
      luminaires.map((each, index) => ({ each, emitter: new Emitter(each), layer, index })),
    );
    this.emitters = placed.map(({ emitter }) => emitter);
    const solids: TracedSolid[] = [];
    for (const blocker of scene.blockers) {
      if (blocker.kind === "person" && !people) continue;
      const owner = placed.find(
        ({ layer, index }) => blocker.owner?.[0] === layer && blocker.owner[1] === index,
      );
      const { transmittance } = blocker;
      if (owner?.each.luminaire.body !== undefined) {
        const { luminaire, frame } = owner.each;
        const body = luminaire.body as NonNullable<typeof luminaire.body> & { readonly lining?: number };
        const solid = bodySolid(body, luminaire.emission.opening, frame);
        const outside = uniform(body.reflectance);
        const planes = [outside, uniform(body.lining ?? body.reflectance)];
        const faces = body.profile === "box" ? Array<FacePlane>(6).fill(outside) : [];
        if (faces.length === 0) {
          faces[OUTSIDE] = planes[0];
          faces[MOUTH] = planes[1];
        }
        owner.emitter.own = solids.length;
        solids.push({ solid, transmittance, planes: faces });
        continue;
      }
      const inSurfaces = blocker.kind === "island" || blocker.kind === "body";
      if (!inSurfaces && blocker.reflectance === undefined)
        throw new Error(`The reflectance of "${blocker.name}" is not known.`);
      for (const solid of convexSolids(blocker.mesh)) {
        if (owner !== undefined) owner.emitter.own = solids.length;
        const faces = inSurfaces
          ? facesOf(solid, furniture)
          : Array<FacePlane>(solid.planes.length / 4).fill(uniform(blocker.reflectance as number));
        solids.push({ solid, transmittance, planes: faces });
      }
    }
    this.solids = solids;
    this.bounds = Float64Array.from(solids.flatMap(({ solid }) => [...solid.low, ...solid.high]));
  }

  get solidCount(): number {
    return this.solids.length;
  }

  /** The first surface along a unit direction, past solids that `passes` says let the ray through. False when the ray
   * leaves the room. */
  nearest(
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    passes?: (solid: number) => boolean,
  ): boolean {
    const { shell, solids } = this;
    let distance = MISS;
    let plane = -1;
    for (let i = 0; i < shell.length; i += 4) {
      const along = shell[i] * dx + shell[i + 1] * dy + shell[i + 2] * dz;
      if (along >= 0) continue;
      const t = (shell[i + 3] - (shell[i] * ox + shell[i + 1] * oy + shell[i + 2] * oz)) / along;
      if (t < distance) {
        distance = t;
        plane = i;
      }
    }
    let first = -1;
    let face = 0;
    const ix = 1 / dx;
    const iy = 1 / dy;
    const iz = 1 / dz;
    for (let s = 0; s < solids.length; s++) {
      if (this.boundsAt(s, ox, oy, oz, ix, iy, iz) >= distance) continue;
      const { solid, transmittance } = solids[s];
      const t = solid.enter(ox, oy, oz, dx, dy, dz, 0);
      if (t >= distance) continue;
      if (transmittance > 0 && passes?.(s) === true) continue;
      distance = t;
      first = s;
      face = solid.face;
      solid.normalAt();
      this.hitNormal[0] = solid.normal[0];
      this.hitNormal[1] = solid.normal[1];
      this.hitNormal[2] = solid.normal[2];
    }
    if (distance === MISS) return false;
    const { hit } = this;
    hit[0] = ox + distance * dx;
    hit[1] = oy + distance * dy;
    hit[2] = oz + distance * dz;
    this.hitSolid = first;
    if (first < 0) {
      this.hitNormal[0] = shell[plane];
      this.hitNormal[1] = shell[plane + 1];
      this.hitNormal[2] = shell[plane + 2];
    }
    const faces = first < 0 ? this.shellPlanes[plane >> 2] : solids[first].planes[face];
    this.hitTransmittance = first < 0 ? 0 : solids[first].transmittance;
    this.hitReflectance = faces.reflectance ?? this.reflectanceAt(faces.surfaces);
    return true;
  }

  private reflectanceAt(surfaces: readonly Surface[]): number {
    for (const surface of surfaces) if (contains(surface, this.hit)) return surface.reflectance;
    this.hitsWithoutSurface++;
    return 0;
  }

  /** The share of light that solids let pass along a unit direction up to a distance; `own` does not count. */
  passed(
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    distance: number,
    own: number,
  ): number {
    const ix = 1 / dx;
    const iy = 1 / dy;
    const iz = 1 / dz;
    let share = 1;
    for (let s = 0; s < this.solids.length; s++) {
      if (s === own || this.boundsAt(s, ox, oy, oz, ix, iy, iz) >= distance) continue;
      const { solid, transmittance } = this.solids[s];
      if (solid.enter(ox, oy, oz, dx, dy, dz, 0) >= distance) continue;
      if (transmittance === 0) return 0;
      share *= transmittance;
    }
    return share;
  }

  transmittanceOf(solid: number): number {
    return this.solids[solid].transmittance;
  }

  /** Distance to a solid's bounds, or MISS. */
  private boundsAt(
    s: number,
    ox: number,
    oy: number,
    oz: number,
    ix: number,
    iy: number,
    iz: number,
  ): number {
    const b = this.bounds;
    const i = 6 * s;
    const x0 = (b[i] - ox) * ix;
    const x1 = (b[i + 3] - ox) * ix;
    let near = x0 < x1 ? x0 : x1;
    let far = x0 < x1 ? x1 : x0;
    const y0 = (b[i + 1] - oy) * iy;
    const y1 = (b[i + 4] - oy) * iy;
    near = Math.max(near, y0 < y1 ? y0 : y1);
    far = Math.min(far, y0 < y1 ? y1 : y0);
    const z0 = (b[i + 2] - oz) * iz;
    const z1 = (b[i + 5] - oz) * iz;
    near = Math.max(near, z0 < z1 ? z0 : z1);
    far = Math.min(far, z0 < z1 ? z1 : z0);
    // A product 0 · ∞ is no number and excludes nothing.
    return near > far || far < 0 ? MISS : near;
  }
}

interface PlaneOfSurfaces {
  readonly normal: readonly number[];
  readonly offset: number;
  readonly surfaces: Surface[];
}

function planesOf(surfaces: readonly Surface[]): PlaneOfSurfaces[] {
  const planes: PlaneOfSurfaces[] = [];
  for (const surface of surfaces) {
    const offset = dot(surface.normal, surface.vertices[0]);
    const known = planes.find(
      (plane) => dot(plane.normal, surface.normal) > 1 - 1e-9 && Math.abs(plane.offset - offset) < ON_PLANE,
    );
    if (known === undefined) planes.push({ normal: surface.normal, offset, surfaces: [surface] });
    else known.surfaces.push(surface);
  }
  return planes;
}

function facesOf(solid: ConvexSolid, furniture: readonly Surface[]): FacePlane[] {
  return Array.from({ length: solid.planes.length / 4 }, (_, f) => {
    const [nx, ny, nz, c] = solid.planes.subarray(4 * f, 4 * f + 4);
    return facePlane(
      furniture.filter(
        ({ normal, vertices }) =>
          dot(normal, [nx, ny, nz]) > 1 - 1e-9 && Math.abs(dot([nx, ny, nz], vertices[0]) - c) < ON_PLANE,
      ),
    );
  });
}

function facePlane(surfaces: readonly Surface[]): FacePlane {
  const values = new Set(surfaces.map(({ reflectance }) => reflectance));
  return { surfaces, reflectance: values.size === 1 ? surfaces[0].reflectance : undefined };
}

function uniform(reflectance: number): FacePlane {
  return { surfaces: [], reflectance };
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** Even-odd rule in the plane of the two coordinates in which the polygon is widest. */
function contains({ vertices, holes, normal }: Surface, p: Float64Array): boolean {
  const drop = [0, 1, 2].reduce((a, b) => (Math.abs(normal[b]) > Math.abs(normal[a]) ? b : a));
  const [i, j] = [(drop + 1) % 3, (drop + 2) % 3];
  let inside = false;
  for (const loop of [vertices, ...holes])
    for (let k = 0, l = loop.length - 1; k < loop.length; l = k++) {
      const [a, b] = [loop[k], loop[l]];
      if (a[j] > p[j] !== b[j] > p[j] && p[i] < a[i] + ((p[j] - a[j]) / (b[j] - a[j])) * (b[i] - a[i]))
        inside = !inside;
    }
  return inside;
}
