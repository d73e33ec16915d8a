/** Edits as the controls of the viewer make them, at random: numbers of fields, items moved, options, settings, zones, bodies, shapes, another study. */
import { BODY_KINDS, newBody, placeBody } from "../../site/edits/bodies.ts";
import { moveItem } from "../../site/edits/kitchen-moves.ts";
import { makeRow, swapLuminaire } from "../../site/edits/luminaires.ts";
import type { NamedEdit } from "../../site/edits/named-edit.ts";
import { addOption, copyOption, removeOption } from "../../site/edits/options.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { moveInside, outsideRoom } from "../../site/edits/room-contents.ts";
import { addSetting, levelsBy, removeSetting } from "../../site/edits/settings.ts";
import { addLuminaireToStudy, renameLuminaire } from "../../site/edits/study-luminaires.ts";
import { shapeTop, sizeTop } from "../../site/edits/top-shape.ts";
import { addZone, stretchZones } from "../../site/edits/zones.ts";
import type { Json, Path } from "../../site/store/pointer.ts";

type Random = () => number;

/** Lists grow no longer than a person would let them. */
const MOST = 6;
const NOTHING: NamedEdit = { name: "nothing", edits: [] };

/** An edit of the study, or another document in its place. */
export function documentEdits(
  study: RawStudy,
  random: Random,
  start: RawStudy,
): NamedEdit | { readonly name: string; readonly document: RawStudy } {
  const whole = (count: number): number => Math.floor(random() * count);
  const one = <T>(list: readonly T[]): T => list[whole(list.length)];
  const between = (from: number, to: number): number => Number((from + (to - from) * random()).toFixed(4));
  const set = (path: Path, value: Json | undefined): NamedEdit => ({
    name: `set ${path.at(-1)}`,
    edits: [{ path, value }],
  });
  const { arrangements, bodies = [], people = [], luminaires = {}, island } = study;
  const zones = island?.zones ?? [];
  const option = whole(arrangements.length);
  const { layers, settings = [] } = arrangements[option];
  const layer = whole(layers.length);
  const layerPath: Path = ["arrangements", option, "layers", layer];
  const names = Object.keys(luminaires);
  const by = [between(-0.2, 0.2), between(-0.2, 0.2)] as const;

  const edits: (() => ReturnType<typeof documentEdits>)[] = [
    () => (layers.length === 0 ? NOTHING : set([...layerPath, "dim"], between(0, 1))),
    () =>
      layers[layer]?.row === undefined ? NOTHING : set([...layerPath, "row", "clearance"], between(0.5, 0.9)),
    () => (layers[layer]?.row === undefined ? NOTHING : set([...layerPath, "row", "count"], 1 + whole(4))),
    () => (layers.length === 0 ? NOTHING : makeRow(study, option, layer, 0.8)),
    () =>
      layers.length === 0 || names.length === 0 ? NOTHING : swapLuminaire(study, option, layer, one(names)),
    () => set(["room", one(["length", "width"])], between(4.5, 7)),
    () => set(["room", "ceilingHeight"], between(2.4, 3)),
    () => set(["room", "reflectance", one(["ceiling", "floor"])], between(0.1, 0.9)),
    () => set(["title"], one(["a", "b", "the kitchen"])),
    () => set(["display", "length"], one(["mm", "m", "ft-in"])),
    () => set(["island", "height"], between(0.85, 1)),
    () => set(["maintenance"], between(0.7, 1)),
    () => ({ name: "size", edits: sizeTop(study, whole(2) as 0 | 1, between(0.9, 2.4)) }),
    () => shapeTop(study, one(["rectangle", "rectangle", "L", "T", "U"])),
    () => (zones.length < MOST ? addZone(study) : set(["island", "zones", whole(zones.length)], undefined)),
    () => stretchZones(study) ?? NOTHING,
    () =>
      zones.length === 0
        ? NOTHING
        : set(["island", "zones", whole(zones.length), "target"], one(["eating", "washing", null])),
    () =>
      bodies.length < MOST
        ? newBody(study, one(BODY_KINDS))
        : set(["bodies", whole(bodies.length)], undefined),
    () =>
      bodies.length === 0
        ? NOTHING
        : { name: "place", edits: placeBody(study, whole(bodies.length), whole(2) as 0 | 1, between(0, 3)) },
    () =>
      bodies.length === 0
        ? NOTHING
        : (moveItem(study, { kind: "body", index: whole(bodies.length) }, by) ?? NOTHING),
    () => moveItem(study, { kind: "island", index: 0 }, by) ?? NOTHING,
    () =>
      zones.length === 0
        ? NOTHING
        : (moveItem(study, { kind: "zone", index: whole(zones.length) }, by) ?? NOTHING),
    () =>
      people.length === 0
        ? NOTHING
        : (moveItem(study, { kind: "person", index: whole(people.length) }, by) ?? NOTHING),
    () => moveInside(outsideRoom(study)),
    () => (arrangements.length < MOST ? copyOption(study, option) : removeOption(study, option)),
    () =>
      arrangements.length < MOST ? addOption(study, { name: "option", layers }) : removeOption(study, option),
    () =>
      settings.length < MOST
        ? addSetting(study, option)
        : removeSetting(study, option, whole(settings.length)),
    () =>
      settings.length === 0
        ? NOTHING
        : levelsBy(settings[whole(settings.length)], option, whole(settings.length), "given", {
            [layers[0]?.name ?? "none"]: between(0, 1),
          }),
    () =>
      names.length < MOST
        ? addLuminaireToStudy(study, {
            name: "lamp",
            luminaire: { beam: { flux: between(200, 2000), angle: between(20, 120) } },
          })
        : NOTHING,
    () => (names.length === 0 ? NOTHING : renameLuminaire(study, one(names), `lamp ${whole(1000)}`)),
    () => (random() < 0.1 ? { name: "open", document: start } : NOTHING),
  ];
  return one(edits)();
}
