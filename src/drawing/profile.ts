/**
 * Illuminance along the island: what a meter slid over the top would read, in total and by role of layer.
 */

import { isoluxField, onGrid, readIsolux } from "../app/isolux-field.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";
import { gridMetres } from "../scene/grid-metres.ts";
import type { LayerRole, Zone } from "../scene/scene.ts";
import type { Target } from "../scene/target.ts";
import type { IslandAxes } from "./island-axes.ts";

export interface ProfileSeries {
  readonly name: string;
  readonly role: LayerRole | "total";
  /** lx at each sample; NaN off the top. */
  readonly values: Float64Array;
}

export interface Profile {
  /** m along the island */
  readonly along: Float64Array;
  /** m across, the line the profile runs on */
  readonly across: number;
  readonly series: readonly ProfileSeries[];
}

export interface TargetLine {
  readonly zone: string;
  readonly from: number;
  readonly to: number;
  /** lx */
  readonly value: number;
}

/** Light of one plane by layer, after dimming and maintenance (lx). */
interface LightByLayer {
  readonly illuminance: Float64Array;
  readonly layers: readonly {
    readonly layer: string;
    readonly role: LayerRole;
    readonly direct: Float64Array;
    readonly interreflected: Float64Array;
  }[];
}

/** Light at the cells of a grid, and on its margin where it was calculated. */
export interface LayeredLight extends LightByLayer {
  readonly margin?: LightByLayer;
}

const ROLE_NAMES: Readonly<Record<LayerRole, string>> = {
  pendant: "pendants",
  recessed: "recessed",
  accent: "accents",
  other: "other",
};

/** Letters of a layer's name that stand at the end of its line. */
const LONGEST_NAME = 14;

/** What the layers of a role are called together: as the study calls it where there is one, by the role where there are several. */
export function roleName(role: LayerRole, layers: readonly { readonly layer: string }[]): string {
  const [only] = layers;
  return layers.length === 1 && only.layer.length <= LONGEST_NAME ? only.layer : ROLE_NAMES[role];
}

/** Places over the length of the top, less one. */
const STEPS = 96;

/** Samples light on a grid along the island at `across` (m). */
export function profileAlong(
  grid: PlaneGrid,
  light: LayeredLight,
  axes: IslandAxes,
  across = axes.width / 2,
): Profile {
  const along = Float64Array.from({ length: STEPS + 1 }, (_, i) => (axes.length * i) / STEPS);
  const toGrid = gridMetres(grid);
  const places = Array.from(along, (a) => toGrid(axes.toRoom([a, across])));
  // Read from the field that is drawn, so that profile and plan show the same light.
  const read = (part: (light: LightByLayer) => Float64Array): Float64Array => {
    const field = isoluxField(grid, part(light), light.margin && part(light.margin));
    return Float64Array.from(places, (place) =>
      onGrid(grid, ...place) ? readIsolux(field, ...place) : Number.NaN,
    );
  };
  const series: ProfileSeries[] = [
    { name: "total", role: "total", values: read(({ illuminance }) => illuminance) },
  ];
  for (const role of ["pendant", "recessed", "accent", "other"] as const) {
    const layers = light.layers.filter((layer) => layer.role === role);
    if (layers.length === 0) continue;
    series.push({ name: roleName(role, layers), role, values: read((each) => ofRole(each, role)) });
  }
  return { along, across, series };
}

/** Light of all layers of a role together (lx). */
export function ofRole({ illuminance, layers }: LightByLayer, role: LayerRole): Float64Array {
  const sum = new Float64Array(illuminance.length);
  for (const layer of layers)
    if (layer.role === role)
      for (let i = 0; i < sum.length; i++) sum[i] += layer.direct[i] + layer.interreflected[i];
  return sum;
}

/** Target lines of the zones, over each zone's extent along the island. */
export function targetLines(zones: readonly Zone[], targets: ReadonlyMap<string, Target>): TargetLine[] {
  return zones.flatMap((zone) => {
    const target = zone.target === undefined ? undefined : targets.get(zone.target);
    const wanted = target?.requirements.find((r) => r.quantity === "illuminance");
    if (wanted === undefined) return [];
    const alongs = zone.outline.map((p) => p[0]);
    return [{ zone: zone.name, from: Math.min(...alongs), to: Math.max(...alongs), value: wanted.value }];
  });
}

/** Highest value a drawing of it has to hold (lx). */
export function highestOf(profile: Profile, targets: readonly TargetLine[]): number {
  let highest = 0;
  for (const v of profile.series[0].values) if (v > highest) highest = v;
  for (const t of targets) if (t.value > highest) highest = t.value;
  return highest;
}
