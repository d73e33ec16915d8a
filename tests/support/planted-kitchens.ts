/**
 * Five kitchens with faults planted in them: the readings come from the engine in a kitchen really built so (direct
 * light), with meter, lamps and places drawn from their stated bands.
 */
import type { SiteFault } from "../../src/design/verify/hypotheses.ts";
import { readingLight } from "../../src/design/verify/reading-light.ts";
import type { Reading } from "../../src/design/verify/readings.ts";
import { fitModel, type Verification, verify } from "../../src/design/verify/verify.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import { rotationOf } from "../../src/geometry/frame.ts";
import type { Vec2, Vec3 } from "../../src/geometry/vector.ts";
import type { PlacedLuminaire } from "../../src/luminaire/placed-luminaire.ts";
import { createRandom, type Random } from "../../src/numerics/random-sequence.ts";
import type { CalculationOptions } from "../../src/scene/calculation-options.ts";
import { islandToRoom } from "../../src/scene/island-frame.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { ISLAND, type Json, kitchen, resolved } from "./studies.ts";
import { normal } from "./uncertain-kitchen.ts";

export interface Plan {
  readonly name: string;
  readonly scene: Scene;
  readonly options: CalculationOptions;
  /** Columns of places along and across, as shares; which layers one after the other. */
  readonly along: readonly number[];
  readonly across: readonly number[];
  readonly lit: readonly (readonly number[])[];
}

export function plan(
  name: string,
  island: Json,
  layers: readonly Json[],
  more: Omit<Plan, "name" | "scene" | "options">,
): Plan {
  const study = resolved(
    kitchen({
      island: { ...ISLAND, ...island },
      luminaires: { cone: { beam: { flux: 800, angle: 60 } }, spot: { beam: { flux: 650, angle: 60 } } },
      arrangements: [{ name: "a", layers }],
      calculation: { interreflection: false },
    }),
  );
  return { name, scene: study.scenes[0], options: study.options, ...more };
}

export const row = (row: Json): Json => ({ name: "pendants", luminaire: "cone", row });
const ambient = { name: "ambient", luminaire: "spot", grid: { columns: 2, rows: 2, margin: 0.7 } };
const APART = [
  [1, 0],
  [0, 1],
];
export const FIVE = [0.08, 0.3, 0.5, 0.72, 0.95];
export const PLANS: readonly Plan[] = [
  plan("three off the middle", {}, [row({ count: 3, clearance: 0.8, offset: [0.15, 0.08] }), ambient], {
    along: FIVE,
    across: [0.2, 0.7],
    lit: APART,
  }),
  plan("two on a turned island", { turn: 20 }, [row({ count: 2, clearance: 0.75, offset: [-0.1, 0.1] })], {
    along: [0.1, 0.35, 0.6, 0.9],
    across: [0.15, 0.5, 0.8],
    lit: [[1]],
  }),
  plan(
    "four close",
    { length: 3 },
    [row({ count: 4, clearance: 0.7, spacing: 0.6, offset: [0.2, -0.1] }), ambient],
    {
      along: FIVE,
      across: [0.25, 0.75],
      lit: APART,
    },
  ),
  plan("three, read everywhere", { width: 0.9 }, [row({ count: 3, clearance: 0.9, offset: [0.1, 0.05] })], {
    along: [0.06, 0.2, 0.36, 0.5, 0.66, 0.8, 0.94],
    across: [0.2, 0.5, 0.8],
    lit: [[1]],
  }),
  plan(
    "two near one end",
    { length: 2 },
    [row({ count: 2, clearance: 0.8, spacing: 0.7, offset: [-0.25, 0.1] }), ambient],
    {
      along: FIVE,
      across: [0.3, 0.8],
      lit: APART,
    },
  ),
];

/** What is different on site. */
export interface Fault {
  readonly name: string;
  readonly kinds: readonly (SiteFault | "dead" | "swapped" | "hung wrong" | "moved")[];
  /** The lamp at fault, as index in the first layer; none for the row and the readings. */
  readonly lamp?: number;
  readonly hang?: (placed: PlacedLuminaire, index: number, scene: Scene, layer: number) => PlacedLuminaire;
  readonly gain?: (layer: number, index: number) => number;
  /** Where a reading is really taken, in the island's frame, against its columns. */
  readonly place?: (p: Vec2, scene: Scene) => Vec2;
  readonly write?: (readings: readonly Reading[]) => readonly Reading[];
}

