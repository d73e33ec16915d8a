/** Loads and dimmers by circuit. */

import { type LayerLoad, loadReport } from "../../advice/load.ts";
import { switchingLegs, switchKind } from "../../advice/switching.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Block, heading, paragraph, SMALL } from "../../drawing/paper/flow.ts";
import { switchWords } from "../../drawing/switch-symbols.ts";
import { powerFigure } from "../../units/power-text.ts";
import { chosenOption, type Handover, type HandoverWords } from "../handover.ts";

/** `27 VA`; with a luminaire that leaves out its power factor the watts as stated, a least load; HOLD where no power is known. */
function apparentWords({ voltAmperes, withoutFactor, unknown, luminaires }: LayerLoad): string {
  if (unknown === luminaires) return "HOLD";
  return `${unknown + withoutFactor > 0 ? "≥ " : ""}${voltAmperes.toFixed(0)}${unknown > 0 ? " HOLD" : ""}`;
}

function placesWords({ switchedFrom }: LayerLoad): string {
  if (switchedFrom === undefined) return "not stated";
  if (switchedFrom === 1) return "1 place";
  return `${switchedFrom} places: two-way${switchedFrom > 2 ? " and intermediate" : ""}`;
}

/** Where switches are, and what the letters beside them mean, where any is drawn. */
export function switchTable(handover: Handover, words: HandoverWords): Block[] {
  const { layers } = chosenOption(handover).scene;
  const rows = switchingLegs(layers).flatMap(({ leg, layer }) =>
    (layer.switches ?? []).map(({ at, assumed }, i, all) => [
      switchWords(switchKind(i, all.length), layer.dimmer !== undefined && i === 0, leg, assumed),
      printable(layer.name, 30),
      ...at.map(words.dimension),
    ]),
  );
  if (rows.length === 0) return [];
  const end = "end" as const;
  return [
    heading("Switches, from the datum", 9),
    {
      kind: "table",
      size: SMALL,
      depicts: "switch row",
      columns: [
        { title: "switch", share: 0.8 },
        { title: "layer", share: 1.6 },
        { title: "x", share: 1.2, align: end },
        { title: "y", share: 1.2, align: end },
      ],
      rows,
    },
    paragraph(
      "On the plan: S a switch, S2 one of a two-way pair, SX intermediate between the pair, D with the dimmer; the small letter is the leg it switches, and a dotted line leads to that leg's nearest luminaire. Common practice, no source. No design of the wiring: local codes and licensed people decide.",
      { size: SMALL },
    ),
  ];
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
      { title: "leg", share: 0.45 },
      { title: "layer", share: 1.4 },
      { title: "count", share: 0.7, align: "end" },
      { title: "load, W", share: 0.8, align: "end" },
      { title: "marked, W", share: 1.15, align: "end" },
      { title: "load, VA", share: 0.9, align: "end" },
      { title: "switched from", share: 1.2 },
      { title: "dimmer", share: 2.6 },
    ],
    rows: layers.map((load) => {
      const { circuit, leg, layer, luminaires, fittedWatts, markedWatts, isMarked, unknown, dimmer } = load;
      return [
        circuit === undefined ? "HOLD" : printable(circuit, 20),
        leg,
        printable(layer, 30),
        `${luminaires}`,
        powerFigure(fittedWatts, unknown, "≥", 1),
        isMarked ? powerFigure(markedWatts, unknown, "≥", 1) : "–",
        apparentWords(load),
        placesWords(load),
        dimmer === undefined
          ? "not stated"
          : printable(
              `${dimmer.name === undefined ? "" : `${dimmer.name}: `}${dimmer.outcome === "within" ? "" : "HOLD, "}${dimmer.words}`,
              160,
            ),
      ];
    }),
  };
}
