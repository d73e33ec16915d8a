/** What `swap` says: what another luminaire in one layer does to every zone, and the words for the order. */

import { reliances } from "../app/set-out/flux-margin.ts";
import type { Check } from "../assessment/assessment.ts";
import type { Swap } from "../design/swap.ts";
import { printable } from "../diagnostics/printable.ts";
import { VERSION } from "../diagnostics/version.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import { powerFigure } from "../units/power-text.ts";
import { verdictWords } from "./arrangement-sentences.ts";
import { checkedJson } from "./checked-json.ts";
import { clashSentences } from "./clash-list.ts";
import { leastFluxSentence } from "./least-flux.ts";
import { textLines } from "./table.ts";
import { evennessText, figureText } from "./zone-text.ts";

export function swapText(study: Pick<ResolvedStudy, "title" | "display">, swapped: Swap): string {
  const { planned, instead, before, after, changes, differs, placement, setting, dimmer, order, layer } =
    swapped;
  const unit = study.display.illuminance;
  const lines = [
    printable(study.title),
    "",
    ...textLines(
      `${printable(instead.name, 60)} in place of ${printable(planned.name, 60)} in ${printable(layer, 60)}: ${printable(differs.join(", "), 200)}.`,
    ),
    `Verdict ${verdictWords(before.assessment, before.clashes)} → ${verdictWords(after.assessment, after.clashes)}; evenness ${evennessText(before.uniformity)} → ${evennessText(after.uniformity)}; ${powerOf(before)} W → ${powerOf(after)} W`,
  ];
  for (const { message } of placement) lines.push(...textLines(printable(message, 300), 2));
  if (setting.length > 0)
    lines.push(
      ...textLines(
        `HOLD ${printable(layer, 60)} is set into the ceiling: ${printable(instead.name, 60)} ${setting.join(", ")}.`,
        2,
      ),
    );
  if (dimmer !== undefined)
    lines.push(...textLines(`HOLD The dimmer of ${printable(layer, 60)}: ${printable(dimmer, 200)}.`, 2));
  for (const clash of clashSentences(after.clashes, study.display.length))
    lines.push(...textLines(`HOLD ${clash}`, 2));
  for (const { zone, before: was, after: is, check } of changes) {
    const value = ({ quantity, value: figure }: Check): string => figureText(quantity, figure, unit);
    const figures = check === undefined ? "" : ` (${value(check.before)} → ${value(check.after)})`;
    lines.push(...textLines(`${printable(zone, 60)}: ${was} → ${is}${figures}`, 2));
  }
  lines.push("", ...textLines(printable(order, 600)));
  const reliance = reliances(before.scene, before.assessment).find(
    ({ luminaire }) => luminaire.name === planned.name,
  );
  const least = reliance && leastFluxSentence(reliance);
  if (least !== undefined) lines.push(...textLines(`Of any other of the same distribution: ${least}`));
  return `${lines.join("\n").trimEnd()}\n`;
}

function powerOf({ assessment: { energy } }: Swap["before"]): string {
  return powerFigure(energy.watts, energy.unknownWatts, "at least");
}

export function swapJson(
  study: Pick<ResolvedStudy, "title" | "display">,
  { layer, planned, instead, before, after, changes, differs, placement, setting, dimmer, order }: Swap,
) {
  return {
    candlespan: VERSION,
    study: study.title,
    layer,
    planned: planned.name,
    instead: instead.name,
    differs,
    placement: placement.map(({ message }) => message),
    setting,
    ...(dimmer === undefined ? {} : { dimmer }),
    before: checkedJson(before, study.display.length),
    after: checkedJson(after, study.display.length),
    zones: changes,
    order,
  };
}