const inIsland = ({ island }: Scene, [u, v]: Vec2): Vec3 => {
  const turn = island?.turn ?? 0;
  return [Math.cos(turn) * u - Math.sin(turn) * v, Math.sin(turn) * u + Math.cos(turn) * v, 0];
};
const shifted = (placed: PlacedLuminaire, by: Vec3): PlacedLuminaire => ({
  ...placed,
  frame: { ...placed.frame, origin: placed.frame.origin.map((c, a) => c + by[a]) as unknown as Vec3 },
});
export const rowBy =
  (u: number, v: number, z = 0): Fault["hang"] =>
  (placed, _, scene, layer) =>
    layer > 0 ? placed : shifted(shifted(placed, inIsland(scene, [u, v])), [0, 0, z]);
const lampBy =
  (lamp: number, u: number, v: number, z = 0): Fault["hang"] =>
  (placed, index, scene, layer) =>
    layer > 0 || index !== lamp ? placed : shifted(shifted(placed, inIsland(scene, [u, v])), [0, 0, z]);
const turnedRow =
  (degrees: number): Fault["hang"] =>
  (placed, _, scene, layer) => {
    if (layer > 0) return placed;
    const own = scene.layers[0].luminaires.map(({ frame }) => frame.origin);
    const middle = own.reduce(([x, y], o) => [x + o[0] / own.length, y + o[1] / own.length], [0, 0]);
    const [x, y, z] = placed.frame.origin;
    const turn = (degrees * Math.PI) / 180;
    const [dx, dy] = [x - middle[0], y - middle[1]];
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return {
      ...placed,
      frame: {
        origin: [middle[0] + c * dx - s * dy, middle[1] + s * dx + c * dy, z],
        rotation: rotationOf({ turn, tilt: 0, spin: 0 }),
      },
    };
  };
const times =
  (factor: number): Fault["write"] =>
  (readings) =>
    readings.map((reading) => ({ ...reading, illuminance: factor * reading.illuminance }));
export const lampGain =
  (lamp: number, factor: number): Fault["gain"] =>
  (layer, index) =>
    layer === 0 && index === lamp ? factor : 1;
const size = ({ island }: Scene): Vec2 => [island?.length ?? 0, island?.width ?? 0];

export const SITE: readonly Fault[] = [
  { name: "row 150 mm along", kinds: ["row moved"], hang: rowBy(0.15, 0) },
  { name: "row 100 mm back", kinds: ["row moved"], hang: rowBy(-0.1, 0) },
  { name: "row 120 mm across", kinds: ["row moved"], hang: rowBy(0, 0.12) },
  { name: "row 80 mm high", kinds: ["row height", "layer"], hang: rowBy(0, 0, 0.08) },
  { name: "row 150 mm low", kinds: ["row height", "layer"], hang: rowBy(0, 0, -0.15) },
  { name: "row turned by 12°", kinds: ["row turned"], hang: turnedRow(12) },
  { name: "other end along", kinds: ["other end"], place: ([u, v], s) => [size(s)[0] - u, v] },
  { name: "other end across", kinds: ["other end"], place: ([u, v], s) => [u, size(s)[1] - v] },
  { name: "axes swapped", kinds: ["axes swapped"], place: ([u, v]) => [v, u] },
  { name: "fc typed as lx", kinds: ["unit"], write: times(1 / 10.7639) },
  { name: "lx typed as fc", kinds: ["unit"], write: times(10.7639) },
  {
    name: "two readings exchanged",
    kinds: ["readings exchanged"],
    write: (readings) =>
      readings.map((reading, i) => ({
        ...reading,
        illuminance: readings[i === 0 ? 4 : i === 4 ? 0 : i].illuminance,
      })),
  },
];
export const LAMP: readonly Fault[] = [
  { name: "no. 1 dead", kinds: ["dead"], lamp: 0, gain: lampGain(0, 0) },
  { name: "no. 2 dead", kinds: ["dead"], lamp: 1, gain: lampGain(1, 0) },
  { name: "no. 1 at 0.7", kinds: ["swapped"], lamp: 0, gain: lampGain(0, 0.7) },
  { name: "no. 2 at 1.6", kinds: ["swapped"], lamp: 1, gain: lampGain(1, 1.6) },
  { name: "no. 1 200 mm low", kinds: ["hung wrong"], lamp: 0, hang: lampBy(0, 0, 0, -0.2) },
  { name: "no. 2 250 mm high", kinds: ["hung wrong"], lamp: 1, hang: lampBy(1, 0, 0, 0.25) },
  { name: "no. 1 200 mm along", kinds: ["moved"], lamp: 0, hang: lampBy(0, 0.2, 0) },
  { name: "no. 2 150 mm across", kinds: ["moved"], lamp: 1, hang: lampBy(1, 0, 0.15) },
];

