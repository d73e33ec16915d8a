/** Settings of the dimmers, for who programs them: light output of each layer, and its load then. */

import { layerPower } from "../../assessment/energy.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Block, heading, paragraph, SMALL } from "../../drawing/paper/flow.ts";
import { withSetting } from "../../scene/settings.ts";
import { levelWords } from "../../words/settings-text.ts";
import { chosenOption, type Handover } from "../handover.ts";

/** Nothing where the option has no settings. */
export function settingsTable(handover: Handover): Block[] {
  const { scene } = chosenOption(handover);
  const { settings } = scene;
  if (settings === undefined) return [];
  const table: Block = {
    kind: "table",
    size: SMALL,
    depicts: "setting row",
    columns: [
      { title: "setting", share: 1.6 },
      { title: "layer", share: 1.6 },
      { title: "circuit", share: 0.9 },
      { title: "light output", share: 1.1, align: "end" },
      { title: "load, W", share: 0.8, align: "end" },
    ],
    rows: settings.flatMap((setting) =>
      withSetting(scene, setting).layers.map((layer, l) => {
        const { watts, unknown } = layerPower(layer);
        return [
          l === 0 ? printable(setting.name, 30) : "",
          printable(layer.name, 30),
          layer.circuit === undefined ? "HOLD" : printable(layer.circuit, 20),
          levelWords(layer.dim),
          `${unknown > 0 ? "≥ " : ""}${watts.toFixed(0)}`,
        ];
      }),
    ),
  };
  return [
    heading("Settings of the dimmers", 9),
    table,
    paragraph(
      "Light output is set with a meter on the top; what a dimmer shows is rarely the share of light.",
      { size: SMALL },
    ),
  ];
}
