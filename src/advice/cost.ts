/**
 * What an option costs: to buy, in lamps, and in electricity.
 *
 *   price     = Σ price of each luminaire
 *   lamps     = Σ price of its lamps · (⌈hours / life⌉ − 1)     each time rated life ends before the years do
 *   energy    = Σ W as dimmed · hours / 1000 · price of a kilowatt-hour
 *   hours     = hours of use a day · 365 · 10
 *
 * Known error: the levels and the prices of today for all ten years, no interest, lamps last for their rated life exactly. What the
 * study does not state is not guessed: the figure that needs it is absent, and what is missing is named.
 */

import { layerPower } from "../assessment/energy.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { sumIfAll } from "../numerics/known-sum.ts";
import type { Layer, Scene } from "../scene/scene.ts";

export const COST_YEARS = 10;
const DAYS = 365;

/** What the study would have to state. */
export type CostGap =
  | { readonly kind: "price" | "lamp price" | "lamp life" | "power"; readonly luminaire: string }
  | { readonly kind: "hours"; readonly layer: string }
  | { readonly kind: "tariff" };

/** In the study's currency, over {@link COST_YEARS} years; absent where something of it is not stated. */
export interface CostFigures {
  readonly price?: number;
  readonly lamps?: number;
  readonly energy?: number;
  readonly total?: number;
}

export interface CostReport extends CostFigures {
  readonly years: number;
  readonly currency?: string;
  readonly perKilowattHour?: number;
  readonly layers: readonly ({ readonly layer: string } & CostFigures)[];
  readonly missing: readonly CostGap[];
}

export function costReport({ layers: all, tariff }: Pick<Scene, "layers" | "tariff">): CostReport {
  const hung = all.filter(({ luminaires }) => luminaires.length > 0);
  const layers = hung.map((layer) => ({ layer: layer.name, ...layerCost(layer, tariff?.perKilowattHour) }));
  const { currency, perKilowattHour } = tariff ?? {};
  return {
    years: COST_YEARS,
    ...(currency === undefined ? {} : { currency }),
    ...(perKilowattHour === undefined ? {} : { perKilowattHour }),
    layers,
    ...figures({
      price: sumIfAll(layers.map(({ price }) => price)),
      lamps: sumIfAll(layers.map(({ lamps }) => lamps)),
      energy: sumIfAll(layers.map(({ energy }) => energy)),
    }),
    missing: gaps(hung, perKilowattHour),
  };
}

/** Whether the study says anything of costs: where it does not, nobody asked. */
export function isCostStated({ perKilowattHour, layers }: CostReport): boolean {
  return (
    perKilowattHour !== undefined ||
    layers.some(({ price, lamps }) => price !== undefined || lamps !== undefined)
  );
}

function layerCost(layer: Layer, perKilowattHour: number | undefined): CostFigures {
  const kinds = layer.luminaires.map(({ luminaire }) => luminaire);
  const hours = layer.hours === undefined ? undefined : layer.hours * DAYS * COST_YEARS;
  const { watts, unknown } = layerPower(layer);
  return figures({
    price: sumIfAll(kinds.map(({ price }) => price)),
    lamps: sumIfAll(kinds.map((luminaire) => lampCost(luminaire, hours))),
    energy:
      hours === undefined || perKilowattHour === undefined || unknown > 0
        ? undefined
        : ((watts * hours) / 1000) * perKilowattHour,
  });
}

/** Lamps that are replaced before the years are over. */
function lampCost({ lampPrice, lampLife }: Luminaire, hours: number | undefined): number | undefined {
  if (hours === undefined || lampLife === undefined) return undefined;
  const replacements = Math.max(0, Math.ceil(hours / lampLife - 1e-9) - 1);
  return replacements === 0 ? 0 : lampPrice === undefined ? undefined : replacements * lampPrice;
}

/** With their total, where all of them are known. */
function figures({ price, lamps, energy }: Omit<CostFigures, "total">): CostFigures {
  const total = sumIfAll([price, lamps, energy]);
  return {
    ...(price === undefined ? {} : { price }),
    ...(lamps === undefined ? {} : { lamps }),
    ...(energy === undefined ? {} : { energy }),
    ...(total === undefined ? {} : { total }),
  };
}

/** Each once, the luminaires' first. */
function gaps(layers: readonly Layer[], perKilowattHour: number | undefined): CostGap[] {
  const all = layers.flatMap((layer) => {
    const hours = layer.hours === undefined ? undefined : layer.hours * DAYS * COST_YEARS;
    return layer.luminaires.flatMap(({ luminaire }): CostGap[] => {
      const { name, price, watts, lampLife } = luminaire;
      const isPriceNeeded =
        lampLife !== undefined && hours !== undefined && lampCost(luminaire, hours) === undefined;
      return [
        ...(price === undefined ? [{ kind: "price", luminaire: name } as const] : []),
        ...(lampLife === undefined ? [{ kind: "lamp life", luminaire: name } as const] : []),
        ...(isPriceNeeded ? [{ kind: "lamp price", luminaire: name } as const] : []),
        ...(watts === undefined ? [{ kind: "power", luminaire: name } as const] : []),
      ];
    });
  });
  const named = new Map(all.map((gap) => [JSON.stringify(gap), gap]));
  return [
    ...named.values(),
    ...layers.flatMap(({ name, hours }): CostGap[] =>
      hours === undefined ? [{ kind: "hours", layer: name }] : [],
    ),
    ...(perKilowattHour === undefined && layers.length > 0 ? [{ kind: "tariff" } as const] : []),
  ];
}
