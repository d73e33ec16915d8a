/** Texts of the sheet that lie over one another on screen, over random kitchens put into one sheet one after another. */
import type { CandlespanSheet } from "../../../src/elements/sheet/sheet.ts";
import { randomKitchen } from "../../support/random-kitchens.ts";
import { syntheticAssessment, syntheticStudy } from "../../support/synthetic-island.ts";

export interface TextOverlaps {
  readonly texts: number;
  /** Texts that do not stand level. */
  readonly turned: number;
  readonly overlaps: readonly string[];
}

type Point = readonly [number, number];
interface Text {
  readonly words: string;
  readonly corners: readonly Point[];
  readonly isTurned: boolean;
}

/** Corners on screen of a text's letters: its box is its line's, a few pixels higher than they are. */
function textOf(text: SVGTextElement): Text {
  const { x, y, width, height } = text.getBBox();
  const { a, b, c, d, e, f } = text.getScreenCTM() as DOMMatrix;
  const scale = Math.hypot(a, b);
  const [side, lid] = [1 / scale, Math.min(3 / scale, height / 4)];
  const corners = [
    [x + side, y + lid],
    [x + width - side, y + lid],
    [x + width - side, y + height - lid],
    [x + side, y + height - lid],
  ].map(([u, v]): Point => [a * u + c * v + e, b * u + d * v + f]);
  return { words: text.textContent, corners, isTurned: Math.abs(b) > 1e-6 };
}

/** Whether a line along a side of the first has all of the other beyond it. */
function isBeyondASide(first: readonly Point[], other: readonly Point[]): boolean {
  return first.some(([x, y], i) => {
    const [nextX, nextY] = first[(i + 1) % first.length];
    const side = ([u, v]: Point): number => (nextX - x) * (v - y) - (nextY - y) * (u - x);
    const inside = Math.sign(side(first[(i + 2) % first.length]));
    return other.every((corner) => side(corner) * inside <= 0);
  });
}

const meet = ({ corners: a }: Text, { corners: b }: Text): boolean =>
  !isBeyondASide(a, b) && !isBeyondASide(b, a);

async function textOverlaps(kitchens: number): Promise<TextOverlaps> {
  const sheet = document.querySelector("candlespan-sheet") as CandlespanSheet;
  const tags = ["candlespan-elevation", "candlespan-plan", "candlespan-profile"];
  let [texts, turned] = [0, 0];
  const overlaps: string[] = [];
  for (let seed = 1; seed <= kitchens; seed++) {
    const scene = randomKitchen(seed);
    sheet.study = { ...syntheticStudy(scene), scenes: [scene] };
    sheet.assessment = syntheticAssessment(scene);
    await sheet.updateComplete;
    const drawings = tags.map((tag) => sheet.shadowRoot?.querySelector<CandlespanSheet>(tag));
    for (const drawing of drawings) await drawing?.updateComplete;
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    drawings.forEach((drawing, i) => {
      const all = [...(drawing?.shadowRoot?.querySelectorAll("text") ?? [])].map(textOf);
      texts += all.length;
      turned += all.filter(({ isTurned }) => isTurned).length;
      const found = all.flatMap((a, k) => all.slice(k + 1).flatMap((b) => (meet(a, b) ? [[a, b]] : [])));
      overlaps.push(...found.map(([a, b]) => `kitchen ${seed}, ${tags[i]}: ${a.words} | ${b.words}`));
    });
  }
  return { texts, turned, overlaps };
}

Object.assign(globalThis, { textOverlaps });
