/**
 * What the electrician and the meter see of an arrangement: power by layer and circuit, energy a year, dimmers, colour
 * temperatures side by side, weight on the boxes.
 *
 *   kWh a year = W as dimmed · hours a day · 365 / 1000
 *
 * Information, not a design of the wiring: local codes and a licensed electrician decide. Limits named here are
 * common practice in the United States unless a source stands beside them.
 */

import { layerPower } from "../assessment/energy.ts";
import { quoted } from "../diagnostics/printable.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { Layer, LayerRole, Scene } from "../scene/scene.ts";
import { isDigital } from "./digital-control.ts";
import { apparentPower, type SwitchingLeg, switchingLegs } from "./switching.ts";

/** 50 lb: what a ceiling box must carry; heavier luminaires are held apart from it (US codes, read in summaries). */
export const BOX_LIMIT = 22.68;
/** Layers seen together whose colour temperatures differ by this much are seen to differ (K); trade advice, read. */
export const CCT_DIFFERENCE = 300;
/** The least load that many older dimmers need (W), 20 to 40; trade advice, read. */
const OLD_DIMMER_LEAST = [20, 40] as const;
const DAYS = 365;

export interface LayerLoad {
  readonly layer: string;
  readonly role: LayerRole;
  readonly circuit?: string;
  readonly luminaires: number;
  /** As fitted at full output, as dimmed, and as marked on the luminaires where they are (W). */
  readonly fittedWatts: number;
  readonly drawnWatts: number;
  readonly markedWatts: number;
  /** Whether any of them says what power is marked on it; what is fitted is no mark. */
  readonly isMarked: boolean;
  /** Luminaires that do not state their power: all figures are then least ones. */
  readonly unknown: number;
  /** Apparent power at full output (VA), and luminaires that leave out their power factor: with any it is a least one. */
  readonly voltAmperes: number;
  readonly withoutFactor: number;
  /** Small letter on the plan, and from how many places it is switched. */
  readonly leg: string;
  readonly switchedFrom?: number;
  readonly hoursPerDay?: number;
  readonly kilowattHoursPerYear?: number;
  readonly dimmer?: DimmerCheck;
}

export interface DimmerCheck {
  readonly name?: string;
  readonly outcome: "within" | "below its least load" | "above its greatest load" | "not known";
  /** What of the dimmer the outcome rests on, first what it is settled by; none where it is within its load or no power is known. */
  readonly keys: readonly ("minimumWatts" | "maximumWatts")[];
  /** For people. */
  readonly words: string;
}

export interface CircuitLoad {
  readonly circuit: string;
  readonly layers: readonly string[];
  readonly fittedWatts: number;
  readonly drawnWatts: number;
  readonly markedWatts: number;
}

export interface LoadReport {
  readonly layers: readonly LayerLoad[];
  readonly circuits: readonly CircuitLoad[];
  readonly fittedWatts: number;
  readonly drawnWatts: number;
  readonly markedWatts: number;
  readonly unknown: number;
  readonly wattsPerSquareMetre: number;
  /** Of the layers that state their hours; undefined when none does. */
  readonly kilowattHoursPerYear?: number;
  readonly colourTemperature: {
    readonly low?: number;
    readonly high?: number;
    /** Whether layers seen together differ by 300 K or more. */
    readonly mixed: boolean;
    readonly layers: readonly { readonly layer: string; readonly cct: number }[];
  };
  readonly heavy: readonly { readonly luminaire: string; readonly weight: number }[];
  readonly weightUnknown: readonly string[];
  /** Remarks in words, the weightiest first; empty when there is nothing to look after. */
  readonly remarks: readonly string[];
}

export function loadReport(scene: Scene): LoadReport {
  const layers = switchingLegs(scene.layers).map(layerLoad);
  const names = [...new Set(layers.flatMap(({ circuit }) => circuit ?? []))];
  const circuits = names.map((circuit): CircuitLoad => {
    const own = layers.filter((layer) => layer.circuit === circuit);
    return { circuit, layers: own.map(({ layer }) => layer), ...sums(own) };
  });
  const area = scene.room.length * scene.room.width;
  const hours = layers.flatMap(({ kilowattHoursPerYear }) => kilowattHoursPerYear ?? []);
  const total = sums(layers);
  const report = {
    layers,
    circuits,
    ...total,
    unknown: layers.reduce((sum, { unknown }) => sum + unknown, 0),
    wattsPerSquareMetre: area > 0 ? total.drawnWatts / area : 0,
    ...(hours.length === 0 ? {} : { kilowattHoursPerYear: hours.reduce((sum, kWh) => sum + kWh, 0) }),
    colourTemperature: colourTemperatures(scene.layers),
    ...weights(scene.layers),
  };
  return { ...report, remarks: remarksOf(report) };
}

function layerLoad({ leg, layer }: SwitchingLeg): LayerLoad {
  const { name, role, circuit, hours, luminaires, switches } = layer;
  const { voltAmperes, withoutFactor } = apparentPower(layer);
  const { watts: drawnWatts, unknown } = layerPower(layer);
  const fittedWatts = luminaires.reduce((sum, { luminaire }) => sum + (luminaire.watts ?? 0), 0);
  const markedWatts = luminaires.reduce(
    (sum, { luminaire }) => sum + (luminaire.markedWatts ?? luminaire.watts ?? 0),
    0,
  );
  const dimmer = dimmerCheck(layer, fittedWatts, markedWatts, unknown);
  return {
    layer: name,
    role,
    ...(circuit === undefined ? {} : { circuit }),
    luminaires: luminaires.length,
    fittedWatts,
    drawnWatts,
    markedWatts,
    isMarked: luminaires.some(({ luminaire }) => luminaire.markedWatts !== undefined),
    unknown,
    voltAmperes,
    withoutFactor,
    leg,
    ...(switches === undefined ? {} : { switchedFrom: switches.length }),
    ...(hours === undefined
      ? {}
      : { hoursPerDay: hours, kilowattHoursPerYear: (drawnWatts * hours * DAYS) / 1000 }),
    ...(dimmer === undefined ? {} : { dimmer }),
  };
}

