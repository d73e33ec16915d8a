/** Puts an element at a place of its stage. By script, property by property: a style written as an attribute, as a
 * template would, is refused by pages that allow no inline styles. */

import { nothing } from "lit";
import { Directive, directive, type ElementPart } from "lit/directive.js";

class PlacedAt extends Directive {
  override render(_left: string, _top: string): typeof nothing {
    return nothing;
  }

  override update(part: ElementPart, [left, top]: [string, string]): typeof nothing {
    const { style } = part.element as HTMLElement;
    style.left = left;
    style.top = top;
    return nothing;
  }
}

/** `<span ${placedAt("12px", "50%")}>` */
export const placedAt = directive(PlacedAt);
