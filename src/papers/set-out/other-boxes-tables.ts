/** Places of what is recessed in the ceiling or fixed below it. */

import type { SetOutBox } from "../../app/set-out/set-out.ts";
import { type Block, bullet, SMALL } from "../../drawing/paper/flow.ts";
import { type CellColumn, column, endColumn, table } from "../../drawing/paper/table.ts";
import { filedBody } from "../../luminaire/filed-body.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { verticalExtent } from "../../luminaire/vertical-extent.ts";
import type { HandoverWords } from "../handover.ts";

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

/** The holes to cut and the depth they need above the ceiling, by type: as the study states them, and of the others that only their maker can. */
export function recesses(recessed: readonly SetOutBox[], words: Lengths): Block {
  const types = [...new Map(recessed.map(({ type, luminaire }) => [type, luminaire]))];
  const told = (of: (luminaire: Luminaire, words: Lengths) => string | undefined): string =>
    types.map(([type, luminaire]) => `${type} ${of(luminaire, words) ?? THE_MAKERS}`).join("; ");
  return bullet(`Cut-out in the ceiling: ${told(cutOutWords)}. Depth above it: ${told(depthWords)}.`, SMALL);
}

/** `cut-out 75 mm; depth 110 mm by its stated body` */
export function recessWords(luminaire: Luminaire, words: Lengths): string {
  const [cutOut, depth] = [cutOutWords(luminaire, words), depthWords(luminaire, words)];
  return cutOut === undefined && depth === undefined
    ? `cut-out and depth ${THE_MAKERS}`
    : `cut-out ${cutOut ?? THE_MAKERS}; depth ${depth ?? THE_MAKERS}`;
}

type Lengths = Pick<HandoverWords, "length">;

/** `75 mm`, `600 mm × 300 mm` */
function cutOutWords({ cutOut }: Luminaire, { length }: Lengths): string | undefined {
  return cutOut === undefined
    ? undefined
    : typeof cutOut === "number"
      ? length(cutOut)
      : cutOut.map(length).join(" × ");
}

/** How far the body reaches above its light, which is level with the ceiling; without one, as high as its file has it. */
function depthWords(luminaire: Luminaire, { length }: Lengths): string | undefined {
  const { body } = luminaire;
  if (body !== undefined && body.isUsualHeight !== true)
    return `${length(verticalExtent(luminaire)[1])} by its stated body`;
  const filed = filedBody(luminaire)?.height;
  return filed === undefined ? undefined : `${length(filed)} by its file`;
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
