/** The id of the field of a path, and how it is found on the page. */

import { formatPointer } from "../../src/app.ts";
import type { Path } from "../store/pointer.ts";

/** Unique by what the field edits. */
export function idOf(path: Path): string {
  return `field${formatPointer(path).replace(/[^a-zA-Z0-9]+/g, "-")}`;
}

/** Where rows of an option are searched for: no value of the study, found as its fields are. */
export function searchPath(arrangement: number): Path {
  return ["arrangements", arrangement, "search"];
}

/** The view where a path is edited. */
export function viewOf(path: Path): "lights" | "kitchen" {
  return path[0] === "arrangements" || path[0] === "luminaires" ? "lights" : "kitchen";
}

/** Brings the field of a path, or the first within it, into view and gives it the focus. */
export function focusField(root: ParentNode, path: Path): boolean {
  for (let depth = path.length; depth > 1; depth--) {
    const id = idOf(path.slice(0, depth));
    const field = root.querySelector<HTMLElement>(`#${id}, [id^="${id}-"]:is(input, select)`);
    if (field === null) continue;
    for (
      let fold = field.closest("details");
      fold !== null;
      fold = fold.parentElement?.closest("details") ?? null
    )
      fold.open = true;
    field.focus();
    if (field instanceof HTMLInputElement) field.select();
    field.scrollIntoView({ block: "center" });
    uncut(root);
    return true;
  }
  return false;
}

/** Nothing is cut through by the line that stays at the head of the fields: what it would cut is scrolled to under it. */
function uncut(root: ParentNode): void {
  const line = root.querySelector(".hold-return");
  const pane = line?.parentElement ?? null;
  if (line === null || pane === null) return;
  const edge = line.getBoundingClientRect().bottom;
  const parts = [...pane.querySelectorAll("label, input, select, button, p, h2, h3, summary")].filter(
    (each) => !line.contains(each),
  );
  // What stands beside the first that was cut may be cut in its turn.
  for (let turn = 0; turn < 8; turn++) {
    const tops = parts.flatMap((each) => {
      const { top, bottom } = each.getBoundingClientRect();
      return top < edge - 1 && bottom > edge + 1 ? [top] : [];
    });
    if (tops.length === 0) return;
    pane.scrollBy(0, Math.min(...tops) - edge);
  }
}
