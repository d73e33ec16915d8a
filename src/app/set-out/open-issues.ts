/**
 * What must not be built before somebody has said more: facts nobody gave, what clashes, luminaires heavier
 * than a box carries. Each flag names the boxes it holds.
 */

import { placedBeyondTop } from "../../advice/clashes/body-clashes.ts";
import type { Clash } from "../../advice/clashes/clash.ts";
import { BOX_LIMIT, loadReport } from "../../advice/load.ts";
import { pathTo } from "../../diagnostics/json-path.ts";
import { type DefaultUsed, TYPICAL } from "../../diagnostics/ledger.ts";
import { printable } from "../../diagnostics/printable.ts";
import { capital } from "../../diagnostics/sentence.ts";
import { filedBody, filedSides } from "../../luminaire/filed-body.ts";
import type { Luminaire } from "../../luminaire/luminaire.ts";
import { BRACKET, pointsBeside } from "../../luminaire/points-beside.ts";
import { unsettledFluxWords } from "../../luminaire/unsettled-flux.ts";
import { implausibleWords } from "../../photometry/implausible.ts";
import { boxWidth } from "../../scene/box-places.ts";
import { recessDepth } from "../../scene/recess-depth.ts";
import type { Scene } from "../../scene/scene.ts";
import { isBoxBare } from "./drop.ts";
import type { Field, Hold } from "./hold.ts";
import { dimmerHolds, isDimmed, layerHolds } from "./layer-issues.ts";
import { recessHolds } from "./recess-issues.ts";
import type { SetOut, SetOutBox } from "./set-out.ts";

/** How lengths and clashes are written. */
export interface HoldWords {
  length(metres: number): string;
  /** Reason and way out, without the names. */
  clash(clash: Clash): string;
  /** What its order contradicts, a sentence each. */
  order(luminaire: Luminaire): readonly string[];
}

