import { css, html, nothing, type TemplateResult } from "lit";
import { property } from "lit/decorators.js";
import type { GuidelineCard } from "../../advice/guidelines/guideline-card.ts";
import { ruleFigure } from "../../words/rule-figure.ts";
import { type Display, METRIC, type Wording, wording } from "../../words/wording.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { findingsContext, StudyProperties } from "../shared/study-context.ts";
import { tokens } from "../shared/tokens.ts";

const MARKS: Readonly<Record<GuidelineCard["outcome"], string>> = {
  within: "✓",
  below: "↓",
  above: "↑",
  "does not apply": "–",
};

/**
 * Rules of thumb held against an arrangement, with what each would ask for and the light that would give.
 *
 * @tag candlespan-guideline-cards
 * @csspart card - each rule
 * @csspart group - the rules that are kept, and those that do not apply, each folded
 */
export class CandlespanGuidelineCards extends CandlespanElement {
  static override styles = [
    tokens,
    css`
      summary { cursor: pointer; padding: 8px 0; border-top: 1px solid var(--_hairline); }
      ul { list-style: none; margin: 0; padding: 0; }
      li { border-top: 1px solid var(--_hairline); padding: 12px 0; }
      .head { display: grid; grid-template-columns: 1fr auto; gap: 0 12px; align-items: baseline; }
      .rule { font-weight: 600; }
      p { margin: 4px 0 0; font-size: 13px; }
      .quiet { color: var(--_quiet); }
      .within { color: var(--_meets); }
      .below, .above { color: var(--_close); }
      .outcome { white-space: nowrap; font-size: 13px; }
    `,
  ];

  @property({ attribute: false }) cards: readonly GuidelineCard[] = [];
  @property({ attribute: false }) display: Display = METRIC;

  constructor() {
    super();
    this.addController(new StudyProperties(this, findingsContext, ["cards", "display"]));
  }

  override render(): TemplateResult {
    const words = wording(this.display);
    if (this.cards.length === 0)
      return html`<p class="quiet">No rule of thumb applies to this arrangement.</p>`;
    const of = (...outcomes: GuidelineCard["outcome"][]): readonly GuidelineCard[] =>
      this.cards.filter(({ outcome }) => outcomes.includes(outcome));
    const list = (cards: readonly GuidelineCard[]): TemplateResult =>
      html`<ul>${cards.map((card) => this.#card(card, words))}</ul>`;
    const folded = (cards: readonly GuidelineCard[], summary: string): TemplateResult | typeof nothing =>
      cards.length === 0
        ? nothing
        : html`<details part="group"><summary>${summary}</summary>${list(cards)}</details>`;
    const differing = of("below", "above");
    const within = of("within");
    const aside = of("does not apply");
    return html`
      ${differing.length === 0 ? html`<p>No rule is broken.</p>` : list(differing)}
      ${folded(within, `${within.length} kept`)}
      ${folded(aside, `${aside.length} that do not apply`)}
    `;
  }

  #card(card: GuidelineCard, words: Wording): TemplateResult {
    const { found } = card.measure;
    const against = card.contradicts
      .map((id) => this.cards.find((other) => other.id === id)?.rule)
      .filter((rule) => rule !== undefined);
    return html`<li part="card">
      <div class="head">
        <span class="rule">${card.rule}</span>
        <span class="outcome ${card.outcome}"><span aria-hidden="true">${MARKS[card.outcome]}</span> ${card.outcome}</span>
      </div>
      <p>${found === undefined ? nothing : html`Here${card.measure.of === undefined ? " " : html`: ${card.measure.of}, `}${ruleFigure(found, card, words.lengthUnit)}; the rule allows ${rangeWords(card, words)}. `}${card.asks}</p>
      ${
        card.light === undefined
          ? nothing
          : html`<p>Followed, the top would have ${words.light(card.light.average)} on average, evenness ${card.light.uniformity.toFixed(2)}.</p>`
      }
      ${against.length === 0 ? nothing : html`<p>Cannot be followed together with: ${against.map((rule) => rule.replace(/\.$/, "")).join("; ")}.</p>`}
      <p class="quiet">${card.source === card.known ? card.known : `${card.source} (${card.known})`}</p>
    </li>`;
  }
}

function rangeWords(card: GuidelineCard, { lengthUnit }: Wording): string {
  const { low, high } = card.measure;
  const [least, most] = [low, high].map((end) =>
    end === undefined ? undefined : ruleFigure(end, card, lengthUnit),
  );
  if (least !== undefined && most !== undefined) return low === high ? least : `${least} to ${most}`;
  if (least !== undefined) return `at least ${least}`;
  return most === undefined ? "any" : `at most ${most}`;
}

define("candlespan-guideline-cards", CandlespanGuidelineCards);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-guideline-cards": CandlespanGuidelineCards;
  }
}
