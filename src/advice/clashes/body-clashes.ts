/** Hanging bodies against one another, what stands in the room, doors, the ceiling and heads; and a body against its own luminous opening. */

import { depthInside } from "../../geometry/polygon.ts";
import type { Vec2, Vec3 } from "../../geometry/vector.ts";
import { STICKS_OUT } from "../../luminaire/body.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { ofKnownHeight } from "../../luminaire/of-known-height.ts";
import { openingSupport } from "../../luminaire/opening/support.ts";
import { planSides } from "../../luminaire/plan-extent.ts";
import type { LuminousOpening } from "../../photometry/luminous-opening.ts";
import type { BoxInPlace } from "../../scene/box-places.ts";
import { ceilingAt } from "../../scene/ceiling-height.ts";
import { doorSwing } from "../../scene/door-swing.ts";
import { topUnder } from "../../scene/island-frame.ts";
import {
  isFlat,
  luminairePieces,
  occupied,
  overlaps,
  piecesGap,
  TOUCHING,
} from "../../scene/luminaire-pieces.ts";
import type { Scene } from "../../scene/scene.ts";
import { islandSolid } from "../../scene/solids.ts";
import { type Overhang, overhangs } from "../../scene/top-overhang.ts";
import { headRoom } from "../people/head-room.ts";
import type { Clash, Remedy } from "./clash.ts";
import { spacedRow } from "./row-spacing.ts";

/** Headroom under what hangs beside the top (m): 2.03 m, 6 ft 8 in; common practice, no source. */
const WALKING_HEAD = 2.03;

export function bodyClashes(scene: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  const hung = boxes
    .filter(({ kind }) => kind !== "recessed")
    .flatMap((box) => {
      // A flat opening on what is built in lies in the face it is built into.
      const pieces = luminairePieces(box.placed).filter((piece) => box.kind === "pendant" || !isFlat(piece));
      return pieces.length === 0 ? [] : [{ ...box, ...occupied(pieces) }];
    });
  const { island, bodies = [] } = scene;
  const standing = [
    ...bodies.map(({ name, ...piece }) => ({ name, ...occupied([piece]) })),
    ...(island === undefined ? [] : [{ name: "island", ...occupied(islandSolid(island).prisms) }]),
  ];
  const rows = new Map<number, Remedy | undefined>();
  const spaced = (layer: number): Remedy | undefined => {
    if (!rows.has(layer))
      rows.set(
        layer,
        spacedRow(
          scene,
          hung.filter((each) => each.layer === layer),
        ),
      );
    return rows.get(layer);
  };
  return hung.flatMap((box, i) => [
    ...overlaps(box, hung.slice(i + 1)).map(({ other, depth }): Clash => {
      const along = box.layer === other.layer ? spaced(box.layer) : undefined;
      const remedy: Remedy = along ?? { kind: "move apart", by: depth };
      return { kind: "bodies", between: [box.tag, other.tag], clear: -depth, remedy };
    }),
    ...overlaps(box, standing).map(({ other: { name, pieces }, depth }): Clash => {
      const inWay =
        Math.max(...pieces.map(({ top }) => top)) - Math.min(...box.pieces.map(({ bottom }) => bottom));
      const remedy: Remedy =
        name === "island" || inWay < depth ? { kind: "raise", by: inWay } : { kind: "move away", by: depth };
      return { kind: "bodies", between: [box.tag, name], clear: -depth, remedy };
    }),
  ]);
}

/** What hangs through the ceiling: the least free height over the outline of every piece. */
export function ceilingClashes({ room }: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  return boxes.flatMap(({ kind, tag, placed }): Clash[] => {
    if (kind === "recessed") return [];
    const clear = Math.min(
      ...luminairePieces({ ...placed, luminaire: ofKnownHeight(placed.luminaire) }).flatMap(
        ({ outline, top }) => outline.map(([x, y]) => ceilingAt(room, x, y) - top),
      ),
    );
    if (clear >= -TOUCHING) return [];
    return [{ kind: "ceiling", between: [tag, "ceiling"], clear, remedy: { kind: "lower", by: -clear } }];
  });
}

/** What hangs lower than a door that swings into the room, where its leaf passes. */
export function doorClashes({ room }: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  return (room.doors ?? []).flatMap((door) => {
    const outline = door.swing.startsWith("in") ? doorSwing(room, door) : undefined;
    if (outline === undefined) return [];
    return boxes.flatMap(({ kind, tag, placed }): Clash[] => {
      const pieces = kind === "recessed" ? [] : luminairePieces(placed);
      const clear = piecesGap(pieces, [{ outline, bottom: 0, top: door.height }]);
      if (clear >= -TOUCHING) return [];
      const inWay = door.height - Math.min(...pieces.map(({ bottom }) => bottom));
      const remedy: Remedy =
        inWay < -clear ? { kind: "raise", by: inWay } : { kind: "move away", by: -clear };
      return [{ kind: "door", between: [tag, door.name], clear: Math.max(clear, -inWay), remedy }];
    });
  });
}