export function holds(
  { scene, clashes }: { readonly scene: Scene; readonly clashes: readonly Clash[] },
  { boxes }: SetOut,
  defaults: readonly DefaultUsed[],
  { length, clash: clashWords, order }: HoldWords,
): Hold[] {
  const pendants = boxes.filter((box) => box.kind === "pendant");
  const found: Hold[] = [];
  const hold = (
    boxes: readonly SetOutBox[],
    words: string,
    fieldOf: (first: SetOutBox) => Field,
    isMissing = false,
  ): void => {
    if (boxes.length === 0) return;
    const field = fieldOf(boxes[0]);
    found.push({
      tags: boxes.map((box) => box.tag),
      words,
      field,
      ...(isMissing ? { missing: [field] } : {}),
    });
  };
  const assumed = (path: string): boolean => defaults.some((each) => each.path === path);
  const bodyDefault = ({ luminaire: { name } }: SetOutBox, key: string): DefaultUsed | undefined =>
    defaults.find(({ path }) => path === `${pathTo("/luminaires", name)}/body/${key}`);
  if (assumed("/island/centre"))
    hold(pendants, "The island's place was not given; the middle of the room stands in for it.", () => [
      "island",
      "centre",
    ]);
  if (assumed("/island/height"))
    hold(pendants, "The height of the island's top was not given; a usual one stands in for it.", () => [
      "island",
      "height",
    ]);
  hold(
    pendants.filter((box) => bodyDefault(box, "height") !== undefined),
    "Height of the luminaire's body not given: the drop rests on a typical one.",
    ofLuminaire("body", "height"),
  );
  hold(
    pendants.filter((box) =>
      ["diameter", "length", "width"].some((key) => bodyDefault(box, key)?.why === TYPICAL),
    ),
    "Width of the luminaire's body not given: a typical one stands in for it.",
    ofLuminaire("body"),
  );
  const bodiless = pendants.filter((box) => box.luminaire.body === undefined);
  const isPoint = (box: SetOutBox): boolean => box.luminaire.emission.opening.shape === "point";
  hold(
    bodiless.filter(isPoint),
    "The luminaire has no size: the drop is measured to its photometric centre.",
    ofLuminaire("body"),
  );
  for (const box of bodiless.filter((each) => !isPoint(each))) {
    const filed = filedBody(box.luminaire);
    const taken =
      filed === undefined
        ? "."
        : `; take ${filedSides(filed).map(length).join(" × ")}, as its file has it, or type it.`;
    hold(
      [box],
      `Body: size not given${taken} Until then the drop is measured to its luminous opening.`,
      ofLuminaire("body"),
    );
  }
  found.push(...typicalHolds(boxes));
  for (const box of boxes) {
    const { name, unsettledFlux, implausible = [] } = box.luminaire;
    if (unsettledFlux !== undefined)
      hold(
        [box],
        `"${printable(name, 40)}": ${unsettledFluxWords(unsettledFlux)}`,
        ofLuminaire("fluxFrom"),
        true,
      );
    for (const words of order(box.luminaire))
      hold([box], `"${printable(name, 40)}": ${words}`, ofLuminaire("order"));
    for (const value of implausible) {
      const { message, received } = implausibleWords(value);
      hold([box], `"${printable(name, 40)}", ${received}: ${message}`, ofLuminaire());
    }
  }
  for (const clash of clashes) {
    const held = boxes.filter(({ tag }) => clash.between.includes(tag));
    const tags = clash.between.filter((name) => held.some(({ tag }) => tag === name));
    const others = clash.between.filter((name) => !tags.includes(name));
    // Two boxes in one another's way are named as a pair: several pairs may share the words.
    const pair = tags.length > 1 && clash.kind !== "opening" ? tags.join(" with ") : "";
    const with_ = others.map((name) => printable(name, 40)).join(", ");
    const names = [pair, with_].filter((each) => each !== "").join(", ");
    const reason = clashWords(clash);
    const words = `${names === "" ? "" : `${names}: `}${capital(reason)}`;
    found.push({ tags, words, field: clashField(clash, held[0]) });
  }
  const beyond = placedBeyondTop(scene);
  hold(
    pendants.filter((box) => beyond.some((each) => each.layer === box.layer && each.index === box.index)),
    `Hangs beyond the edge of the top, over the floor, by up to ${length(Math.max(...beyond.map(({ by }) => by)))}: move the row, choose narrower luminaires, or confirm that it is meant.`,
    ({ layer }) => ["layers", layer, "row", "count"],
  );
  hold(
    pendants.filter((box) => (box.luminaire.weight ?? 0) > BOX_LIMIT),
    `Heavier than 22.7 kg (50 lb): needs a support of its own, not the box alone.`,
    ofLuminaire("weight"),
  );
  hold(
    pendants.filter(({ luminaire, width }) => isBoxBare(luminaire, width)),
    `The canopy is smaller than a ${length(boxWidth(scene.room))} box: a smaller box or a wider canopy.`,
    ofLuminaire("canopy", "diameter"),
  );
  scene.layers.forEach(({ isMarginAssumed }, layer) => {
    if (isMarginAssumed === true)
      hold(
        boxes.filter((box) => box.layer === layer),
        "Distance from the walls to the outer ones not given: half a spacing stands in for it.",
        () => ["layers", layer, "grid", "margin"],
      );
  });
  found.push(
    ...unstatedHolds(scene, boxes),
    ...recessHolds(scene, boxes, length),
    ...feedHolds(pendants, length),
    ...besideHolds(pendants, length),
  );
  hold(
    boxes.filter((box) => box.luminaire.watts === undefined),
    "Power not stated: the load of the circuit is a least one.",
    ofLuminaire("watts"),
    true,
  );
  const loads = loadReport(scene);
  found.push(...layerHolds(scene, boxes, loads), ...dimmerHolds(scene, boxes, loads));
  return grouped(found);
}

function ofLuminaire(...keys: readonly string[]): (box: SetOutBox) => Field {
  return ({ luminaire }) => ["luminaires", luminaire.name, ...keys];
}

/** What a clash is undone by: the height or the places of the layer that hangs there, or the luminaire's body. */
function clashField({ kind, remedy }: Clash, box: SetOutBox | undefined): Field {
  if (box === undefined) return ["bodies"];
  if (kind === "opening") return ofLuminaire("body")(box);
  const isHeight = remedy.kind === "lower" || remedy.kind === "raise";
  return ["layers", box.layer, "row", isHeight ? "clearance" : "count"];
}

/** What a flux and a beam stand in for, without a maker or an order number: no luminaire is chosen yet. */
function typicalHolds(boxes: readonly SetOutBox[]): Hold[] {
  return boxes.flatMap((box): Hold[] => {
    const { name, evidence, maker, order } = box.luminaire;
    if (evidence !== "D" || maker !== undefined || order !== undefined) return [];
    const what = `the ${box.kind === "pendant" ? "pendant" : "luminaire"} is a typical one`;
    return [
      {
        tags: [box.tag],
        words: `"${printable(name, 40)}": ${what}, from flux and beam alone: choose the luminaire, or state its order number.`,
        field: ["luminaires", name, "order"],
        missing: [["luminaires", name, "order"]],
      },
    ];
  });
}

