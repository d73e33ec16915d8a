/** Boxes, luminaires and loads as comma-separated values: metres, lumens, watts, with the printed figures beside. */

import { loadReport } from "../advice/load.ts";
import { cordLength } from "../app/set-out/drop.ts";
import type { SetOut } from "../app/set-out/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import { cutOutSides } from "../luminaire/cut-out.ts";
import { EVIDENCE } from "../luminaire/evidence.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { chosenOption, type Handover, handoverWords } from "../papers/handover.ts";
import { scheduleRows } from "../papers/schedule-sheet.ts";
import { setOutHolds } from "../papers/set-out/holds.ts";
import { statedDepth } from "../scene/stated-depth.ts";
import { degrees } from "../units/quantities.ts";
import { csvTable } from "./csv-writer.ts";

/** One line a box, in the set-out sheet's order. */
export function boxesCsv(handover: Handover, setOut: SetOut): string {
  const { layers } = chosenOption(handover).scene;
  const words = handoverWords(handover);
  // A no-break space is for paper; a spreadsheet takes it for a letter.
  const plain = (text: string): string => text.replaceAll("\u00a0", " ");
  const printed = (metres: number | undefined): string =>
    metres === undefined ? "" : plain(words.length(metres));
  const held = setOutHolds(handover, setOut, words);
  return csvTable(setOut.boxes, {
    box: ({ tag }) => tag,
    type: ({ type }) => type,
    luminaire: ({ luminaire }) => luminaire.name,
    layer: ({ layer }) => layers[layer].name,
    circuit: ({ layer }) => layers[layer].circuit,
    kind: ({ kind }) => kind,
    "x from wall 3 (m)": ({ at }) => figure(at[0]),
    "y from wall 0 (m)": ({ at }) => figure(at[1]),
    "ceiling above floor (m)": ({ ceiling }) => figure(ceiling),
    "drop (m)": ({ heights }) => figure(heights?.drop),
    "body (m)": ({ heights }) => figure(heights?.body),
    "lower edge above floor (m)": ({ heights }) => figure(heights?.bottom),
    "lower edge above top (m)": ({ heights }) => figure(heights?.overTop === true ? heights.gap : undefined),
    "x as printed": ({ x }) => printed(x),
    "y as printed": ({ y }) => printed(y),
    "drop as printed": ({ heights }) => printed(heights?.drop),
    "lower edge above floor as printed": ({ heights }) => printed(heights?.bottom),
    "weight (kg)": ({ luminaire }) => luminaire.weight,
    "canopy (m)": ({ luminaire }) => luminaire.canopy?.diameter,
    suspension: ({ luminaire }) => luminaire.suspension,
    "turn (°)": ({ orientation }) => angle(orientation.turn),
    "tilt (°)": ({ orientation }) => angle(orientation.tilt),
    "spin (°)": ({ orientation }) => angle(orientation.spin),
    "aim x (m)": ({ aim }) => figure(aim?.[0]),
    "aim y (m)": ({ aim }) => figure(aim?.[1]),
    "aim z (m)": ({ aim }) => figure(aim?.[2]),
    hold: ({ tag }) =>
      held.flatMap(({ tags, words: flag }) => (tags.includes(tag) ? [plain(flag)] : [])).join(" "),
    "suspensions x y (m)": ({ suspensions }) =>
      suspensions?.points.map((at) => at.map(figure).join(" ")).join("; "),
    "feed x (m)": ({ suspensions }) => figure(suspensions?.feed[0]),
    "feed y (m)": ({ suspensions }) => figure(suspensions?.feed[1]),
    "suspensions assumed": ({ suspensions }) => (suspensions?.assumed === true ? "assumed" : ""),
    "cord to cut (m)": ({ heights, luminaire: { suspension } }) =>
      heights === undefined || suspension === undefined || suspension === "rod"
        ? ""
        : figure(cordLength(heights.drop, handover.unit)),
    "middle x (m)": ({ middle }) => figure(middle[0]),
    "middle y (m)": ({ middle }) => figure(middle[1]),
    "cut-out (m)": ({ kind, luminaire }) => (kind === "recessed" ? cutOutFigures(luminaire) : ""),
  });
}

