/** Registers an element once: a second copy of the library on a page must not throw, and a server that renders
 * without a registry must not either. */
export function define(tag: string, element: CustomElementConstructor): void {
  if (typeof customElements === "undefined" || customElements.get(tag) !== undefined) return;
  customElements.define(tag, element);
}
