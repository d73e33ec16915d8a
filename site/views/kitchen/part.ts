import { html, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";

/** A headed part of the controls. */
export function part(id: string, heading: string, content: unknown): TemplateResult {
  return html`<section class="part" aria-labelledby="${id}-heading">
    <h2 id="${id}-heading">${heading}</h2>
    ${content}
  </section>`;
}

/** Items added last, by the id of their fold, which is opened once. */
const added = new Set<string>();

/** Opens the fold of an item that the next edit adds. */
export function openAdded(id: string): void {
  added.add(id);
}

/** One of a list, folded under its name. */
export function item(
  list: string,
  index: number,
  summary: unknown,
  content: unknown,
  open = false,
): TemplateResult {
  const id = `${list}-${index}`;
  return html`<details class="item" name=${list} id=${id} ?open=${open} ${ref((element) => {
    if (element === undefined || !added.delete(id)) return;
    // In the page: an open fold that comes into it closes where another of its name is open.
    requestAnimationFrame(() => {
      (element as HTMLDetailsElement).open = true;
      element.querySelector("input")?.select();
    });
  })}>
    <summary>${summary}</summary>
    ${content}
  </details>`;
}
