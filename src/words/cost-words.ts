/** Costs in words: each figure, a dash where it is not known, and what the study would have to state. */

import type { CostGap, CostReport } from "../advice/cost.ts";
import { printable } from "../diagnostics/printable.ts";
import { listed } from "../diagnostics/sentence.ts";

/** `1240.00 EUR`, or a dash. */
export function moneyWords(value: number | undefined, currency: string | undefined): string {
  if (value === undefined) return "–";
  return `${value.toFixed(2)}${currency === undefined ? "" : ` ${printable(currency, 12)}`}`;
}

/** `price 630.00 EUR, lamps 20.00 EUR, energy 93.08 EUR, together 743.08 EUR` */
export function costWords({ price, lamps, energy, total, currency, years }: CostReport): string {
  const money = (value: number | undefined): string => moneyWords(value, currency);
  return `Price ${money(price)}, lamps over ${years} years ${money(lamps)}, energy over ${years} years ${money(energy)}: together ${money(total)}.`;
}

const GAP_NAMES: Readonly<Record<CostGap["kind"], string>> = {
  price: "price of",
  "lamp life": "life of the lamps of",
  "lamp price": "price of the lamps of",
  power: "power of",
  hours: "hours of use a day of",
  tariff: "price of electricity",
};

/** `Not stated: price of dome and spot; hours of use a day of ambient.`; nothing where nothing is missing. */
export function costGapWords({ missing }: CostReport): string | undefined {
  if (missing.length === 0) return undefined;
  const kinds = [...new Set(missing.map(({ kind }) => kind))];
  const parts = kinds.map((kind) => {
    const of = missing.flatMap((gap) =>
      gap.kind !== kind || gap.kind === "tariff" ? [] : ["luminaire" in gap ? gap.luminaire : gap.layer],
    );
    return of.length === 0
      ? GAP_NAMES[kind]
      : `${GAP_NAMES[kind]} ${listed(of.map((name) => printable(name, 30)))}`;
  });
  return `Not stated: ${parts.join("; ")}.`;
}
