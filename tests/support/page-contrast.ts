/**
 * Contrast of every word on a page to the ground behind it, (L1 + 0.05) / (L2 + 0.05) of relative luminances (WCAG 2.2, 1.4.3), from the
 * computed colours: grounds of all ancestors laid over each other, through shadow roots. Words in drawings lie on light, which
 * tests/drawing/contrast.test.ts decides; what is disabled asks for none. Known error: a ground that is no
 * ancestor's is not seen.
 */

import type { Page } from "playwright-core";

export interface WordContrast {
  readonly words: string;
  readonly ratio: number;
  /** What is asked: 3 of large words (24 px, or 18.66 px bold), 4.5 of others. */
  readonly asked: number;
}

/** Every word that is shown, the least contrast beside what is asked first. */
export async function wordContrasts(page: Page): Promise<WordContrast[]> {
  const found = await page.evaluate(() => {
    const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
    if (canvas === null) throw new Error("no canvas");
    const known = new Map<string, number[]>();
    const rgba = (colour: string): number[] => {
      const before = known.get(colour);
      if (before !== undefined) return before;
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
      const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
      const found = [r, g, b, a / 255];
      known.set(colour, found);
      return found;
    };
    const over = (top: number[], under: number[]): number[] =>
      [0, 1, 2].map((i) => top[3] * top[i] + (1 - top[3]) * under[i]);
    const luminance = (colour: number[]): number => {
      const [r, g, b] = colour.map((each) => {
        const c = each / 255;
        return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const parentOf = (element: Element): Element | null =>
      element.assignedSlot ?? element.parentElement ?? (element.getRootNode() as ShadowRoot).host ?? null;
    const groundOf = (element: Element, x: number, y: number): number[] => {
      const grounds: number[][] = [];
      for (let at: Element | null = element; at !== null; at = parentOf(at)) {
        const { left, right, top, bottom } = at.getBoundingClientRect();
        // A word may stand beside what it belongs to.
        if (x >= left && x <= right && y >= top && y <= bottom)
          grounds.push(rgba(getComputedStyle(at).backgroundColor));
      }
      // What the root and the body are painted with fills the whole canvas.
      for (const root of [document.body, document.documentElement])
        grounds.push(rgba(getComputedStyle(root).backgroundColor));
      return grounds.reduceRight((under, top) => over(top, under), [255, 255, 255]);
    };
    const list: { words: string; ratio: number; asked: number }[] = [];
    const judge = (element: Element, words: string, box: DOMRect): void => {
      const style = getComputedStyle(element);
      const isSeen =
        box.width > 1 && box.height > 1 && style.visibility === "visible" && style.opacity !== "0";
      if (!isSeen || element.closest("svg, :disabled, .visually-hidden") !== null) return;
      const ground = groundOf(element, box.x + box.width / 2, box.y + box.height / 2);
      const [a, b] = [luminance(over(rgba(style.color), ground)), luminance(ground)];
      const size = Number.parseFloat(style.fontSize);
      const isLarge = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
      list.push({
        words: words.trim().slice(0, 60),
        ratio: (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05),
        asked: isLarge ? 3 : 4.5,
      });
    };
    const walk = (root: Document | ShadowRoot): void => {
      for (const element of root.querySelectorAll("*")) {
        if (element.shadowRoot !== null) walk(element.shadowRoot);
        const isField = element instanceof HTMLInputElement || element instanceof HTMLSelectElement;
        if (isField && element.type !== "range" && element.type !== "checkbox")
          judge(element, element.value, element.getBoundingClientRect());
        for (const node of element.childNodes) {
          if (node.nodeType !== Node.TEXT_NODE || (node.textContent ?? "").trim() === "") continue;
          const range = document.createRange();
          range.selectNodeContents(node);
          judge(element, node.textContent ?? "", range.getBoundingClientRect());
        }
      }
    };
    walk(document);
    return list;
  });
  return found.sort((a, b) => a.ratio / a.asked - b.ratio / b.asked);
}
