/** Heights and places beside an elevation: levels above the floor, and a string along the island. */

import { distinctStations, type SetOutBox, type SetOutUnit } from "../app/set-out/set-out.ts";
import { shortTags } from "../scene/ceiling-boxes.ts";
import { runningDimensions } from "../units/length-text.ts";
import { line, text } from "./drawing.ts";
import { spreadLabels } from "./label-layout.ts";
import type { PaperMark } from "./paper/paper.ts";
import { LETTERING, runningString } from "./running-string.ts";
import type { PlanWords } from "./set-out-plan.ts";
import { ceilingOver, type SideView } from "./side-view.ts";

/** Heights above the finished floor, at the right edge of the view: floor, top, lower edges, bodies, ceiling. */
export function levels(view: SideView, boxes: readonly SetOutBox[], words: PlanWords): PaperMark[] {
  const { scene, perMetre, to } = view;
  const figures = new Map<string, { z: number; names: Set<string> }>();
  const under = new Map<string, string[]>();
  const add = (z: number, name: string): void => {
    const key = words.dimension(z);
    const level = figures.get(key) ?? { z, names: new Set<string>() };
    level.names.add(name);
    figures.set(key, level);
  };
  add(0, "finished floor");
  if (scene.island !== undefined) add(scene.island.height, "finished top");
  for (const box of boxes)
    if (box.heights !== undefined) {
      add(box.heights.bottom, "lower edge");
      if (scene.room.slope === 0) add(box.heights.ceiling, "ceiling");
      else {
        const key = words.dimension(box.heights.ceiling);
        under.set(key, [...(under.get(key) ?? []), box.tag]);
        add(box.heights.ceiling, "ceiling");
      }
    }
  for (const [key, tags] of under)
    figures
      .get(key)
      ?.names.add(`ceiling at ${shortTags(tags)}`)
      .delete("ceiling");
  if (boxes.length === 0) add(ceilingOver(view, to), "ceiling");
  const x = to * perMetre;
  const rows = [...figures.entries()].sort(([, a], [, b]) => a.z - b.z);
  const places = spreadLabels(
    rows.map(([, { z }]) => -z * perMetre),
    LETTERING * 2.35,
    -1e4,
    1e4,
  );
  return rows.flatMap(([words_, { z, names }], i) => {
    const y = -z * perMetre;
    return [
      line(
        [
          [x + 4, y],
          [x + 20, y],
          [x + 28, places[i]],
        ],
        "level",
        "ink",
        0.75,
      ),
      text([x + 30, places[i] - 1.5], [...names].join(", "), "level name", { size: LETTERING, ink: "ink" }),
      text([x + 30, places[i] + LETTERING * 0.95], `+${words_}`, "dimension level", {
        size: LETTERING,
        ink: "ink",
        strong: true,
      }),
    ];
  });
}

/** @param stations places along the view (m) of what is dimensioned */
export function string(
  { scene: { island }, direction, whole, top, perMetre }: SideView,
  unit: SetOutUnit,
  stations: readonly number[],
  words: PlanWords,
): PaperMark[] {
  if (island === undefined || stations.length === 0) return [];
  // Also where the top ends that a section cuts.
  const over = [...stations, ...top.flat()].filter((s) => s > 0.002 && s < whole - 0.002);
  const exact = [0, ...distinctStations(over, unit), whole];
  const { lines, figures } = runningString({
    axis: "x",
    places: exact.map((metres) => metres * perMetre),
    texts: runningDimensions(exact, unit).positions.map(words.dimension),
    offset: 18,
    reach: (i) => (i === 0 || i === exact.length - 1 ? 0 : island.height * perMetre),
    name: direction === "along" ? "from end of top" : "from near edge",
    depicts: `dimension island ${direction}`,
  });
  return [...lines, ...figures];
}
