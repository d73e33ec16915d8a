/**
 * Settings of an arrangement: named levels of its layers, each with what is asked of the zones then. A setting changes weights
 * only, E = Σ E_layer · dim, so no light is calculated for it.
 */

import { pathTo } from "../diagnostics/json-path.ts";
import type { Ledger } from "../diagnostics/ledger.ts";
import type { SettingDocument } from "../study/arrangement-schema.ts";
import type { CalculationPlane } from "./calculation-plane.ts";
import type { NamedTarget } from "./named-targets.ts";
import type { Layer, LightingSetting, Scene, Zone } from "./scene.ts";

interface SettingSurroundings {
  readonly layers: readonly Pick<Layer, "name" | "dim">[];
  /** Zones, and planes that are judged like them. */
  readonly zones: readonly Pick<Zone, "name">[];
  /** Of every layer in the study, also of one that could not be placed. */
  readonly layerNames: readonly string[];
}

/** @param path of the list in the study */
export function settingsOf(
  documents: readonly SettingDocument[],
  path: string,
  { layers, zones, layerNames }: SettingSurroundings,
  ledger: Ledger,
): LightingSetting[] {
  const zoneNames = zones.map(({ name }) => name);
  const names = documents.map(({ name }) => name);
  return documents.map(({ name, dim, zones: targets, find }, i): LightingSetting => {
    const at = `${path}/${i}`;
    ledger.named("setting", names, i, `${at}/name`);
    if (dim !== undefined && find !== undefined)
      ledger.error("setting-levels", at, "Levels are given and to be found.", '"dim" or "find"', "both");
    const named = dim ?? {};
    for (const layer of Object.keys(named))
      if (!layerNames.includes(layer))
        ledger.unknown("layer", pathTo(`${at}/dim`, layer), layer, layerNames, undefined, "setting-layer");
    for (const zone of Object.keys(targets ?? {}))
      if (!zoneNames.includes(zone))
        ledger.unknown("zone", pathTo(`${at}/zones`, zone), zone, zoneNames, undefined, "setting-zone");
    const unsaid = find === undefined && dim === undefined && targets !== undefined;
    if (unsaid) ledger.note(`${at}/find`, "least power", "no levels given; the least power that meets");
    const sought = unsaid ? "least power" : find;
    return {
      name,
      dims: layers.map((layer) => (Object.hasOwn(named, layer.name) ? named[layer.name] : layer.dim)),
      targets: new Map(Object.entries(targets ?? {})),
      ...(sought === undefined ? {} : { find: sought }),
    };
  });
}

/** The targets that settings name, with their places in the study. @param path of the list */
export function targetsOfSettings(
  documents: readonly SettingDocument[] | undefined,
  path: string,
): NamedTarget[] {
  return (documents ?? []).flatMap(({ zones }, i) =>
    Object.entries(zones ?? {}).flatMap(([zone, target]) =>
      target === null ? [] : [{ target, path: pathTo(`${path}/${i}/zones`, zone) }],
    ),
  );
}

/** The scene as it is dimmed and judged in a setting. */
export function withSetting(scene: Scene, { dims, targets }: LightingSetting): Scene {
  const { settings: _, ...plain } = scene;
  return {
    ...plain,
    layers: scene.layers.map((layer, l) => ({ ...layer, dim: dims[l] })),
    zones: scene.zones.map((zone): Zone => askedOf(zone, targets.get(zone.name))),
    planes: scene.planes.map((plane) =>
      plane.target === undefined ? plane : unaskedOf(askedOf(plane, targets.get(plane.name))),
    ),
  };
}

/** Still looked at where nothing is asked of it now, as zones are. */
function unaskedOf(plane: CalculationPlane): CalculationPlane {
  return plane.target === undefined ? { ...plane, unasked: true } : plane;
}

/** With another target; null asks nothing. */
function askedOf<T extends { readonly target?: string }>(judged: T, target: string | null | undefined): T {
  if (target === undefined) return judged;
  const { target: _, ...rest } = judged;
  return (target === null ? rest : { ...rest, target }) as T;
}
