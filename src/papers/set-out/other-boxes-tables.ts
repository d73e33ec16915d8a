/** Places of what is recessed in the ceiling or fixed below it. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, endColumn, table } from "../../drawing/paper/table.ts";
import type { PlacedLuminaire } from "../../luminaire/placed-luminaire.ts";
import type { Scene } from "../../scene/scene.ts";
import { statedDepth } from "../../scene/stated-depth.ts";
import type { HandoverWords } from "../handover.ts";
import { weightText } from "./hanging.ts";

export function fixedTable(fixed: readonly SetOutBox[], words: HandoverWords): Block {
  return table(
    fixed,
    placeColumns("mark", "light above floor", ({ height = 0 }) => height, words),
    {
      size: SMALL,
      depicts: "fixed row",
    },
  );
}

export function recessedTable(recessed: readonly SetOutBox[], words: HandoverWords): Block {
  const columns = placeColumns("box", "ceiling", ({ ceiling }) => ceiling, words);
  const style = { size: SMALL, depicts: "recessed row" } as const;
  // Two lots abreast: recessed grids are long lists of short rows.
  const count = Math.ceil(recessed.length / 2);
  if (count < 3) return table(recessed, columns, style);
  const second = columns.map(({ cell, ...column }) => ({
    ...column,
    cell: (_: SetOutBox, i: number) => (count + i < recessed.length ? cell(recessed[count + i], i) : ""),
  }));
  const between = column("", 0.35, () => "");
  return table(recessed.slice(0, count), [...columns, between, ...second], style);
}

const THE_MAKERS = "not stated, the maker's";

/** The holes to cut, the depth they need above the ceiling and have there, and what they carry, by type: as the study states them, and of the others that only their maker can. */
export function recesses(recessed: readonly SetOutBox[], scene: Scene, words: HandoverWords): Block {
  const types = [
    ...new Map(recessed.map(({ type, layer, index }) => [type, scene.layers[layer].luminaires[index]])),
  ];
  const told = (of: (placed: PlacedLuminaire) => string | undefined): string =>
    types.map(([type, placed]) => `${type} ${of(placed) ?? THE_MAKERS}`).join("; ");
  const clear = scene.room.ceilingVoid;
  const isDeep = types.some(([, placed]) => depthWords(scene, placed, words) !== undefined);
  const isWeighed = types.some(([, { luminaire }]) => luminaire.weight !== undefined);
  // What no type states is on HOLD, once.
  const more = [
    ...(clear === undefined && !isDeep
      ? []
      : [`Clear height above the ceiling: ${clear === undefined ? "not stated" : words.length(clear)}.`]),
    ...(isWeighed
      ? [
          `Weight: ${types.map(([type, { luminaire }]) => `${type} ${weightText(luminaire, words.unit)}`).join("; ")}.`,
        ]
      : []),
  ];
  const depths = told((placed) => depthWords(scene, placed, words));
  return bullet(
    `Cut-out in the ceiling: ${told((placed) => cutOutWords(placed, words))}. Depth above it: ${[`${depths}.`, ...more].join(" ")}`,
    SMALL,
  );
}

/** `cut-out 75 mm; depth 110 mm by its stated body` */
export function recessWords(scene: Scene, placed: PlacedLuminaire, words: Lengths): string {
  const [cutOut, depth] = [cutOutWords(placed, words), depthWords(scene, placed, words)];
  return cutOut === undefined && depth === undefined
    ? `cut-out and depth ${THE_MAKERS}`
    : `cut-out ${cutOut ?? THE_MAKERS}; depth ${depth ?? THE_MAKERS}`;
}

type Lengths = Pick<HandoverWords, "length">;

/** `75 mm`, `600 mm × 300 mm` */
function cutOutWords({ luminaire: { cutOut } }: PlacedLuminaire, { length }: Lengths): string | undefined {
  return cutOut === undefined
    ? undefined
    : typeof cutOut === "number"
      ? length(cutOut)
      : cutOut.map(length).join(" × ");
}

function depthWords(scene: Scene, placed: PlacedLuminaire, { length }: Lengths): string | undefined {
  const depth = statedDepth(scene, placed);
  if (depth === undefined) return undefined;
  return `${length(depth)} by its ${placed.luminaire.body === undefined ? "file" : "stated body"}`;
}

function placeColumns(
  mark: string,
  level: string,
  levelOf: (box: SetOutBox) => number,
  words: HandoverWords,
): readonly CellColumn<SetOutBox>[] {
  return [
    column(mark, 0.7, ({ tag }) => tag),
    column("type", 0.7, ({ type }) => type),
    endColumn("x", 1.2, ({ x }) => words.dimension(x)),
    endColumn("y", 1.2, ({ y }) => words.dimension(y)),
    endColumn(level, mark === "mark" ? 1.4 : 1.2, (box) => words.dimension(levelOf(box))),
  ];
}
