/**
 * Pendants that cannot hang as they are meant: beyond the top, over a zone that lies higher, from a canopy that reaches into the body, or with the
 * light of a large body taken to leave one point.
 */

import { pathTo } from "../diagnostics/json-path.ts";
import { phrase } from "../diagnostics/phrase.ts";
import type { Ledger } from "../diagnostics/ledger.ts";
import { depthInside } from "../geometry/polygon.ts";
import { highestPoint } from "../luminaire/extent.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { planExtents } from "../luminaire/plan-extent.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { roomToIsland, topUnder } from "../scene/island-frame.ts";
import type { Layer, Scene } from "../scene/scene.ts";
import { LEAST_OVERHANG, topOverhang } from "../scene/top-overhang.ts";
import type { StudyDocument } from "../study/study-schema.ts";

/** Heights that differ by less are one (m). */
const ONE_HEIGHT = 1e-3;
/**
 * Largest share of the light under a pendant that may depend on how large its light is. Straight below a luminous disc of radius a,
 * d away, illuminance is 1/(1 + (a/d)²) of the inverse square law's (CIE, from the view factor of a disc).
 */
const MOST_OF_SIZE = 0.1;

/** Each said once, of the first arrangement in which it is so; what hangs beyond the top of each layer. */
export function checkHangingAsMeant(document: StudyDocument, scenes: readonly Scene[], ledger: Ledger): void {
  document.island?.zones?.forEach(({ name, height }, i) => {
    if (height === undefined) return;
    const path = `/island/zones/${i}/height`;
    for (const scene of scenes) {
      const lower = lowestOver(scene, name);
      if (lower === undefined || lower.at > height - ONE_HEIGHT) continue;
      ledger.warn(
        "zone-above-luminaires",
        path,
        `The zone "${name}" lies above the light of "${lower.layer}", which hangs over it.`,
        phrase`below ${lower.at}`,
        phrase`${height}`,
      );
      return;
    }
  });
  scenes.forEach((scene, a) => {
    for (const layer of scene.layers) checkOverhang(scene.island, layer, a, document, ledger);
  });
  const said = new Set<string>();
  const once = (code: string, name: string): boolean => {
    const isFirst = !said.has(`${code} ${name}`);
    said.add(`${code} ${name}`);
    return isFirst;
  };
  for (const { room, island, layers } of scenes)
    for (const placed of layers.filter(({ role }) => role === "pendant").flatMap((each) => each.luminaires)) {
      const { name, canopy } = placed.luminaire;
      const path = pathTo("/luminaires", name);
      const drop = dropOf(placed, room);
      if (canopy?.height !== undefined && canopy.height > drop + ONE_HEIGHT && once("canopy", name))
        ledger.warn(
          "canopy-above-drop",
          `${path}/canopy/height`,
          "The canopy is taller than the drop from the ceiling to the luminaire: it reaches into it.",
          phrase`at most ${Math.max(0, drop)}, or a luminaire that hangs lower`,
          phrase`${canopy.height}`,
        );
      const near = lightFromOnePoint(placed, island);
      if (near !== undefined && once("point", name))
        ledger.warn(
          "opening-missing",
          path,
          "Its light is calculated as if it left one point, though its body is large for the height it hangs at: less of it may fall under the middle, more under the ends.",
          `"opening" with the "length" and "width", or the "diameter", of the part that gives light`,
          phrase`a body ${near.size} across, ${near.distance} above the top, and no opening`,
        );
    }
}

function checkOverhang(
  island: Scene["island"],
  { name, role, luminaires }: Layer,
  arrangement: number,
  document: StudyDocument,
  ledger: Ledger,
): void {
  if (role !== "pendant") return;
  const beyond = luminaires.map((placed) => topOverhang(island, placed)).filter((by) => by > LEAST_OVERHANG);
  if (beyond.length === 0) return;
  const layers = document.arrangements[arrangement].layers;
  const index = layers.findIndex((layer) => layer.name === name);
  ledger.warn(
    "luminaire-beyond-top",
    `/arrangements/${arrangement}/layers/${index}`,
    `${beyond.length} of ${luminaires.length} pendants of "${name}" hang${beyond.length === 1 ? "s" : ""} beyond the edge of the top, over the floor.`,
    `another place (${layers[index].row === undefined ? "at" : "row.offset"}), or narrower luminaires`,
    phrase`up to ${Math.max(...beyond)} beyond it`,
  );
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
  const over = layers.flatMap(({ name, role, luminaires }) =>
    luminaires.flatMap(({ frame: { origin } }) =>
      role === "pendant" && depthInside(roomToIsland(island, [origin[0], origin[1]]), outline) > 0
        ? [{ at: origin[2], layer: name }]
        : [],
    ),
  );
  return over.reduce<(typeof over)[number] | undefined>(
    (least, each) => (least === undefined || each.at < least.at ? each : least),
    undefined,
  );
}

const dropOf = ({ luminaire, frame: { origin, rotation } }: PlacedLuminaire, room: Scene["room"]): number =>
  ceilingAt(room, origin[0], origin[1]) - origin[2] - highestPoint(luminaire, rotation);
