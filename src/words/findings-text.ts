/** What there is to say beside the verdict, as text: in a few lines, or in full. */

import { isCostStated } from "../advice/cost.ts";
import type { Findings } from "../advice/findings.ts";
import { cardSummary } from "../advice/guidelines/cards.ts";
import type { GuidelineCard } from "../advice/guidelines/guideline-card.ts";
import { printable } from "../diagnostics/printable.ts";
import { listed } from "../diagnostics/sentence.ts";
import { costGapWords } from "./cost-words.ts";
import { findingsSections, heightsWords } from "./findings-sections.ts";
import { sharedConcerns } from "./person-words.ts";
import { ruleFigure } from "./rule-figure.ts";
import { table, textLines } from "./table.ts";
import type { Wording } from "./wording.ts";
import { evennessText } from "./zone-text.ts";

/** Long names of studies stay readable. */
const LONGEST = 500;

/** At most a line each on eyes and heads, rules, and what needs looking after. */
export function findingsBrief({ people, cards, load, cost, row }: Findings, words: Wording): string[] {
  const lines: string[] = [];
  const say = (words: string) => lines.push(...textLines(printable(words, LONGEST), 2));
  const concerns = sharedConcerns(people, words);
  for (const { people: names, words } of concerns) say(`For ${listed(names)}: ${words}.`);
  if (concerns.length === 0 && people.length > 0)
    say(
      `For ${listed(people.map(({ person }) => person))}: head clear, faces in view, nothing bright near the line of sight.`,
    );
  const { apply, agree } = cardSummary(cards);
  const heights = row === undefined ? "" : `${heightsWords(row, words)} `;
  if (apply > 0) say(`${heights}Rules of thumb: ${agree} of ${apply} agree.`);
  for (const remark of load.remarks) say(remark);
  const missing = costGapWords(cost);
  if (isCostStated(cost) && missing !== undefined) say(`Cost: ${missing}`);
  return lines;
}

/** What the rules of thumb quarrel about among themselves, over all arrangements; undefined when they do not. */
export function quarrelsWords(all: readonly Findings[], full = false): string | undefined {
  const subjects = [...new Set(all.flatMap(({ cards }) => cardSummary(cards).quarrels))];
  return subjects.length === 0
    ? undefined
    : `Rules of thumb contradict one another here on ${listed(subjects)}${full ? "" : "; --full shows each with the light it would give"}.`;
}

/** Everything, by heading. */
export function findingsFull(findings: Findings, words: Wording): string[] {
  const sections = findingsSections(findings, words);
  const lines: string[] = [];
  for (const { heading, sentences, table: figures } of sections) {
    lines.push(...textLines(printable(heading, 80), 2));
    for (const sentence of sentences) lines.push(...textLines(printable(sentence, LONGEST), 4));
    if (figures !== undefined) {
      const rows = figures.rows.map((row) => row.map((cell) => printable(cell, 32)));
      lines.push(...table(rows, 4, figures.left));
    }
  }
  return [...lines, ...rules(findings.cards, words)];
}

const MARK: Readonly<Record<GuidelineCard["outcome"], string>> = {
  within: "✓",
  below: "↓",
  above: "↑",
  "does not apply": "–",
};

/** Each rule that applies: mark, sentence, what it finds and asks, the light that would give, who says so. */
function rules(cards: readonly GuidelineCard[], words: Wording): string[] {
  const applying = cards.filter(({ outcome }) => outcome !== "does not apply");
  if (applying.length === 0) return [];
  const lines = [
    ...textLines(
      "Rules of thumb (✓ agrees, ↓ below, ↑ above what it allows). They inform; no verdict rests on them. Light on the whole top if followed, by superposition of what was calculated.",
      2,
    ),
  ];
  for (const card of applying) {
    const { average, uniformity } = card.light ?? {};
    const light =
      average === undefined || uniformity === undefined
        ? ""
        : ` ${words.light(average)}, U₀ ${evennessText(uniformity)}.`;
    const asks =
      card.outcome === "within"
        ? ""
        : ` Here ${ruleFigure(card.measure.found ?? 0, card, words.lengthUnit)}${card.subject === "recessed" || card.measure.kind === "ratio" ? ` (${card.measure.of})` : ""}. ${card.asks}`;
    const against =
      card.contradicts.length === 0 ? "" : ` Contradicts ${card.contradicts.length} of the others.`;
    lines.push(
      ...textLines(`${MARK[card.outcome]} ${card.rule}${asks}${light}${against} [${sourceOf(card)}]`, 4),
    );
  }
  return lines;
}

function sourceOf({ known, source }: GuidelineCard): string {
  return known === "published" ? `published: ${source}` : source;
}
