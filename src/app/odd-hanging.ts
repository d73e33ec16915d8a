/**
 * Pendants that cannot hang as they are meant: beyond the top, over a zone that lies higher, from a canopy that reaches into the body or leaves its box bare, or with the
 * light of a large body taken to leave one point.
 */

import { placedBeyondTop } from "../advice/clashes/body-clashes.ts";
import { pathTo } from "../diagnostics/json-path.ts";
import type { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import { depthInside } from "../geometry/polygon.ts";
import { highestPoint } from "../luminaire/extent.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { planExtents } from "../luminaire/plan-extent.ts";
import { boxWidth } from "../scene/box-places.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { isPendant } from "../scene/is-pendant.ts";
import { roomToIsland, topUnder } from "../scene/island-frame.ts";
import type { Scene } from "../scene/scene.ts";
import type { StudyDocument } from "../study/study-schema.ts";
import { isBoxBare } from "./set-out/drop.ts";

/** Heights that differ by less are one (m). */
const ONE_HEIGHT = 1e-3;
/**
 * Largest share of the light under a pendant that may depend on how large its light is. Straight below a luminous disc of radius a,
 * d away, illuminance is 1/(1 + (a/d)²) of the inverse square law's (CIE, from the view factor of a disc).
 */
const MOST_OF_SIZE = 0.1;

/** Of a zone or a luminaire each is said once, of the first arrangement in which it is so; what hangs beyond the top of each layer. */
export function checkHangingAsMeant(document: StudyDocument, scenes: readonly Scene[], ledger: Ledger): void {
  checkZoneHeights(document, scenes, ledger);
  checkOverhangs(document, scenes, ledger);
  const pendants = scenes.flatMap((scene) =>
    scene.layers.flatMap((layer) =>
      layer.luminaires.flatMap((placed) => (isPendant(layer, placed) ? [{ scene, placed }] : [])),
    ),
  );
  for (const name of new Set(pendants.map(({ placed }) => placed.luminaire.name))) {
    const own = pendants.filter(({ placed }) => placed.luminaire.name === name);
    checkCanopy(own, ledger);
    checkOpening(own, ledger);
  }
}

/** Places of one luminaire of the study, one or more, each with its scene. */
type Places = readonly { readonly scene: Scene; readonly placed: PlacedLuminaire }[];

function checkZoneHeights(document: StudyDocument, scenes: readonly Scene[], ledger: Ledger): void {
  document.island?.zones?.forEach(({ name, height }, i) => {
    if (height === undefined) return;
    for (const scene of scenes) {
      const lower = lowestOver(scene, name);
      if (lower === undefined || lower.at > height - ONE_HEIGHT) continue;
      ledger.warn(
        "zone-above-luminaires",
        `/island/zones/${i}/height`,
        `The zone "${name}" lies above the light of "${lower.layer}", which hangs over it.`,
        phrase`below ${lower.at}`,
        phrase`${height}`,
      );
      return;
    }
  });
}

function checkCanopy(places: Places, ledger: Ledger): void {
  const [{ scene, placed }] = places;
  const { canopy, name } = placed.luminaire;
  const box = boxWidth(scene.room);
  if (isBoxBare(placed.luminaire, box))
    ledger.warn(
      "canopy-below-box",
      `${pathTo("/luminaires", name)}/canopy/diameter`,
      "The canopy does not hide the box in the ceiling.",
      phrase`at least ${box}, or a smaller box (room.ceilingBox)`,
      phrase`${canopy?.diameter ?? 0}`,
    );
  if (canopy?.height === undefined) return;
  const { height } = canopy;
  const drop = places
    .map(({ scene, placed }) => dropOf(placed, scene.room))
    .find((each) => height > each + ONE_HEIGHT);
  if (drop === undefined) return;
  ledger.warn(
    "canopy-above-drop",
    `${pathTo("/luminaires", name)}/canopy/height`,
    "The canopy is taller than the drop from the ceiling to the luminaire: it reaches into it.",
    phrase`at most ${Math.max(0, drop)}, or a luminaire that hangs lower`,
    phrase`${height}`,
  );
}

function checkOpening(places: Places, ledger: Ledger): void {
  for (const { scene, placed } of places) {
    const near = lightFromOnePoint(placed, scene.island);
    if (near === undefined) continue;
    ledger.warn(
      "opening-missing",
      pathTo("/luminaires", placed.luminaire.name),
      "Its light is calculated as if it left one point, though its body is large for the height it hangs at: less of it may fall under the middle, more under the ends.",
      `"opening" with the "length" and "width", or the "diameter", of the part that gives light`,
      phrase`a body ${near.size} across, ${near.distance} above the top, and no opening`,
    );
    return;
  }
}

function checkOverhangs({ arrangements }: StudyDocument, scenes: readonly Scene[], ledger: Ledger): void {
  scenes.forEach((scene, a) => {
    const found = placedBeyondTop(scene);
    scene.layers.forEach(({ name, luminaires }, l) => {
      const beyond = found.filter(({ layer }) => layer === l).map(({ by }) => by);
      if (beyond.length === 0) return;
      ledger.warn(
        "luminaire-beyond-top",
        `/arrangements/${a}/layers/${l}`,
        `${beyond.length} of ${luminaires.length} pendants of "${name}" hang${beyond.length === 1 ? "s" : ""} beyond the edge of the top, over the floor.`,
        `another place (${arrangements[a].layers[l].row === undefined ? "at" : "row.offset"}), or narrower luminaires`,
        phrase`up to ${Math.max(...beyond)} beyond it`,
      );
    });
  });
}

/** How large a pendant's body is (m), and how far above the top, where its light has no size and that matters. */
function lightFromOnePoint(
  { luminaire, frame: { origin } }: PlacedLuminaire,
  island: Scene["island"],
): { readonly size: number; readonly distance: number } | undefined {
  const top = topUnder(island, [origin[0], origin[1]]);
  if (top === undefined || luminaire.emission.opening.shape !== "point") return undefined;
  const [size, distance] = [Math.max(...planExtents(luminaire)), origin[2] - top];
  const ratio = (size / 2 / distance) ** 2;
  return distance > 0 && ratio / (1 + ratio) > MOST_OF_SIZE ? { size, distance } : undefined;
}

/** The lowest light (m) of pendants whose middle is over a zone. */
function lowestOver(
  { island, zones, layers }: Scene,
  zone: string,
): { readonly at: number; readonly layer: string } | undefined {
  const outline = zones.find(({ name }) => name === zone)?.outline;
  if (island === undefined || outline === undefined) return undefined;
  const over = layers.flatMap((layer) =>
    layer.luminaires.flatMap((placed) => {
      const [x, y, z] = placed.frame.origin;
      return isPendant(layer, placed) && depthInside(roomToIsland(island, [x, y]), outline) > 0
        ? [{ at: z, layer: layer.name }]
        : [];
    }),
  );
  return over.reduce<(typeof over)[number] | undefined>(
    (least, each) => (least === undefined || each.at < least.at ? each : least),
    undefined,
  );
}

const dropOf = ({ luminaire, frame: { origin, rotation } }: PlacedLuminaire, room: Scene["room"]): number =>
  ceilingAt(room, origin[0], origin[1]) - origin[2] - highestPoint(luminaire, rotation);
