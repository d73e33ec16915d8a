/** Load by circuit: what hangs on it, watts at full output, and whether its dimmer suits them. */

import type { Layer, Scene } from "../../scene/scene.ts";

export interface CircuitRow {
  /** As the study names it; undefined when no circuit was given. */
  readonly circuit: string | undefined;
  readonly layers: readonly Layer[];
  readonly luminaires: number;
  /** W at full output, of those that state theirs. */
  readonly watts: number;
  /** Luminaires whose power nobody stated. */
  readonly unknown: number;
  readonly dimmers: readonly string[];
  /** What is wrong between load and dimmer, in words. */
  readonly faults: readonly string[];
}

/** Circuits in order of first use; layers without one share a row. */
export function circuits(scene: Scene): CircuitRow[] {
  const groups = new Map<string | undefined, Layer[]>();
  for (const layer of scene.layers) {
    if (layer.luminaires.length === 0) continue;
    const group = groups.get(layer.circuit);
    if (group === undefined) groups.set(layer.circuit, [layer]);
    else group.push(layer);
  }
  return [...groups].map(([circuit, layers]) => {
    const all = layers.flatMap((layer) => layer.luminaires.map(({ luminaire }) => luminaire));
    const loads = layers.map(({ luminaires }) =>
      luminaires.reduce((sum, { luminaire }) => sum + (luminaire.watts ?? 0), 0),
    );
    return {
      circuit,
      layers,
      luminaires: all.length,
      watts: loads.reduce((sum, load) => sum + load, 0),
      unknown: all.filter(({ watts }) => watts === undefined).length,
      dimmers: layers.map(dimmerWords),
      faults: layers.flatMap((layer, i) => dimmerFaults(layer, loads[i])),
    };
  });
}

function dimmerWords({ dimmer }: Layer): string {
  if (dimmer === undefined) return "not stated";
  const { name, minimumWatts, maximumWatts } = dimmer;
  const range =
    minimumWatts === undefined && maximumWatts === undefined
      ? ""
      : ` ${minimumWatts ?? 0} to ${maximumWatts ?? "?"} W`;
  return `${name ?? "dimmer"}${range}`;
}

function dimmerFaults({ dimmer, name }: Layer, load: number): string[] {
  const faults: string[] = [];
  if (dimmer?.minimumWatts !== undefined && load < dimmer.minimumWatts)
    faults.push(
      `${name}: ${load.toFixed(0)} W is under the dimmer's least load of ${dimmer.minimumWatts} W.`,
    );
  if (dimmer?.maximumWatts !== undefined && load > dimmer.maximumWatts)
    faults.push(`${name}: ${load.toFixed(0)} W is over the dimmer's most of ${dimmer.maximumWatts} W.`);
  return faults;
}
