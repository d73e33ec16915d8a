/** Loads and dimmers by circuit. */

import { isDigital } from "../../advice/digital-control.ts";
import { type LayerLoad, loadReport } from "../../advice/load.ts";
import { switchOf } from "../../advice/switch-of.ts";
import { switchingLegs } from "../../advice/switching.ts";
import { isPlainlySwitched } from "../../app/set-out/layer-issues.ts";
import { printable } from "../../diagnostics/printable.ts";
import { type Block, bullet, heading, paragraph, SMALL } from "../../drawing/paper/flow.ts";
import { column, endColumn, table } from "../../drawing/paper/table.ts";
import { switchWords } from "../../drawing/switch-symbols.ts";
import type { Layer, Scene } from "../../scene/scene.ts";
import { powerFigure } from "../../units/power-text.ts";
import { chosenOption, type Handover, type HandoverWords } from "../handover.ts";

/** `27 VA`; with a luminaire that leaves out its power factor the watts as stated, a least load; HOLD where no power is known. */
function apparentWords({ voltAmperes, withoutFactor, unknown, luminaires }: LayerLoad): string {
  if (unknown === luminaires) return "HOLD";
  // A least load is never rounded up.
  if (unknown + withoutFactor > 0)
    return `≥ ${Math.floor(voltAmperes * 10 + 1e-6) / 10}${unknown > 0 ? " HOLD" : ""}`;
  return voltAmperes.toFixed(0);
}

/** A layer whose dimmer is stated waits for no other switch, but for the place of that. */
function placesWords({ switchedFrom, dimmer }: LayerLoad, layer: Layer | undefined): string {
  if (switchedFrom === undefined) return dimmer === undefined ? "not stated" : "its dimmer; its place: HOLD";
  if (layer !== undefined && isDigital(layer))
    return `${switchedFrom} ${switchedFrom === 1 ? "place" : "places"}: control ${switchedFrom === 1 ? "input" : "inputs"}`;
  if (switchedFrom === 1) return "1 place";
  return `${switchedFrom} places: two-way${switchedFrom > 2 ? " and intermediate" : ""}`;
}

/** Where switches are, and what the letters beside them mean, where any is drawn. */
export function switchTable(handover: Handover, words: HandoverWords): Block[] {
  const { layers } = chosenOption(handover).scene;
  const rows = switchingLegs(layers).flatMap(({ leg, layer }) =>
    (layer.switches ?? []).map(({ at, assumed }, i) => {
      const { kind, dims } = switchOf(layer, i);
      return { symbol: switchWords(kind, dims, leg, assumed), layer: layer.name, at };
    }),
  );
  if (rows.length === 0) return [];
  return [
    heading("Switches, from the datum", 9),
    table(
      rows,
      [
        column("switch", 0.8, ({ symbol }) => symbol),
        column("layer", 1.6, ({ layer }) => printable(layer, 30)),
        endColumn("x", 1.2, ({ at }) => words.dimension(at[0])),
        endColumn("y", 1.2, ({ at }) => words.dimension(at[1])),
      ],
      { size: SMALL, depicts: "switch row" },
    ),
    paragraph(
      "On the plan: S a switch, S2 one of a two-way pair, SX intermediate between the pair, D with the dimmer; the small letter is the leg it switches, and a dotted line leads to that leg's nearest luminaire. Common practice, no source. No design of the wiring: local codes and licensed people decide.",
      { size: SMALL },
    ),
  ];
}

export function circuitTable(handover: Handover): Block {
  const { scene } = chosenOption(handover);
  const layerOf = ({ layer }: LayerLoad): Layer | undefined =>
    scene.layers.find(({ name }) => name === layer);
  return table(
    loadReport(scene).layers,
    [
      column("circuit", 0.9, ({ circuit }) => (circuit === undefined ? "HOLD" : printable(circuit, 20))),
      column("leg", 0.45, ({ leg }) => leg),
      column("layer", 1.4, ({ layer }) => printable(layer, 30)),
      endColumn("count", 0.7, ({ luminaires }) => `${luminaires}`),
      endColumn("load, W", 0.8, ({ fittedWatts, unknown }) => powerFigure(fittedWatts, unknown, "≥", 1)),
      endColumn("marked, W", 1.15, ({ isMarked, markedWatts, unknown }) =>
        isMarked ? powerFigure(markedWatts, unknown, "≥", 1) : "–",
      ),
      endColumn("load, VA", 1.2, apparentWords),
      column("switched from", 1.2, (load) => placesWords(load, layerOf(load))),
      column("dimmer; luminaires dim by", 3.2, (load) => dimmerWords(load, layerOf(load), scene)),
    ],
    { size: SMALL, depicts: "circuit row" },
  );
}

/** `carries 5 W to 150 W` */
function loadLimits({ minimumWatts, maximumWatts }: NonNullable<Layer["dimmer"]>): string[] {
  if (maximumWatts === undefined)
    return minimumWatts === undefined ? [] : [`needs at least ${minimumWatts} W`];
  return [`carries ${minimumWatts === undefined ? "at most" : `${minimumWatts} W to`} ${maximumWatts} W`];
}

/** The dimmer and what load it is for, then how the luminaires on it dim: by phase or by wires of their own, it decides the cable. */
function dimmerWords({ dimmer }: LayerLoad, layer: Layer | undefined, scene: Scene): string {
  const kinds = new Set(layer?.luminaires.flatMap(({ luminaire }) => luminaire.dimming ?? []));
  const name = dimmer?.name === undefined ? "" : `${dimmer.name}: `;
  const isPlain = layer !== undefined && isPlainlySwitched(scene, layer);
  const parts = [
    dimmer === undefined
      ? isPlain
        ? "none: switched"
        : "not stated"
      : `${dimmer.outcome === "within" ? "" : "HOLD, "}${dimmer.words}`,
    ...(layer?.dimmer === undefined ? [] : loadLimits(layer.dimmer)),
    ...(kinds.size === 0 ? [] : [[...kinds].join(", ")]),
  ];
  return printable(`${name}${parts.join("; ")}`, 240);
}

/** What digital control asks of whoever wires it, once. */
export function digitalNote(handover: Handover): Block[] {
  const layers = chosenOption(handover).scene.layers.filter(
    (layer) => layer.luminaires.length > 0 && isDigital(layer),
  );
  if (layers.length === 0) return [];
  const names = layers.map(({ name }) => printable(name, 30)).join(", ");
  return [
    bullet(
      `Digital control of ${names}: it needs control cores of its own to every luminaire; switches are inputs of the control, to be agreed with whoever supplies it, no pair in the mains. Common practice, no source.`,
      SMALL,
    ),
  ];
}