/** What nobody said of how boxes are loaded and pendants hang, each combination once. */
function unstatedHolds(scene: Scene, boxes: readonly SetOutBox[]): Hold[] {
  // What sits in the ceiling hangs on nothing.
  const hangs = ({ kind }: SetOutBox): boolean => kind === "pendant";
  // Asked with the dimmer that is still to be stated, not after it.
  const isOnDimmer = ({ layer }: SetOutBox): boolean => {
    const { dimmer, switches } = scene.layers[layer];
    return dimmer !== undefined || switches === undefined || isDimmed(scene, scene.layers[layer]);
  };
  const isHoleAsked = ({ kind, layer, index, luminaire }: SetOutBox): boolean =>
    kind === "recessed" &&
    luminaire.cutOut === undefined &&
    (recessDepth(scene, scene.layers[layer].luminaires[index]) ?? 1) > 0;
  const unstated: [string, readonly string[], (box: SetOutBox) => boolean][] = [
    ["weight", ["weight"], ({ luminaire }) => luminaire.weight === undefined],
    ["canopy", ["canopy", "diameter"], (box) => hangs(box) && box.luminaire.canopy === undefined],
    ["cut-out", ["cutOut"], isHoleAsked],
    ["rod or cord", ["suspension"], (box) => hangs(box) && box.luminaire.suspension === undefined],
    // By phase or by wires of its own: it decides the cable.
    ["kind of dimming", ["dimming"], (box) => isOnDimmer(box) && box.luminaire.dimming === undefined],
  ];
  return boxes.flatMap((box): Hold[] => {
    const missing = unstated.filter(([, , isMissing]) => isMissing(box));
    if (missing.length === 0) return [];
    const what = missing.map(([words]) => words).join(", ");
    return [
      {
        tags: [box.tag],
        words: `Not stated: ${what}. Confirm before rough-in.`,
        field: ofLuminaire(...missing[0][1])(box),
        missing: missing.map(([, keys]) => ofLuminaire(...keys)(box)),
      },
    ];
  });
}

/** What a box is set out by that nobody said: where a long luminaire hangs and is fed. */
function feedHolds(boxes: readonly SetOutBox[], length: HoldWords["length"]): Hold[] {
  return boxes.flatMap((box): Hold[] => {
    const { tag, luminaire, middle, suspensions: hung } = box;
    if (hung?.assumed !== true) return [];
    const off = length(Math.hypot(hung.feed[0] - middle[0], hung.feed[1] - middle[1]));
    const isFed = luminaire.feed !== undefined;
    const what = isFed
      ? "Suspension points"
      : luminaire.suspensions === undefined
        ? "Feed and suspension points"
        : "Feed";
    const stands = isFed
      ? `${hung.points.length} assumed`
      : `the box is assumed ${off} from the middle, at the first suspension point`;
    return [
      {
        tags: [tag],
        words: `${what} not stated: ${stands}. Confirm before any hole is cut.`,
        field: ofLuminaire(isFed ? "suspensions" : "feed")(box),
        missing: (["feed", "suspensions"] as const)
          .filter((key) => luminaire[key] === undefined)
          .map((key) => ofLuminaire(key)(box)),
      },
    ];
  });
}

/** Holes that would be drilled beside a stated body: the points of suspension of each, and its feed. */
function besideHolds(boxes: readonly SetOutBox[], length: HoldWords["length"]): Hold[] {
  return boxes.flatMap((box): Hold[] => {
    if (box.luminaire.body === undefined) return [];
    const beside = pointsBeside(box.luminaire, BRACKET);
    return (["suspensions", "feed"] as const).flatMap((key): Hold[] => {
      const found = beside.filter((each) => each.key === key);
      if (found.length === 0) return [];
      const by = length(Math.max(...found.map((each) => each.by)));
      const [lie, they] = key === "feed" ? ["The feed lies", "it"] : ["Suspension points lie up to", "they"];
      const exchanged = found.every(({ isExchanged }) => isExchanged)
        ? `: with x and y exchanged ${they} would lie on it`
        : "";
      return [
        {
          tags: [box.tag],
          words: `${lie} ${by} beside the body${exchanged}. Confirm before any hole is cut.`,
          field: ofLuminaire(key)(box),
        },
      ];
    });
  });
}

/** What several boxes share is said once. */
function grouped(found: readonly Hold[]): Hold[] {
  const byWords = new Map<string, Hold>();
  for (const each of found) {
    const before = byWords.get(each.words);
    const tags = [...new Set([...(before?.tags ?? []), ...each.tags])];
    byWords.set(each.words, { ...(before ?? each), tags });
  }
  return [...byWords.values()];
}