/** One line a luminaire type, in the schedule's order. */
export function luminairesCsv(handover: Handover): string {
  const { scene } = chosenOption(handover);
  const rows = scheduleRows(handover).map((row) => ({
    ...row,
    lamp: handover.lamps.get(row.luminaire.name),
  }));
  return csvTable(rows, {
    type: ({ type }) => type,
    luminaire: ({ luminaire }) => luminaire.name,
    count: ({ count }) => count,
    "flux (lm)": ({ luminaire }) => figure(luminaire.flux),
    "rated flux (lm)": ({ luminaire }) => figure(luminaire.ratedFlux),
    "power (W)": ({ luminaire }) => figure(luminaire.watts),
    "marked power (W)": ({ luminaire }) => figure(luminaire.markedWatts),
    "colour temperature (K)": ({ luminaire }) => luminaire.cct,
    "colour rendering (Ra)": ({ luminaire }) => luminaire.cri,
    "beam at half (degrees)": ({ beam }) =>
      beam === undefined ? undefined : Number(degrees(beam).toFixed(1)),
    "length (m)": ({ size }) => figure(size[0]),
    "width (m)": ({ size }) => figure(size[1]),
    "height (m)": ({ size }) => figure(size[2]),
    "weight (kg)": ({ luminaire }) => figure(luminaire.weight),
    "canopy (m)": ({ luminaire }) => luminaire.canopy?.diameter,
    suspension: ({ luminaire }) => luminaire.suspension,
    finish: ({ luminaire, lamp }) =>
      luminaire.finish ?? (luminaire.colour === undefined ? lamp?.shade : undefined),
    colour: ({ luminaire }) => luminaire.colour,
    maker: ({ luminaire }) => printable(luminaire.maker ?? ""),
    "order number": ({ luminaire }) => luminaire.order,
    lamp: ({ luminaire }) => luminaire.lamp,
    base: ({ luminaire }) => luminaire.base,
    driver: ({ luminaire }) => luminaire.driver,
    dimming: ({ luminaire }) => luminaire.dimming,
    price: ({ luminaire }) => luminaire.price,
    "light known from": ({ luminaire }) => EVIDENCE[luminaire.evidence].words,
    source: ({ luminaire }) => luminaire.origin,
    "lamp shape": ({ lamp }) => lamp?.shape,
    "lamp flux (lm)": ({ lamp }) => lamp?.flux,
    "lamp power (W)": ({ lamp }) => lamp?.watts,
    "lamps each": ({ lamp }) => lamp && (lamp.count ?? 1),
    "cut-out (m)": ({ luminaire }) => cutOutFigures(luminaire),
    "depth in the ceiling (m)": ({ recessed }) =>
      recessed === undefined ? "" : figure(statedDepth(scene, recessed)),
  });
}

/** One line a layer: circuit, load, dimmer, leg and switches. */
export function circuitsCsv(handover: Handover): string {
  return csvTable(loadReport(chosenOption(handover).scene).layers, {
    circuit: ({ circuit }) => circuit,
    layer: ({ layer }) => layer,
    luminaires: ({ luminaires }) => luminaires,
    "fitted (W)": ({ fittedWatts }) => figure(fittedWatts),
    "marked (W)": ({ isMarked, markedWatts }) => (isMarked ? figure(markedWatts) : ""),
    "as dimmed (W)": ({ drawnWatts }) => figure(drawnWatts),
    "power not stated by": ({ unknown }) => unknown,
    dimmer: ({ dimmer }) => dimmer?.name,
    "dimmer check": ({ dimmer }) => dimmer?.words,
    leg: ({ leg }) => leg,
    "load (VA)": ({ voltAmperes }) => figure(voltAmperes),
    "power factor not stated by": ({ withoutFactor }) => withoutFactor,
    "switched from (places)": ({ switchedFrom }) => switchedFrom,
  });
}

/** A diameter, or length and width. */
function cutOutFigures({ cutOut }: Luminaire): number | string | undefined {
  return cutOut === undefined || typeof cutOut === "number"
    ? figure(cutOut)
    : cutOutSides(cutOut).map(figure).join(" ");
}

/** Degrees, as finely as a float holds an angle: the frame is rebuilt from them. */
function angle(radians: number): number {
  return Number(degrees(radians).toFixed(10)) + 0;
}

/** To a tenth of a millimetre, or of a lumen; nothing of what is not there. */
function figure(value: number | undefined): number | undefined {
  return value === undefined ? undefined : Number(value.toFixed(4));
}
