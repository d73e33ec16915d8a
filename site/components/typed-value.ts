/**
 * The value of a text field that follows the study, but never under the hand: what is being typed stays until it
 * is committed, taken back by Escape, or left.
 */

import { noChange } from "lit";
import { Directive, directive, type PartInfo, PartType, type PropertyPart } from "lit/directive.js";

class TypedValue extends Directive {
  #isTyping = false;
  #watched: Element | undefined;

  constructor(part: PartInfo) {
    super(part);
    if (part.type !== PartType.PROPERTY) throw new Error("typedValue is for the value property.");
  }

  render(value: string): string {
    return value;
  }

  override update(part: PropertyPart, [value]: [string]): unknown {
    const input = part.element as HTMLInputElement;
    if (this.#watched !== input) this.#watch(input);
    if (!this.#isTyping && input.value !== value) input.value = value;
    return noChange;
  }

  #watch(input: HTMLInputElement): void {
    this.#watched = input;
    input.addEventListener("input", () => {
      this.#isTyping = true;
    });
    const done = (): void => {
      this.#isTyping = false;
    };
    // Capturing, so that the field is free again before its own handlers ask for a new drawing.
    input.addEventListener("change", done, { capture: true });
    input.addEventListener("blur", done, { capture: true });
    input.addEventListener(
      "keydown",
      (event) => {
        if (event.key === "Escape") done();
      },
      { capture: true },
    );
  }
}

export const typedValue = directive(TypedValue);
