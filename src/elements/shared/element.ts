import { LitElement } from "lit";
import { property } from "lit/decorators.js";

/** What every element has. */
export abstract class CandlespanElement extends LitElement {
  /** `day` or `evening`; follows the page's color-scheme when absent. */
  @property({ reflect: true }) mode?: "day" | "evening";
}
