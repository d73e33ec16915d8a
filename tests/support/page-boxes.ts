/**
 * What of a page's controls and words cannot be had: cut by what holds them, under something else, over one another, reached by
 * scrolling sideways alone, or too small for a finger (24 px, or so far from all others: WCAG 2.2, 2.5.8). Boxes as the browser lays them
 * out, through shadow roots; what is drawn in SVG is judged by tests/browser/elements/text-overlaps.ts.
 */

import type { Page } from "playwright-core";

/** Every fault in words, each once. Scrolls what is looked at into view, and everything back. */
export async function boxFaults(page: Page, within = "body"): Promise<string[]> {
  return page.evaluate((selector) => {
    const CONTROLS =
      "button, input, select, textarea, summary, a[href], label.button, [role=button], [role=slider], [tabindex='0']";
    const TARGET = 24;
    /** Letters from which what is typed is a name or a sentence. */
    const SENTENCE = 16;
    /** And of what is chosen in a list, which shows it whole. */
    const CHOICE = 36;
    const found = new Set<string>();
    const parentOf = (node: Element): Element | null =>
      node.assignedSlot ?? node.parentElement ?? (node.getRootNode() as ShadowRoot).host ?? null;
    const ancestors = (element: Element): Element[] => {
      const all: Element[] = [];
      for (let at = parentOf(element); at !== null; at = parentOf(at)) all.push(at);
      return all;
    };
    /** What lies over the page by itself, cut by nothing around it, or stays in sight while the rest is scrolled under it. */
    const layerOf = (element: Element): Element | undefined =>
      [element, ...ancestors(element)].find(
        (each) =>
          each.matches("dialog, :popover-open, .refusal") || getComputedStyle(each).position === "sticky",
      );
    const isInside = (inner: Element, outer: Element): boolean =>
      inner === outer || ancestors(inner).includes(outer);
    const nameOf = (element: Element): string => {
      const labels = (element as HTMLInputElement).labels;
      const words =
        element.getAttribute("aria-label") ??
        (labels?.length ? labels[0].textContent : element.textContent) ??
        "";
      const said = words.trim().replaceAll(/\s+/g, " ").slice(0, 50);
      return `${element.tagName.toLowerCase()}${element.id === "" ? "" : `#${element.id}`} "${said}"`;
    };
    const isSeen = (element: Element): boolean =>
      element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
      element.closest(".visually-hidden, svg, .skip") === null &&
      element.getBoundingClientRect().width > 0;

    // A modal dialog or a popover is all there is to be reached.
    const opened = (within: ParentNode): Element[] => [
      ...within.querySelectorAll("dialog[open], :popover-open"),
      ...[...within.querySelectorAll("*")].flatMap(({ shadowRoot }) =>
        shadowRoot === null ? [] : opened(shadowRoot),
      ),
    ];
    const root = opened(document).at(-1) ?? document.querySelector(selector);
    if (root === null) return [];
    const controls: Element[] = [];
    const texts: Text[] = [];
    const walk = (node: Node): void => {
      if (node instanceof Text) {
        const { parentElement } = node;
        if (parentElement !== null && node.data.trim() !== "" && isSeen(parentElement)) texts.push(node);
        return;
      }
      if (node instanceof HTMLSlotElement && node.assignedNodes().length > 0) {
        node.assignedNodes().forEach(walk);
        return;
      }
      if (node instanceof Element) {
        if (["SVG", "STYLE", "SCRIPT", "OPTION"].includes(node.tagName.toUpperCase())) return;
        if (node.matches(CONTROLS) && isSeen(node) && !node.matches(".visually-hidden")) controls.push(node);
      }
      const inner = node instanceof Element ? node.shadowRoot : null;
      (inner ?? node).childNodes.forEach(walk);
    };
    walk(root);

    interface Clip {
      readonly element: Element;
      readonly scrollsX: boolean;
      readonly scrollsY: boolean;
    }
    const clipsOf = (element: Element, words = false): Clip[] => {
      const layer = layerOf(element);
      return [...(words ? [element] : []), ...ancestors(element)]
        .filter((each) => each !== document.body && each !== document.documentElement)
        .filter(
          (each) => !(layer?.matches("dialog, :popover-open") ?? false) || isInside(each, layer as Element),
        )
        .flatMap((each) => {
          const { overflowX, overflowY } = getComputedStyle(each);
          const scrolls = (value: string): boolean => value === "auto" || value === "scroll";
          return overflowX === "visible" && overflowY === "visible"
            ? []
            : [{ element: each, scrollsX: scrolls(overflowX), scrollsY: scrolls(overflowY) }];
        });
    };
    const horizontally = (element: Element, box: DOMRect, name: string): unknown => {
      for (const { element: by, scrollsX } of clipsOf(element)) {
        const edge = by.getBoundingClientRect();
        const [left, right] = [edge.left + by.clientLeft, edge.left + by.clientLeft + by.clientWidth];
        if (by.clientWidth === 0) continue;
        // What is cut with an ellipsis is said whole by its title.
        if (by.getAttribute("title")?.trim() && getComputedStyle(by).textOverflow === "ellipsis")
          return undefined;
        // A table of data may be moved sideways in a frame of its own that the keyboard reaches.
        if (scrollsX && by.matches("[tabindex='0']") && by.querySelector("table") !== null) return undefined;
        if (box.right > right + 1 || box.left < left - 1)
          return found.add(
            `${scrollsX ? "sideways" : "cut"}: ${name} by ${by.tagName.toLowerCase()}.${by.getAttribute("class") ?? ""}`,
          );
      }
      return box.right > innerWidth + 1 || box.left < -1
        ? found.add(`outside the window: ${name}`)
        : undefined;
    };

    const range = document.createRange();
    const widthOf = (words: string, like: Element): number => {
      const ruler = new OffscreenCanvas(1, 1).getContext("2d");
      if (ruler === null) return 0;
      const { font } = getComputedStyle(like);
      ruler.font = font;
      return ruler.measureText(words).width;
    };

    for (const control of controls) {
      const name = nameOf(control);
      const box = control.getBoundingClientRect();
      horizontally(control, box, name);
      const style = getComputedStyle(control);
      const inner =
        control.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
      if (control instanceof HTMLSelectElement) {
        // The arrow takes what a square of the letters' height does.
        const words = control.selectedOptions[0]?.text ?? "";
        const room = inner - (style.appearance === "none" ? 0 : 16);
        if (words.length <= CHOICE && widthOf(words, control) > room + 1)
          found.add(
            `shortened: ${name} showing "${words.slice(0, 40)}", ${Math.round(widthOf(words, control) - room)} px`,
          );
      } else if (control instanceof HTMLInputElement) {
        // A sentence is moved in its field, a figure is not.
        const isFigure = control.type === "text" && control.value.length <= SENTENCE && !control.readOnly;
        if (isFigure && control.scrollWidth > control.clientWidth + 1)
          found.add(`shortened: ${name} showing "${control.value.slice(0, 40)}"`);
      } else if (
        control.scrollWidth > control.clientWidth + 1 &&
        !/visible|auto|scroll/.test(style.overflowX)
      )
        found.add(`shortened: ${name}`);
    }

    // Targets: of a small one, the circle of 24 px about its middle stays clear of all others.
    const targetOf = (control: Element): DOMRect => {
      const box = control.getBoundingClientRect();
      const label = (control as HTMLInputElement).labels?.[0];
      const isTick = control instanceof HTMLInputElement && /checkbox|radio/.test(control.type);
      if (!isTick || label === undefined) return box;
      const other = label.getBoundingClientRect();
      const [left, top] = [Math.min(box.left, other.left), Math.min(box.top, other.top)];
      return new DOMRect(
        left,
        top,
        Math.max(box.right, other.right) - left,
        Math.max(box.bottom, other.bottom) - top,
      );
    };
    const targets = controls.map((control) => ({ control, box: targetOf(control) }));
    const isSmall = ({ width, height }: DOMRect): boolean => Math.min(width, height) < TARGET - 0.5;
    const middle = (box: DOMRect) => [box.left + box.width / 2, box.top + box.height / 2];
    const scrollerOf = (element: Element): Element | undefined =>
      clipsOf(element).find(({ scrollsX, scrollsY }) => scrollsX || scrollsY)?.element;
    for (const { control, box } of targets) {
      if (!isSmall(box)) continue;
      const [x, y] = middle(box);
      for (const other of targets) {
        if (other.control === control || isInside(other.control, control) || isInside(control, other.control))
          continue;
        if (scrollerOf(other.control) !== scrollerOf(control)) continue;
        if (layerOf(other.control) !== layerOf(control)) continue;
        const [dx, dy] = [
          Math.max(other.box.left - x, 0, x - other.box.right),
          Math.max(other.box.top - y, 0, y - other.box.bottom),
        ];
        const [otherX, otherY] = middle(other.box);
        const isNear = isSmall(other.box)
          ? Math.hypot(otherX - x, otherY - y) < TARGET
          : Math.hypot(dx, dy) < TARGET / 2;
        if (isNear)
          found.add(
            `small: ${nameOf(control)} ${Math.round(box.width)} × ${Math.round(box.height)} beside ${nameOf(other.control)}`,
          );
      }
    }

    // Words over words, and words cut at a side.
    const lines = texts.flatMap((text) => {
      const element = text.parentElement as Element;
      range.selectNodeContents(text);
      const scroller = scrollerOf(element);
      const layer = layerOf(element);
      const clips = clipsOf(element, true).filter(({ element: by }) => by !== scroller);
      return [...range.getClientRects()].flatMap((rect) => {
        let [left, right, up, down] = [rect.left, rect.right, rect.top, rect.bottom];
        for (const { element: by } of clips) {
          const edge = by.getBoundingClientRect();
          [left, right] = [Math.max(left, edge.left), Math.min(right, edge.right)];
          [up, down] = [Math.max(up, edge.top), Math.min(down, edge.bottom)];
        }
        return right - left > 1 && down - up > 1
          ? [{ text, element, scroller, layer, left, right, up, down }]
          : [];
      });
    });
    lines.sort((a, b) => a.up - b.up);
    lines.forEach((a, i) => {
      for (let j = i + 1; j < lines.length && lines[j].up < a.down; j++) {
        const b = lines[j];
        if (a.text === b.text || a.scroller !== b.scroller || a.layer !== b.layer) continue;
        const over = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const under = Math.min(a.down, b.down) - Math.max(a.up, b.up);
        // Lines of one paragraph touch by their leading.
        if (over > 2 && under > 5)
          found.add(
            `words over words: "${a.text.data.trim().slice(0, 40)}" and "${b.text.data.trim().slice(0, 40)}"`,
          );
      }
    });
    for (const text of texts) {
      const element = text.parentElement as Element;
      // Of a control's words its box is judged.
      if (element.closest(CONTROLS) !== null) continue;
      range.selectNodeContents(text);
      horizontally(element, range.getBoundingClientRect(), `words "${text.data.trim().slice(0, 40)}"`);
      const { overflowX } = getComputedStyle(element);
      if (
        overflowX !== "visible" &&
        element.scrollWidth > element.clientWidth + 1 &&
        !element.matches(CONTROLS) &&
        overflowX !== "auto"
      )
        found.add(`shortened: words "${text.data.trim().slice(0, 40)}"`);
    }

    // What a finger would touch.
    const scrollers = [...document.querySelectorAll("*")].filter(({ scrollTop }) => scrollTop > 0);
    const places = scrollers.map((each) => [each, each.scrollTop, each.scrollLeft] as const);
    for (const control of controls) {
      if (control instanceof HTMLInputElement && control.type === "file") continue;
      if (control.matches(":disabled")) continue;
      control.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
      const { left, right, top: up, bottom } = control.getBoundingClientRect();
      const points = [
        [(left + right) / 2, (up + bottom) / 2],
        [left + 3, (up + bottom) / 2],
        [right - 3, (up + bottom) / 2],
      ];
      for (const [x, y] of points) {
        if (x < 0 || y < 0 || x > innerWidth || y > innerHeight) continue;
        let hit = document.elementFromPoint(x, y);
        while (hit?.shadowRoot) {
          const inner = hit.shadowRoot.elementFromPoint(x, y);
          if (inner === null || inner === hit) break;
          hit = inner;
        }
        if (hit === null) continue;
        const label = (control as HTMLInputElement).labels?.[0];
        const isOwn = isInside(hit, control) || isInside(control, hit) || (label && isInside(hit, label));
        if (!isOwn)
          found.add(
            `covered: ${nameOf(control)} by ${hit.tagName.toLowerCase()}.${hit.getAttribute("class") ?? ""} "${(hit.textContent ?? "").trim().slice(0, 30)}"`,
          );
      }
    }
    for (const each of document.querySelectorAll("*")) if (each.scrollTop > 0) each.scrollTop = 0;
    for (const [each, down, along] of places) {
      each.scrollTop = down;
      each.scrollLeft = along;
    }
    return [...found];
  }, within);
}
