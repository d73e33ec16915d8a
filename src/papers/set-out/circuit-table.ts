/** Loads and dimmers by circuit. */

import { loadReport } from "../../advice/load.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Block, SMALL } from "../../drawing/paper/flow.ts";
import type { Scene } from "../../scene/scene.ts";
import { chosenOption, type Handover } from "../handover.ts";

/** Whether any luminaire of a layer says what power is marked on it; what is fitted is no mark. */
export function isMarked({ layers }: Scene, name: string): boolean {
  return layers.some(
    ({ name: own, luminaires }) =>
      own === name && luminaires.some(({ luminaire }) => luminaire.markedWatts !== undefined),
  );
}

export function circuitTable(handover: Handover): Block {
  const { scene } = chosenOption(handover);
  const { layers } = loadReport(scene);
  return {
    kind: "table",
    size: SMALL,
    depicts: "circuit row",
    columns: [
      { title: "circuit", share: 0.9 },
      { title: "layer", share: 1.5 },
      { title: "count", share: 0.7, align: "end" },
      { title: "load, W", share: 0.8, align: "end" },
      { title: "marked, W", share: 1.15, align: "end" },
      { title: "dimmer", share: 3.2 },
    ],
    rows: layers.map(({ circuit, layer, luminaires, fittedWatts, markedWatts, unknown, dimmer }) => [
      circuit === undefined ? "HOLD" : printable(circuit, 20),
      printable(layer, 30),
      `${luminaires}`,
      `${unknown > 0 ? "≥ " : ""}${fittedWatts.toFixed(0)}`,
      isMarked(scene, layer) ? `${unknown > 0 ? "≥ " : ""}${markedWatts.toFixed(0)}` : "–",
      dimmer === undefined
        ? "not stated"
        : printable(
            `${dimmer.name === undefined ? "" : `${dimmer.name}: `}${dimmer.outcome === "within" ? "" : "HOLD, "}${dimmer.words}`,
            160,
          ),
    ]),
  };
}
