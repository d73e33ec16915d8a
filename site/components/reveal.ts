/** Brings what has just been made into view; given to `ref`, which calls it once an element. */
export function reveal(element: Element | undefined): void {
  if (element === undefined) return;
  requestAnimationFrame(() => element.scrollIntoView({ block: "nearest" }));
}
