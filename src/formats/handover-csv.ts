/** Boxes, luminaires and loads as comma-separated values: metres, lumens, watts, with the printed figures beside. */

import { loadReport } from "../advice/load.ts";
import { cordLength } from "../app/set-out/drop.ts";
import type { SetOut } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { EVIDENCE } from "../luminaire/evidence.ts";
import { chosenOption, type Handover, handoverWords } from "../papers/handover.ts";
import { scheduleRows } from "../papers/schedule-sheet.ts";
import { setOutHolds } from "../papers/set-out/holds.ts";
import { degrees } from "../units/quantities.ts";
import { BYTE_ORDER_MARK, csvLine } from "./csv.ts";

/** One line a box, in the set-out sheet's order. */
export function boxesCsv(handover: Handover, setOut: SetOut): string {
  const { scene } = chosenOption(handover);
  // A no-break space is for paper; a spreadsheet takes it for a letter.
  const printed = (metres: number): string =>
    handoverWords(handover).length(metres).replaceAll("\u00a0", " ");
  const lines = [
    BYTE_ORDER_MARK,
    csvLine([
      "box",
      "type",
      "luminaire",
      "layer",
      "circuit",
      "kind",
      "x from wall 3 (m)",
      "y from wall 0 (m)",
      "ceiling above floor (m)",
      "drop (m)",
      "body (m)",
      "lower edge above floor (m)",
      "lower edge above top (m)",
      "x as printed",
      "y as printed",
      "drop as printed",
      "lower edge above floor as printed",
      "weight (kg)",
      "canopy (m)",
      "suspension",
      "turn (°)",
      "tilt (°)",
      "spin (°)",
      "aim x (m)",
      "aim y (m)",
      "aim z (m)",
      "hold",
      "suspensions x y (m)",
      "feed x (m)",
      "feed y (m)",
      "suspensions assumed",
      "cord to cut (m)",
      "middle x (m)",
      "middle y (m)",
    ]),
  ];
  const held = setOutHolds(handover, setOut, handoverWords(handover));
  for (const box of setOut.boxes) {
    const layer = scene.layers[box.layer];
    const { luminaire, heights: h } = box;
    lines.push(
      csvLine([
        box.tag,
        box.type,
        luminaire.name,
        layer.name,
        layer.circuit ?? "",
        box.kind,
        figure(box.at[0]),
        figure(box.at[1]),
        figure(box.ceiling),
        h === undefined ? "" : figure(h.drop),
        h === undefined ? "" : figure(h.body),
        h === undefined ? "" : figure(h.bottom),
        h?.overTop === true ? figure(h.gap) : "",
        printed(box.x),
        printed(box.y),
        h === undefined ? "" : printed(h.drop),
        h === undefined ? "" : printed(h.bottom),
        luminaire.weight ?? "",
        luminaire.canopy?.diameter ?? "",
        luminaire.suspension ?? "",
        angle(box.orientation.turn),
        angle(box.orientation.tilt),
        angle(box.orientation.spin),
        ...(box.aim === undefined ? ["", "", ""] : box.aim.map(figure)),
        held
          .filter(({ tags }) => tags.includes(box.tag))
          .map(({ words }) => words.replaceAll("\u00a0", " "))
          .join(" "),
        box.suspensions?.points.map((at) => at.map(figure).join(" ")).join("; ") ?? "",
        ...(box.suspensions?.feed.map(figure) ?? ["", ""]),
        box.suspensions?.assumed === true ? "assumed" : "",
        h === undefined || luminaire.suspension === undefined || luminaire.suspension === "rod"
          ? ""
          : figure(cordLength(h.drop, handover.unit)),
        ...box.middle.map(figure),
      ]),
    );
  }
  return lines.join("");
}

/** One line a luminaire type, in the schedule's order. */
export function luminairesCsv(handover: Handover): string {
  const lines = [
    BYTE_ORDER_MARK,
    csvLine([
      "type",
      "luminaire",
      "count",
      "flux (lm)",
      "rated flux (lm)",
      "power (W)",
      "marked power (W)",
      "colour temperature (K)",
      "colour rendering (Ra)",
      "beam at half (degrees)",
      "length (m)",
      "width (m)",
      "height (m)",
      "weight (kg)",
      "canopy (m)",
      "suspension",
      "finish",
      "colour",
      "maker",
      "order number",
      "lamp",
      "base",
      "driver",
      "dimming",
      "price",
      "light known from",
      "source",
      "lamp shape",
      "lamp flux (lm)",
      "lamp power (W)",
      "lamps each",
    ]),
  ];
  for (const { type, luminaire: l, count, beam, size } of scheduleRows(handover)) {
    const lamp = handover.lamps.get(l.name);
    lines.push(
      csvLine([
        type,
        l.name,
        count,
        figure(l.flux),
        l.ratedFlux === undefined ? "" : figure(l.ratedFlux),
        l.watts === undefined ? "" : figure(l.watts),
        l.markedWatts === undefined ? "" : figure(l.markedWatts),
        l.cct ?? "",
        l.cri ?? "",
        beam === undefined ? "" : Number(degrees(beam).toFixed(1)),
        ...size.map(figure),
        l.weight === undefined ? "" : figure(l.weight),
        l.canopy?.diameter ?? "",
        l.suspension ?? "",
        l.finish ?? "",
        l.colour ?? "",
        printable(l.maker ?? ""),
        l.order ?? "",
        l.lamp ?? "",
        l.base ?? "",
        l.driver ?? "",
        l.dimming ?? "",
        l.price ?? "",
        EVIDENCE[l.evidence].words,
        l.origin,
        lamp?.shape ?? "",
        lamp?.flux ?? "",
        lamp?.watts ?? "",
        lamp === undefined ? "" : (lamp.count ?? 1),
      ]),
    );
  }
  return lines.join("");
}

/** One line a layer: circuit, load, dimmer, leg and switches. */
export function circuitsCsv(handover: Handover): string {
  const { scene } = chosenOption(handover);
  const { layers } = loadReport(scene);
  return [
    BYTE_ORDER_MARK,
    csvLine([
      "circuit",
      "layer",
      "luminaires",
      "fitted (W)",
      "marked (W)",
      "as dimmed (W)",
      "power not stated by",
      "dimmer",
      "dimmer check",
      "leg",
      "load (VA)",
      "power factor not stated by",
      "switched from (places)",
    ]),
    ...layers.map((each) =>
      csvLine([
        each.circuit ?? "",
        each.layer,
        each.luminaires,
        figure(each.fittedWatts),
        each.isMarked ? figure(each.markedWatts) : "",
        figure(each.drawnWatts),
        each.unknown,
        each.dimmer?.name ?? "",
        each.dimmer?.words ?? "",
        each.leg,
        figure(each.voltAmperes),
        each.withoutFactor,
        each.switchedFrom ?? "",
      ]),
    ),
  ].join("");
}

/** Degrees, as finely as a float holds an angle: the frame is rebuilt from them. */
function angle(radians: number): number {
  return Number(degrees(radians).toFixed(10)) + 0;
}

/** To a tenth of a millimetre, or of a lumen. */
function figure(value: number): number {
  return Number(value.toFixed(4));
}
