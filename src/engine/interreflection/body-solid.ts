/**
 * A body that comes and goes (a pendant, a person) as it takes part in interreflection: convex pieces that hide, and parts
 * that are lit and emit, each with one exitance.
 *
 * A body of revolution has its lower and upper ends and, between, bands by height and slope, each in eighths; any
 * other body the faces of its pieces, cut into cells. A part is seen as flat facets and looks from quadrature nodes, which
 * lie where no other piece of the body covers it. Approximation: a round body is a prism of equal section
 * (`AROUND` sides), and exitance is even over a part.
 */

import { type Box, boxOfPoints } from "../../geometry/box.ts";
import { pointToRoom } from "../../geometry/frame.ts";
import { type Polyhedron, polyhedraOf } from "../../geometry/polyhedron.ts";
import { placed, revolved } from "../../geometry/solids.ts";
import { bodyOutline } from "../../luminaire/body-profiles.ts";
import { halfProfile } from "../../luminaire/half-profile.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { Blocker } from "../../scene/scene.ts";
import { AROUND, type BodyNodes, BodyParts } from "./body-parts.ts";
import { addFaceParts } from "./face-parts.ts";
import { addRoundParts, convexRuns } from "./round-parts.ts";

export interface BodySolid {
  readonly pieces: readonly Polyhedron[];
  readonly box: Box;
  readonly parts: number;
  /** m², less what passes straight through, and diffuse reflectance of the rest, of each part. */
  readonly area: Float64Array;
  readonly reflectance: Float64Array;
  /** Share of the light that it stops that it sends on, evenly from all its parts. */
  readonly transmittance: number;
  /** Facet f: part, piece, corners `start[f]` to `start[f + 1]` of `vertices`, plane at 4 f. */
  readonly facets: {
    readonly count: number;
    readonly part: Uint32Array;
    readonly piece: Uint32Array;
    readonly start: Uint32Array;
    readonly vertices: Float64Array;
    readonly planes: Float64Array;
  };
  /** From which the exchange is looked at. */
  readonly nodes: BodyNodes;
  /** At which direct light is asked for. */
  readonly litNodes: BodyNodes;
}

/** `hung` is the luminaire whose body it is. */
export function exchangeBody(
  blocker: Blocker,
  reflectance: number,
  hung: PlacedLuminaire | undefined,
): BodySolid {
  const parts = new BodyParts();
  const body = hung?.luminaire.body;
  if (hung !== undefined && body !== undefined && body.profile !== "box") {
    const outline = bodyOutline(body.profile);
    const steps = (outline?.quarters ?? 1) * STEPS;
    const profile = halfProfile(body, hung.luminaire.emission.opening, steps);
    for (const run of convexRuns(profile))
      parts.pieces.push(...polyhedraOf(placed(revolved(run, AROUND), hung.frame)));
    const room = (x: number, y: number, z: number) => pointToRoom(hung.frame, [x, y, z]);
    addRoundParts(
      parts,
      profile,
      room,
      reflectance,
      outline?.centred ? reflectance : (body.lining ?? reflectance),
    );
  } else {
    parts.pieces.push(...polyhedraOf(blocker.mesh));
    addFaceParts(parts, reflectance);
  }
  const diffuse = body === undefined ? 0 : body.transmittance - (body.seeThrough ?? body.transmittance);
  return finished(parts, diffuse, 1 - blocker.transmittance);
}

/** Cones in which a quarter of a circle is drawn; half as fine a globe would lose 2 % of its area. */
const STEPS = 8;

/** `stopped`: share of the light that does not pass straight through. Only that counts as fallen on the body, so that its
 * areas are less by it and what it reflects or scatters is more of it. */
function finished(parts: BodyParts, diffuse: number, stopped: number): BodySolid {
  const nodes = parts.nodes.exposed(parts.pieces);
  const litNodes = parts.litNodes.exposed(parts.pieces);
  for (const list of [nodes, litNodes]) for (let k = 0; k < list.area.length; k++) list.area[k] *= stopped;
  const reflectance = Float64Array.from(parts.reflectance, (rho) =>
    stopped > 0 ? Math.min(1, rho / stopped) : 0,
  );
  const most = reflectance.reduce((a, b) => Math.max(a, b), 0);
  const area = new Float64Array(parts.reflectance.length);
  nodes.part.forEach((part, k) => {
    area[part] += nodes.area[k];
  });
  return {
    pieces: parts.pieces,
    box: boxOfPoints(parts.pieces.flatMap(({ vertices }) => [...vertices])),
    parts: area.length,
    area,
    reflectance,
    transmittance: stopped > 0 ? Math.max(0, Math.min(diffuse / stopped, 1 - most)) : 0,
    facets: {
      count: parts.facetPart.length,
      part: Uint32Array.from(parts.facetPart),
      piece: Uint32Array.from(parts.facetPiece),
      start: Uint32Array.from(parts.start),
      vertices: Float64Array.from(parts.vertices),
      planes: Float64Array.from(parts.planes),
    },
    nodes,
    litNodes,
  };
}
