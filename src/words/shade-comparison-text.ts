/** What `shade --compare` says to a person. */

import type { ShadeVariantResult } from "../design/shade-variants.ts";
import { printable } from "../diagnostics/printable.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { formatIlluminanceValue } from "../units/illuminance-text.ts";
import { table, textLines } from "./table.ts";
import { evennessText } from "./zone-text.ts";

/** One shade as clear, frosted, opal and solid, side by side. */
export function shadeComparisonText(
  study: ResolvedStudy,
  scene: Scene,
  name: string,
  results: readonly ShadeVariantResult[],
): string {
  const unit = study.display.illuminance;
  const light = (lux: number) => formatIlluminanceValue(lux, unit);
  const people = scene.people.map((person) => printable(person.name, 12));
  const rows = [
    [
      `${printable(name, 24)} as`,
      "light out",
      `top ${unit}`,
      "U₀",
      `ceiling ${unit}`,
      "view taken",
      "see-through",
      ...people.map((person) => `${person} sees`),
    ],
    ...results.map(({ name: variant, figures }) =>
      figures === undefined
        ? [variant, "none"]
        : [
            variant,
            `${Math.round(100 * figures.lightOutputRatio)} %`,
            light(figures.average),
            evennessText(figures.uniformity),
            light(figures.ceiling),
            `${(100 * figures.covered).toFixed(1)} %`,
            figures.covered > 0 ? `${Math.round(100 * (1 - figures.weight / figures.covered))} %` : "–",
            ...figures.eyes.map(({ luminance, lamp }) =>
              luminance === 0 ? "none" : `${Number(luminance.toPrecision(2))}${lamp ? " lamp" : ""}`,
            ),
          ],
    ),
  ];
  const notes = [
    `In ${printable(scene.name)}, the lamp and the shade's form as they are, all layers on, maintained. Brightest luminance towards each eye in cd/m²; "lamp" where the bare lamp itself is in sight. A solid shade is of the one finish inside and outside, whatever the study's own is.`,
    "Finishes are typical values and the light is known to ±22 % (engineering defaults, no source); view taken is our own construction.",
    ...results.flatMap(({ name: variant, unlit }) => (unlit === undefined ? [] : [`${variant}: ${unlit}`])),
  ];
  return `${[...table(rows), "", ...notes.flatMap((note) => textLines(note))].join("\n")}\n`;
}
