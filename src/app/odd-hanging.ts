/** Pendants that cannot hang as they are meant: over a zone that lies higher, or from a canopy that reaches into the body. */

import { pathTo } from "../diagnostics/json-path.ts";
import { phrase } from "../diagnostics/phrase.ts";
import type { Ledger } from "../diagnostics/resolve-log.ts";
import { depthInside } from "../geometry/polygon.ts";
import { highestPoint } from "../luminaire/extent.ts";
import type { PlacedLuminaire } from "../luminaire/placed-luminaire.ts";
import { ceilingAt } from "../scene/ceiling-height.ts";
import { roomToIsland } from "../scene/island-frame.ts";
import type { Scene } from "../scene/scene.ts";
import type { StudyDocument } from "../study/study-schema.ts";

/** Heights that differ by less are one (m). */
const ONE_HEIGHT = 1e-3;

/** Each said once, of the first arrangement in which it is so. */
export function checkHanging(document: StudyDocument, scenes: readonly Scene[], ledger: Ledger): void {
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
  const said = new Set<string>();
  for (const { room, layers } of scenes)
    for (const placed of layers.filter(({ role }) => role === "pendant").flatMap((each) => each.luminaires)) {
      const { name, canopy } = placed.luminaire;
      const drop = dropOf(placed, room);
      if (canopy?.height === undefined || canopy.height <= drop + ONE_HEIGHT || said.has(name)) continue;
      said.add(name);
      ledger.warn(
        "canopy-above-drop",
        `${pathTo("/luminaires", name)}/canopy/height`,
        "The canopy is taller than the drop from the ceiling to the luminaire: it reaches into it.",
        phrase`at most ${Math.max(0, drop)}, or a luminaire that hangs lower`,
        phrase`${canopy.height}`,
      );
    }
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
