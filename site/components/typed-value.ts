/**
 * The value of a text field that follows the study, but never under the hand: from the focus on, what stands there stays until it is
 * entered, taken back by Escape, or left. Entered, it follows again until the next key or press, so that the field shows what was made of it.
 *
 * The press that comes into a field selects its text, so that what is typed replaces it; the next one sets the caret. Tab enters before it
 * goes on, so that it finds the page as the entry leaves it: a button to set a default is gone, a field may have come in.
 */

import { noChange } from "lit";
import { Directive, directive, type PartInfo, PartType, type PropertyPart } from "lit/directive.js";

/** Fields with a text that was typed and not yet entered. */
const typedIn = new WeakSet<Element>();

/** Whether a field holds a text that was typed and not yet entered. */
export function isTypedIn(field: Element): boolean {
  return typedIn.has(field);
}

class TypedValue extends Directive {
  #isHeld = false;
  #value = "";
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
    this.#value = value;
    if (!this.#isHeld) this.#show(input);
    return noChange;
  }

  #show(input: HTMLInputElement): void {
    if (input.value !== this.#value) input.value = this.#value;
  }

  #watch(input: HTMLInputElement): void {
    this.#watched = input;
    let isEntered = false;
    const hold = (): void => {
      this.#isHeld = true;
    };
    const release = (): void => {
      this.#isHeld = false;
      typedIn.delete(input);
    };
    // Capturing, so that the field is free again before its own handlers ask for a new drawing.
    const listen = (type: string, act: (event: Event) => void): void =>
      input.addEventListener(type, act, { capture: true });
    listen("focus", hold);
    listen("pointerdown", () => {
      hold();
      if (document.activeElement === input) return;
      const select = (): void => {
        // Not where the press drew a selection of its own.
        if (input.selectionStart === input.selectionEnd) input.select();
      };
      input.addEventListener("click", select, { once: true });
    });
    listen("input", () => {
      isEntered = false;
      hold();
      typedIn.add(input);
    });
    listen("change", (event) => {
      // The browser's own, once the field is left, of what Tab has entered.
      if (isEntered && event.isTrusted) event.stopImmediatePropagation();
      release();
    });
    listen("blur", () => {
      // What was entered is drawn by whoever took it.
      const isBehind = this.#isHeld;
      isEntered = false;
      release();
      if (isBehind) this.#show(input);
    });
    listen("keydown", (event) => {
      const { key } = event as KeyboardEvent;
      if (key === "Escape") release();
      else if (key === "Tab" && typedIn.has(input)) {
        isEntered = true;
        input.dispatchEvent(new Event("change", { bubbles: true }));
      } else if (key !== "Enter") hold();
    });
  }
}

export const typedValue = directive(TypedValue);