/** A dimmer must carry the greatest load that may be fitted, and be loaded enough to work steadily. */
function dimmerCheck(layer: Layer, fitted: number, marked: number, unknown: number): DimmerCheck | undefined {
  const { dimmer, luminaires } = layer;
  if (dimmer === undefined) return undefined;
  const { name, minimumWatts, maximumWatts } = dimmer;
  const about = name === undefined ? {} : { name };
  const watts = (value: number) => `${round(value)} W`;
  if (unknown === luminaires.length)
    return { ...about, outcome: "not known", keys: [], words: "no luminaire on it states its power" };
  if (maximumWatts !== undefined && marked > maximumWatts)
    return {
      ...about,
      outcome: "above its greatest load",
      keys: ["maximumWatts"],
      words:
        fitted > maximumWatts
          ? `${watts(fitted)} fitted, ${watts(maximumWatts)} is the most it carries`
          : `${watts(marked)} marked on the luminaires, ${watts(maximumWatts)} is the most it carries, though only ${watts(fitted)} is fitted`,
    };
  if (minimumWatts !== undefined && unknown === 0 && fitted < minimumWatts)
    return {
      ...about,
      outcome: "below its least load",
      keys: ["minimumWatts"],
      words: `${watts(fitted)} fitted, ${watts(minimumWatts)} is the least it needs: it may flicker`,
    };
  if (isDigital(layer))
    return {
      ...about,
      outcome: "within",
      keys: [],
      words: `${watts(fitted)} fitted, set by digital control`,
    };
  const keys = loadsToState(dimmer, fitted);
  if (keys.length === 0)
    return { ...about, outcome: "within", keys, words: `${watts(fitted)} fitted, within its load` };
  const [low, high] = OLD_DIMMER_LEAST;
  const least = `many older dimmers need ${low} to ${high} W, its own least load is not given`;
  const greatest = maximumWatts === undefined;
  return {
    ...about,
    outcome: "not known",
    keys,
    words: `${watts(fitted)} fitted; ${
      keys.includes("minimumWatts")
        ? `${least}${greatest ? ", nor its greatest" : ""}`
        : "its greatest load is not given"
    }`,
  };
}

/** What is to be stated of a dimmer for what is fitted on it (W): its greatest load, and its least where an older one might need more. */
export function loadsToState(
  { minimumWatts, maximumWatts }: NonNullable<Layer["dimmer"]>,
  fitted: number,
): DimmerCheck["keys"] {
  return [
    ...(maximumWatts === undefined ? (["maximumWatts"] as const) : []),
    ...(minimumWatts === undefined && fitted < OLD_DIMMER_LEAST[1] ? (["minimumWatts"] as const) : []),
  ];
}

function sums(layers: readonly LayerLoad[]): Pick<CircuitLoad, "fittedWatts" | "drawnWatts" | "markedWatts"> {
  return layers.reduce(
    (sum, layer) => ({
      fittedWatts: sum.fittedWatts + layer.fittedWatts,
      drawnWatts: sum.drawnWatts + layer.drawnWatts,
      markedWatts: sum.markedWatts + layer.markedWatts,
    }),
    { fittedWatts: 0, drawnWatts: 0, markedWatts: 0 },
  );
}

function colourTemperatures(layers: readonly Layer[]): LoadReport["colourTemperature"] {
  const models = layers.flatMap(({ name, luminaires }) =>
    [...new Set(luminaires.flatMap(({ luminaire }) => luminaire.cct ?? []))].map((cct) => ({
      layer: name,
      cct,
    })),
  );
  if (models.length === 0) return { mixed: false, layers: [] };
  const values = models.map(({ cct }) => cct);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return { low, high, mixed: high - low >= CCT_DIFFERENCE, layers: models };
}

function weights(layers: readonly Layer[]): Pick<LoadReport, "heavy" | "weightUnknown"> {
  const hung = new Set<Luminaire>(
    layers.flatMap(({ role, luminaires }) => (role === "recessed" ? [] : luminaires.map((p) => p.luminaire))),
  );
  const all = [...hung];
  return {
    heavy: all.flatMap(({ name, weight }) =>
      weight !== undefined && weight > BOX_LIMIT ? [{ luminaire: name, weight }] : [],
    ),
    weightUnknown: all.filter(({ weight }) => weight === undefined).map(({ name }) => name),
  };
}

function remarksOf({ layers, colourTemperature, heavy }: Omit<LoadReport, "remarks">): string[] {
  const { mixed, low, high } = colourTemperature;
  return [
    ...heavy.map(
      ({ luminaire, weight }) =>
        `${quoted(luminaire)} weighs ${round(weight)} kg, more than the 50 lb (22.7 kg) a ceiling box carries: it needs a box listed for it, or its own support.`,
    ),
    ...layers.flatMap(({ layer, dimmer }) =>
      dimmer === undefined || dimmer.outcome === "within" ? [] : [`Dimmer of ${layer}: ${dimmer.words}.`],
    ),
    ...(mixed
      ? [
          `White differs from ${low} to ${high} K between layers seen together; ${CCT_DIFFERENCE} K is seen. Try both side by side.`,
        ]
      : []),
  ];
}

const round = (value: number): number => Number(value.toPrecision(3));
