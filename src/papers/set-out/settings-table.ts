/** Settings of the dimmers, for who programs them: light output of each layer, and its load then. */

import { settingLevels } from "../../app/settings-comparison.ts";
import { layerPower } from "../../assessment/energy.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Block, heading, paragraph, SMALL } from "../../drawing/paper/flow.ts";
import { withSetting } from "../../scene/settings.ts";
import { controlWords, levelWords } from "../../words/settings-text.ts";
import { chosenOption, type Handover } from "../handover.ts";

/** Nothing where the option has no settings. */
export function settingsTable(handover: Handover): Block[] {
  const { scene } = chosenOption(handover);
  const { settings } = scene;
  if (settings === undefined) return [];
  const isKnown = scene.layers.some(({ dimmer }) => dimmer?.control !== undefined);
  const table: Block = {
    kind: "table",
    size: SMALL,
    depicts: "setting row",
    columns: [
      { title: "setting", share: 1.6 },
      { title: "layer", share: 1.6 },
      { title: "circuit", share: 0.9 },
      { title: "light output", share: 1.1, align: "end" },
      ...(isKnown ? [{ title: "dimmer at", share: 1.1, align: "end" as const }] : []),
      { title: "load, W", share: 0.8, align: "end" },
    ],
    rows: settings.flatMap((setting) => {
      const dimmed = withSetting(scene, setting).layers;
      const levels = settingLevels(dimmed, setting.dims);
      return dimmed.map((layer, l) => {
        const { watts, unknown } = layerPower(layer);
        const { control } = levels[l];
        return [
          l === 0 ? printable(setting.name, 30) : "",
          printable(layer.name, 30),
          layer.circuit === undefined ? "HOLD" : printable(layer.circuit, 20),
          levelWords(layer.dim),
          ...(isKnown
            ? [control === undefined ? "not stated" : layer.dim === 0 ? "off" : controlWords(control)]
            : []),
          `${unknown > 0 ? "≥ " : ""}${watts.toFixed(0)}`,
        ];
      });
    }),
  };
  return [
    heading("Settings of the dimmers", 9),
    table,
    paragraph(
      `Light output is set with a meter on the top; what a dimmer shows is rarely the share of light${isKnown ? ': "dimmer at" follows the curve that the study states for it' : ""}.`,
      { size: SMALL },
    ),
  ];
}