/** Heads of the people at the island, and of anyone who walks under what hangs beside the top. */
export function headClashes(scene: Scene, boxes: readonly BoxInPlace[]): Clash[] {
  const reached = headRoom(scene).flatMap(({ outcome, pendant, person, gap }): Clash[] =>
    outcome === "in reach"
      ? [
          {
            kind: "head",
            between: [pendant, person],
            clear: gap,
            remedy: { kind: "raise", by: -gap },
          },
        ]
      : [],
  );
  const passed = boxes.flatMap(({ kind, tag, placed }): Clash[] => {
    if (kind !== "pendant" || isOverTop(scene, placed.frame.origin)) return [];
    const pieces = luminairePieces(placed);
    const lowest =
      pieces.length === 0 ? placed.frame.origin[2] : Math.min(...pieces.map(({ bottom }) => bottom));
    const clear = lowest - WALKING_HEAD;
    return clear < -TOUCHING
      ? [{ kind: "head", between: [tag, "walkway"], clear, remedy: { kind: "raise", by: -clear } }]
      : [];
  });
  return [...reached, ...passed];
}

function isOverTop({ island, bodies }: Scene, origin: Vec3): boolean {
  const at: Vec2 = [origin[0], origin[1]];
  return (
    topUnder(island, at) !== undefined || (bodies ?? []).some(({ outline }) => depthInside(at, outline) >= 0)
  );
}

/** Luminaires whose opening sticks out of their body, each with all its boxes. */
export function openingClashes(boxes: readonly BoxInPlace[]): Clash[] {
  const byLuminaire = new Map<string, { luminaire: Luminaire; tags: string[] }>();
  for (const { tag, placed } of boxes) {
    const { luminaire } = placed;
    const entry = byLuminaire.get(luminaire.name);
    if (entry === undefined) byLuminaire.set(luminaire.name, { luminaire, tags: [tag] });
    else entry.tags.push(tag);
  }
  return [...byLuminaire.values()].flatMap(({ luminaire, tags }): Clash[] => {
    const clear = openingWithinBody(luminaire);
    if (clear === undefined || clear.least >= -STICKS_OUT) return [];
    const { length, width } = luminaire.emission.opening;
    return [
      {
        kind: "opening",
        between: tags,
        clear: clear.least,
        remedy: clear.crosswise ? { kind: "exchange sides" } : { kind: "enlarge body", length, width },
      },
    ];
  });
}

/** Whether the body would hold its luminous opening with its sides exchanged, and does not as it lies: what else its extent leads to
 * is settled with that. */
function liesAcrossOpening(luminaire: Luminaire): boolean {
  const clear = openingWithinBody(luminaire);
  return clear !== undefined && clear.least < -STICKS_OUT && clear.crosswise;
}

/** Pendants that hang beyond the top by where they stand and are not said to be meant to; one that lies across its own opening is to be
 * turned first. */
export function placedBeyondTop(scene: Scene): Overhang[] {
  return overhangs(scene).filter(
    ({ layer, index }) =>
      scene.layers[layer].beyondTop !== true &&
      !liesAcrossOpening(scene.layers[layer].luminaires[index].luminaire),
  );
}

/** Least distance in plan from the opening's extent to the body's (m), negative where the opening sticks out; whether the opening would
 * fit with the body's length and width exchanged. Undefined without a body or an opening. */
function openingWithinBody({
  body,
  emission: { opening },
}: Luminaire): { readonly least: number; readonly crosswise: boolean } | undefined {
  if (body === undefined || opening.shape === "point") return undefined;
  const [along, across] = planSides(body);
  const crosswise = body.profile === "box" && openingClearance(opening, [across, along]) >= -STICKS_OUT;
  return { least: openingClearance(opening, [along, across]), crosswise };
}

/** Least distance in plan (m) from an opening to the sides of a body about it, along local x and y; negative where it sticks out. */
function openingClearance(opening: LuminousOpening, [along, across]: readonly [number, number]): number {
  return Math.min(
    along / 2 - openingSupport(opening, 1, 0, 0),
    across / 2 - openingSupport(opening, 0, 1, 0),
  );
}