const engine = new LightEngine();
const calculate: LightEngine["calculate"] = (...asked) => engine.calculate(...asked);

/** The columns as written, and where the reading was really taken. */
function placesOf({ scene, along, across }: Plan, fault?: Fault): { written: Vec3[]; taken: Vec3[] } {
  const { island } = scene;
  if (island === undefined) throw new Error("No island.");
  const really = along.flatMap((a) => across.map((c): Vec2 => [a * island.length, c * island.width]));
  const room = (p: Vec2, z = island.height): Vec3 => [...islandToRoom(island, p), z];
  // What is written is what was counted: from the other end, or the columns exchanged.
  const columns = really.map((p) => fault?.place?.(p, scene) ?? p);
  const onTop = ([u, v]: Vec2) => u >= 0 && v >= 0 && u <= island.length && v <= island.width;
  return {
    taken: really.map((p) => room(p)),
    written: columns.map((p) => room(p, onTop(p) ? island.height : 0)),
  };
}

function readingsOf(one: Plan, fault: Fault | undefined, random: Random): Reading[] {
  const { scene, lit, options } = one;
  const { written, taken } = placesOf(one, fault);
  const built: Scene = {
    ...scene,
    layers: scene.layers.map((layer, l) => ({
      ...layer,
      luminaires: layer.luminaires.map((placed, i) => fault?.hang?.(placed, i, scene, l) ?? placed),
    })),
  };
  const places = taken.map(([x, y, z]): Vec3 => [x + 0.005 * normal(random), y + 0.005 * normal(random), z]);
  const lights = readingLight(built, places, options, calculate);
  const writtenReadings = lit.flatMap((dims) => written.map((at) => ({ at, lit: dims })));
  const model = fitModel(
    {
      scene,
      meter: 0.05,
      maintenance: 1,
      readings: {
        background: 0,
        readings: written.map((at, i) => ({ at, lit: [1, 1], line: i, illuminance: 1 })),
      },
    },
    lights,
  );
  const draw = ({ mean, sigma }: { mean: number; sigma: number }) => Math.exp(mean + sigma * normal(random));
  const meter = draw(model.meter);
  const outputs = model.output.map(draw);
  const units = lights.map(() => draw(model.unit));
  const readings = writtenReadings.map(({ at, lit: dims }, i): Reading => {
    const sum = lights.reduce(
      (E, { layer, index, direct }, j) =>
        E +
        dims[layer] *
          outputs[layer] *
          units[j] *
          (fault?.gain?.(layer, index) ?? 1) *
          direct[i % taken.length],
      0,
    );
    return {
      at,
      lit: dims,
      line: i + 2,
      illuminance: Math.round(meter * sum * Math.exp(0.015 * normal(random)) * 10) / 10,
    };
  });
  return [...(fault?.write?.(readings) ?? readings)];
}

export function verified(one: Plan, fault: Fault | undefined, seed: number): Verification {
  return verify({
    study: { targets: new Map(), options: one.options },
    scene: one.scene,
    readings: { readings: readingsOf(one, fault, createRandom(seed)), background: 0, counted: "island" },
    meter: 0.05,
    maintenance: 1,
    calculate,
  });
}
