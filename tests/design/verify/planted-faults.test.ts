/**
 * Faults planted in five kitchens: twelve of a whole row or of the readings, eight of one lamp. The readings come from the
 * engine in a kitchen really built so (direct light), with meter, lamps and places drawn from their stated bands. The
 * fault must be named, or the answer be an honest "unexplained"; no lamp may be blamed that is as it should be.
 */
import { beforeAll, describe, expect, it } from "vitest";
import type { SiteFault } from "../../../src/design/verify/hypotheses.ts";
import { readingLight } from "../../../src/design/verify/reading-light.ts";
import type { Reading } from "../../../src/design/verify/readings.ts";
import { fitModel, type Verification, verify } from "../../../src/design/verify/verify.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import { rotationOf } from "../../../src/geometry/frame.ts";
import type { Vec2, Vec3 } from "../../../src/geometry/vector.ts";
import type { PlacedLuminaire } from "../../../src/luminaire/placed-luminaire.ts";
import { createRandom, type Random } from "../../../src/numerics/random-sequence.ts";
import type { CalculationOptions } from "../../../src/scene/calculation-options.ts";
import { islandToRoom } from "../../../src/scene/island-frame.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { ISLAND, type Json, kitchen, resolved } from "../../support/studies.ts";
import { normal } from "../../support/uncertain-kitchen.ts";

interface Plan {
  readonly name: string;
  readonly scene: Scene;
  readonly options: CalculationOptions;
  /** Columns of places along and across, as shares; which layers one after the other. */
  readonly along: readonly number[];
  readonly across: readonly number[];
  readonly lit: readonly (readonly number[])[];
}

function plan(
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

const row = (row: Json): Json => ({ name: "pendants", luminaire: "cone", row });
const ambient = { name: "ambient", luminaire: "spot", grid: { columns: 2, rows: 2, margin: 0.7 } };
const APART = [
  [1, 0],
  [0, 1],
];
const FIVE = [0.08, 0.3, 0.5, 0.72, 0.95];
const PLANS: readonly Plan[] = [
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
interface Fault {
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
const rowBy =
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
const lampGain =
  (lamp: number, factor: number): Fault["gain"] =>
  (layer, index) =>
    layer === 0 && index === lamp ? factor : 1;
const size = ({ island }: Scene): Vec2 => [island?.length ?? 0, island?.width ?? 0];

const SITE: readonly Fault[] = [
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
const LAMP: readonly Fault[] = [
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

function verified(one: Plan, fault: Fault | undefined, seed: number): Verification {
  return verify({
    study: { targets: new Map(), options: one.options },
    scene: one.scene,
    readings: { readings: readingsOf(one, fault, createRandom(seed)), background: 0, counted: "island" },
    meter: 0.05,
    maintenance: 1,
    calculate,
  });
}

const OF_LAMP = ["dead", "swapped", "hung wrong", "moved"];

/** "named", "unexplained", "nothing", "other": not the fault, but nobody innocent; "blamed": an innocent lamp. */
function judged({ faults, lights }: Verification, { kinds, lamp }: Fault): string {
  const innocent = faults.filter(
    ({ kind, subject = -1 }) =>
      OF_LAMP.includes(kind) &&
      (lamp === undefined || lights[subject].layer > 0 || lights[subject].index !== lamp),
  );
  if (innocent.length > 0)
    return `blamed (${innocent.map(({ kind, subject }) => `${kind} ${subject}`).join(", ")})`;
  const [first] = faults;
  if (first === undefined) return "nothing";
  if (first.kind === "unexplained") return "unexplained";
  if ((kinds as string[]).includes(first.kind)) return "named";
  const also = first.instead.some(({ kind }) => (kinds as string[]).includes(kind));
  return also ? `named second to ${first.kind}` : `other (${faults.map(({ kind }) => kind).join(", ")})`;
}

describe.each([
  ["of the row or the readings", SITE],
  ["of one lamp", LAMP],
] as const)("faults %s", (_title, faults) => {
  const results = new Map<string, string[]>();
  beforeAll(() => {
    faults.forEach((fault, f) => {
      results.set(
        fault.name,
        PLANS.map((one, k) => judged(verified(one, fault, 100 + 10 * f + k), fault)),
      );
    });
    for (const [name, found] of results) console.log(`${name.padEnd(24)} ${found.join(" | ")}`);
  });
  it("blame no innocent lamp", () => {
    expect([...results].filter(([, found]) => found.some((each) => each.startsWith("blamed")))).toEqual([]);
  });
  it("are named, or said to be unexplained", () => {
    const all = [...results.values()].flat();
    const named = all.filter((each) => each.startsWith("named")).length;
    console.log(`named ${named} of ${all.length}`);
    expect(all.filter((each) => /^(nothing|other)/.test(each))).toEqual([]);
    expect(named).toBeGreaterThanOrEqual(0.9 * all.length);
  });
});

it("names nobody where readings have nothing to do with the kitchen", () => {
  const random = createRandom(7);
  const anyhow: Fault = {
    name: "anyhow",
    kinds: [],
    write: (readings) => readings.map((reading) => ({ ...reading, illuminance: 20 + 400 * random() })),
  };
  for (const one of PLANS) {
    const { faults, sound, zones } = verified(one, anyhow, 3);
    expect(faults.map(({ kind }) => kind)).toEqual(["unexplained"]);
    expect(sound).toBe(false);
    expect(zones).toEqual([]);
  }
});

it("names no lamp where the places were counted from the other end too", () => {
  const other = SITE.find(({ name }) => name === "other end along") as Fault;
  const both: Fault = { ...other, lamp: 2, gain: lampGain(2, 0.6) };
  const { faults } = verified(PLANS[3], both, 5);
  // Counted from the other end, an even row is one moved the other way: which of its lamps is dim cannot be told.
  expect(["other end", "row moved"]).toContain(faults[0].kind);
  expect(faults.filter(({ kind }) => OF_LAMP.includes(kind))).toEqual([]);
  expect(faults.at(-1)).toMatchObject({ kind: "unexplained" });
});

it("accuses nobody in sound kitchens", () => {
  const found = PLANS.flatMap((one, k) =>
    [1, 2, 3, 4].map((seed) => verified(one, undefined, 10 * seed + k)),
  );
  const accused = found.filter(({ faults }) => faults.length > 0).length;
  const unsound = found.filter(({ sound }) => !sound).length;
  console.log(`sound kitchens accused: ${accused} of 20, exit code 1: ${unsound} of 20`);
  // At twenty to one after its rarity, and a joint test at 1 %: one of twenty is more than chance allows on average.
  expect(unsound).toBeLessThanOrEqual(1);
});

it("names nothing but a factor on all by three readings", () => {
  // A row's place along and across with the meter's scale is three unknowns: it fits any three readings.
  const kinds = PLANS.flatMap((one, k) =>
    [1, 2, 3].flatMap((seed) =>
      [2, 3].map((count) => {
        const random = createRandom(77 * seed + k);
        const anyhow: Fault = {
          name: "anyhow",
          kinds: [],
          write: (readings) =>
            readings.slice(0, count).map((reading) => ({
              ...reading,
              illuminance: reading.illuminance * Math.exp(0.6 * normal(random)),
            })),
        };
        return verified(one, anyhow, seed).faults[0]?.kind ?? "nothing";
      }),
    ),
  );
  console.log(`of three readings by chance: ${kinds.join(", ")}`);
  expect(kinds.filter((kind) => !["nothing", "unexplained", "layer", "unit"].includes(kind))).toEqual([]);
  expect(kinds).toContain("unexplained");
});
