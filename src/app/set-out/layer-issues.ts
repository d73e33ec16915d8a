/** What nobody has said of how a layer is wired, or what its dimmer does not suit. Each layer is held by itself: it is answered by itself. */

import { isDigital } from "../../advice/digital-control.ts";
import { type LoadReport, loadsToState } from "../../advice/load.ts";
import { printable } from "../../diagnostics/printable.ts";
import type { Layer, Scene } from "../../scene/scene.ts";
import type { Field, Hold } from "./hold.ts";
import type { SetOutBox } from "./set-out.ts";

const tagsOf = (boxes: readonly SetOutBox[], index: number): string[] =>
  boxes.flatMap(({ layer, tag }) => (layer === index ? [tag] : []));

/**
 * Circuit, dimmer and switches. A dimmer's loads are asked with the dimmer, and where it or the switch stands: a dimmer is the first of
 * the places a layer is switched from.
 */
export function layerHolds(scene: Scene, boxes: readonly SetOutBox[], { layers }: LoadReport): Hold[] {
  return scene.layers.flatMap((layer, index): Hold[] => {
    if (layer.luminaires.length === 0) return [];
    const { circuit, dimmer, switches } = layer;
    const tags = tagsOf(boxes, index);
    const name = printable(layer.name, 30);
    const of = (...keys: Field): Field => ["layers", index, ...keys];
    const fitted = layers.find((each) => each.layer === layer.name)?.fittedWatts ?? 0;
    const loads = loadsToState(isDigital(layer) ? { minimumWatts: 0 } : {}, fitted);
    const ofDimmer = loads.map((key) => of("dimmer", key));
    const asked = `greatest${loads.includes("minimumWatts") ? " and least" : ""} load`;
    const held: Hold[] = [];
    const hold = (stem: string, more: string, missing: readonly Field[], enough?: Field): void => {
      held.push({
        tags,
        words: `${stem} ${name}${more}.`,
        field: missing[0],
        missing,
        ...(enough === undefined ? {} : { enough }),
        shared: { stem, name },
      });
    };
    if (circuit === undefined) hold("No circuit named for", "", [of("circuit")]);
    if (dimmer === undefined) {
      const isDimmer = isDimmed(scene, layer);
      if (switches === undefined) {
        const ways = isDimmer
          ? `it is dimmed: ${asked} of the dimmer, and its place`
          : `dimmer: ${asked}, and its place; switch: its place`;
        const place = of("switches");
        hold(
          "No dimmer or switch stated for",
          ` (${ways})`,
          [...ofDimmer, place],
          isDimmer ? undefined : place,
        );
      } else if (isDimmer) hold("No dimmer stated for what is dimmed:", ` (${asked})`, ofDimmer);
    } else if (switches === undefined) hold("Place of the dimmer not stated for", "", [of("switches")]);
    const places = (switches ?? []).flatMap(({ assumed }, i) =>
      assumed === true ? [{ isDimmer: i === 0 && dimmer !== undefined, at: of("switches", i, "at") }] : [],
    );
    for (const [what, isDimmer] of [
      ["the dimmer", true],
      ["a switch", false],
    ] as const) {
      const assumed = places.filter((each) => each.isDimmer === isDimmer).map(({ at }) => at);
      if (assumed.length > 0) hold(`Place of ${what} assumed for`, "", assumed);
    }
    return held;
  });
}

/** Whether a layer works at a part of its light, by itself or in a setting. */
export function isDimmed({ layers, settings = [] }: Scene, layer: Layer): boolean {
  const isPart = (level: number): boolean => level > 0 && level < 1;
  return (
    isPart(layer.dim) ||
    settings.some(({ dims, find }) => find !== undefined || isPart(dims[layers.indexOf(layer)]))
  );
}

/** Whether a layer has a switch, and is dimmed nowhere: it needs no dimmer. */
export function isPlainlySwitched(scene: Scene, layer: Layer): boolean {
  return layer.dimmer === undefined && layer.switches !== undefined && !isDimmed(scene, layer);
}

/** Dimmers that their load does not suit, or whose load is not known. */
export function dimmerHolds(scene: Scene, boxes: readonly SetOutBox[], { layers }: LoadReport): Hold[] {
  return layers.flatMap(({ layer: name, dimmer }): Hold[] => {
    if (dimmer === undefined || dimmer.outcome === "within") return [];
    const { keys, words } = dimmer;
    const index = scene.layers.findIndex((layer) => layer.name === name);
    const unpowered = keys.length === 0 ? scene.layers[index].luminaires.at(0) : undefined;
    const fields =
      unpowered === undefined
        ? keys.map((key): Field => ["layers", index, "dimmer", key])
        : [["luminaires", unpowered.luminaire.name, "watts"] as const];
    return [
      {
        tags: tagsOf(boxes, index),
        words: `Dimmer of ${printable(name, 30)}: ${words}.`,
        field: fields[0],
        ...(dimmer.outcome === "not known" ? { missing: fields } : {}),
      },
    ];
  });
}
