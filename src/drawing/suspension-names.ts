/** The number of each point a long pendant hangs on, `P1.1`, beside its dot on the set-out plan, as the table of suspensions has it. */

import type { SetOutBox } from "../app/set-out/set-out.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Box, Mark } from "./drawing.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";
import { type BoxPage, pendantSymbol } from "./set-out-plan-boxes.ts";
import { placedWords } from "./set-out-plan-room.ts";

/** What a dot takes around its place, and how far off its number may stand (points). */
const DOT = 2;
const STEPS = [3, 7, 12, 18];

/** Where it can stand clear of other words; the plan of a large room leaves some to the detail of its island. */
export function suspensionNames(page: BoxPage, boxes: readonly SetOutBox[]): Mark[] {
  const hung = boxes.flatMap(({ tag, suspensions }) =>
    (suspensions?.points ?? []).map((point, i) => ({ words: `${tag}.${i + 1}`, at: page.at(point) })),
  );
  // A body is long and thin: its words may stand beside it, within what its symbol keeps free of others'.
  const symbols = boxes.map(({ at }) => squareAround(page.at(at), pendantSymbol(page)));
  const avoided = [...symbols, ...hung.map(({ at }) => squareAround(at, DOT))];
  const written = page.taken.slice(page.symbols);
  return hung.flatMap(({ words, at: [x, y] }): Mark[] => {
    const half = paperTextWidth(words, LETTERING) / 2;
    const places = STEPS.flatMap((off): readonly Vec2[] => [
      [x, y + off + LETTERING],
      [x, y - off - 1],
      [x + off + half, y + off + LETTERING],
      [x - off - half, y + off + LETTERING],
      [x + off + half, y - off - 1],
      [x - off - half, y - off - 1],
    ]);
    const taken = [...written, ...avoided];
    // Words as near to another dot would be read as that one's.
    const others = hung.filter(({ at }) => at[0] !== x || at[1] !== y).map(({ at }) => at);
    const reach = ([px, py]: Vec2, [dx, dy]: Vec2): number =>
      Math.hypot(
        Math.max(0, Math.abs(dx - px) - half),
        Math.max(0, py - 0.8 * LETTERING - dy, dy - py - 0.2 * LETTERING),
      );
    const plain = places.filter((place) =>
      others.every((other) => reach(place, [x, y]) + DOT < reach(place, other)),
    );
    const marks = placedWords({ taken, field: page.field }, words, "suspension point", plain, { ink: "ink" });
    const own = taken.slice(written.length + avoided.length);
    written.push(...own);
    page.taken.push(...own);
    return marks;
  });
}

function squareAround([x, y]: Vec2, half: number): Box {
  return { x: x - half, y: y - half, width: 2 * half, height: 2 * half };
}
