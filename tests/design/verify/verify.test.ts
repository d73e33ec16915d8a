/**
 * Readings made from a kitchen that is not quite the one planned: its flux, reflectances and meter drawn from their
 * bands, here and there a dead lamp, a swapped one, a pendant hung low. The fault must be found, and nobody accused in
 * a sound kitchen; bands must cover the truth as often as they say.
 */
import { describe, expect, it } from "vitest";
import { fitReadings } from "../../../src/design/verify/calibration-fit.ts";
import { canHang } from "../../../src/design/verify/can-hang.ts";
import { diagnose, type ProbableFault } from "../../../src/design/verify/diagnose-deviation.ts";
import { type LuminaireLight, movedDirect, readingLight } from "../../../src/design/verify/reading-light.ts";
import { type FitModel, layerParameter } from "../../../src/design/verify/reading-model.ts";
import type { Reading, Readings } from "../../../src/design/verify/readings.ts";
import { fitModel, type MeterClass, verify } from "../../../src/design/verify/verify.ts";
import { LightEngine } from "../../../src/engine/light-engine.ts";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import { NORMAL_95 } from "../../../src/numerics/normal-distribution.ts";
import { createRandom, type Random } from "../../../src/numerics/random-sequence.ts";
import type { Scene } from "../../../src/scene/scene.ts";
import { ISLAND, kitchen, resolved } from "../../support/studies.ts";
import { normal } from "../../support/uncertain-kitchen.ts";

const study = resolved(
  kitchen({
    island: {
      ...ISLAND,
      zones: [{ name: "prep", from: [0, 0], size: [2.4, 1.1], target: "mine" }],
    },
    targets: { mine: { illuminance: 250, source: "for the test" } },
    luminaires: {
      dome: {
        beam: { flux: 800, angle: 90 },
        opening: { diameter: 0.26 },
        body: { profile: "dome", diameter: 0.3, height: 0.22 },
      },
      spot: { beam: { flux: 650, angle: 60 } },
    },
  }),
);
const [scene] = study.scenes;
const engine = new LightEngine();
const calculate: LightEngine["calculate"] = (...asked) => engine.calculate(...asked);
const options = { ...study.options, quality: "quick" as const };

const places: Vec3[] = [0.15, 0.675, 1.2, 1.725, 2.25].flatMap((x) =>
  [0.25, 0.85].map((y): Vec3 => [1.5 + x, 1.55 + y, 0.92]),
);
/** Layer by layer: twenty readings. */
const layerByLayer = [
  [1, 0],
  [0, 1],
].flatMap((lit) => places.map((at): Pick<Reading, "at" | "lit"> => ({ at, lit })));
const lights = readingLight(
  scene,
  layerByLayer.map(({ at }) => at),
  options,
  calculate,
);

interface Disturbance {
  readonly gains?: ReadonlyMap<number, number>;
  readonly moved?: ReadonlyMap<number, Float64Array>;
}

/** Readings of the kitchen as it turned out, and the logarithms of what was drawn, in the model's order. */
function drawn(
  model: FitModel,
  own: readonly LuminaireLight[],
  random: Random,
  { gains, moved }: Disturbance = {},
): { readings: Reading[]; truth: number[] } {
  const priors = [model.meter, model.interreflected, ...model.output, ...own.map(() => model.unit)];
  const truth = priors.map(({ mean, sigma }) => mean + sigma * normal(random));
  const readings = model.readings.map(({ at, lit, line }, i): Reading => {
    let E = 0;
    own.forEach((light, j) => {
      const output = Math.exp(truth[layerParameter(light.layer)] + truth[2 + model.layers + j]);
      const back = Math.exp(truth[1]) * light.interreflected[i];
      E += lit[light.layer] * output * (gains?.get(j) ?? 1) * ((moved?.get(j) ?? light.direct)[i] + back);
    });
    return {
      at,
      lit,
      line,
      illuminance: E * Math.exp(truth[0] + model.noise[i] * normal(random)),
    };
  });
  return { readings, truth };
}

function modelOf(places: readonly Pick<Reading, "at" | "lit">[], meter: MeterClass = 0.05): FitModel {
  const readings: Readings = {
    readings: places.map(({ at, lit }, i) => ({ at, lit, line: i + 2, illuminance: 1 })),
    background: 0,
  };
  return fitModel({ scene, readings, meter, maintenance: 1 }, lights);
}

const hung = {
  scene,
  offTop: layerByLayer.map(() => false),
};

describe("bands", () => {
  it("cover the truth at the stated rate", () => {
    const model = modelOf(layerByLayer);
    const random = createRandom(11);
    const draws = 400;
    const covered = new Float64Array(2 + model.layers);
    for (let d = 0; d < draws; d++) {
      const { readings, truth } = drawn(model, lights, random);
      const { theta, covariance } = fitReadings({ ...model, readings });
      for (let p = 0; p < covered.length; p++)
        if (Math.abs(theta[p] - truth[p]) <= NORMAL_95 * Math.sqrt(covariance.get(p, p))) covered[p]++;
    }
    const rates = Array.from(covered, (n) => n / draws);
    const worst = Math.max(...rates.map((rate) => Math.abs(rate - 0.95)));
    console.log(
      `worst error of coverage at 95 %: ${worst.toFixed(3)} (${rates.map((r) => r.toFixed(3)).join(", ")})`,
    );
    // 400 draws of a rate of 0.95 scatter by 0.011; three of that.
    expect(worst).toBeLessThan(0.033);
  });

  it("of a sound kitchen accuse nobody but rarely", () => {
    const model = modelOf(layerByLayer);
    const random = createRandom(12);
    let accused = 0;
    for (let d = 0; d < 20; d++)
      if (diagnose({ ...model, readings: drawn(model, lights, random).readings }, hung).faults.length > 0)
        accused++;
    console.log(`accused in sound kitchens: ${accused} of 20`);
    // A fault is believed at twenty to one after its rarity: one of twenty is as much as chance allows.
    expect(accused).toBeLessThanOrEqual(1);
  });
});

it("explains a kitchen built otherwise, its readings calculated anew", () => {
  // Pendants of a tenth less light, lighter walls, a pendant 10 mm off: within what is expected, so nobody is accused.
  const built = resolved(
    kitchen({
      room: {
        length: 5.4,
        width: 4.2,
        ceilingHeight: 2.7,
        reflectance: { walls: 0.6, ceiling: 0.8, floor: 0.2 },
      },
      luminaires: {
        dome: {
          beam: { flux: 720, angle: 90 },
          opening: { diameter: 0.26 },
          body: { profile: "dome", diameter: 0.3, height: 0.22 },
        },
        spot: { beam: { flux: 650, angle: 60 } },
      },
      arrangements: [
        {
          name: "built",
          layers: [
            { name: "pendants", luminaire: "dome", row: { count: 3, clearance: 0.855, offset: [0.01, 0] } },
            { name: "ambient", luminaire: "spot", grid: { columns: 3, rows: 2, margin: 0.7 } },
          ],
        },
      ],
    }),
  ).scenes[0];
  const plane = {
    name: "readings",
    role: "probe" as const,
    quantity: "planar" as const,
    points: Float64Array.from(places.flat()),
    normal: [0, 0, 1] as const,
    weights: new Float64Array(places.length).fill(1),
  };
  const { layers } = calculate({ ...built, planes: [plane] }, options).planes[0];
  const readings = layerByLayer.map(
    ({ at, lit }, i): Reading => ({
      at,
      lit,
      line: i,
      illuminance: layers.reduce((sum, { direct, interreflected }, l) => {
        const p = i % places.length;
        return sum + lit[l] * (direct[p] + interreflected[p]);
      }, 0),
    }),
  );
  const found = verify({
    study: { targets: study.targets, options },
    scene,
    readings: { readings, background: 0 },
    meter: 0.03,
    maintenance: 1,
    calculate,
  });
  expect(found.faults).toEqual([]);
  expect(found.compared.every(({ explained }) => explained)).toBe(true);
  // Told against the flux expected beforehand, which for a rated lamp with a wide beam lies a little above its figure.
  const learnt = (name: string) => found.parameters.find((each) => each.name === name);
  const [pendants, ambient] = [learnt("output of pendants"), learnt("output of ambient")];
  expect((pendants?.factor ?? 0) / (ambient?.factor ?? 1)).toBeCloseTo(0.9, 1);
  expect(learnt("light back from the surfaces")?.factor).toBeGreaterThan(1);
});

describe("faults", () => {
  const dead = (j: number): Disturbance => ({ gains: new Map([[j, 0]]) });
  const cases: readonly (readonly [string, ProbableFault["kind"], number, Disturbance])[] = [
    ["a dead pendant", "dead", 1, dead(1)],
    ["a dead end pendant", "dead", 0, dead(0)],
    ["a lamp of half the light", "swapped", 2, { gains: new Map([[2, 0.5]]) }],
    [
      "a pendant hung 0.3 m low",
      "hung wrong",
      1,
      {
        moved: new Map([
          [
            1,
            movedDirect(
              lights[1],
              layerByLayer.map(({ at }) => at),
              [0, 0, -0.3],
            ),
          ],
        ]),
      },
    ],
    [
      "a pendant moved 0.4 m",
      "moved",
      2,
      {
        moved: new Map([
          [
            2,
            movedDirect(
              lights[2],
              layerByLayer.map(({ at }) => at),
              [-0.4, 0, 0],
            ),
          ],
        ]),
      },
    ],
  ];
  it.each(cases)("finds %s", (_name, kind, subject, disturbance) => {
    const model = modelOf(layerByLayer);
    const random = createRandom(13 + subject);
    let found = 0;
    const tries = 3;
    for (let d = 0; d < tries; d++) {
      const { readings } = drawn(model, lights, random, disturbance);
      const [first] = diagnose({ ...model, readings }, hung).faults;
      const named = first === undefined ? [] : [first, ...first.instead];
      if (named[0]?.subject === subject && named.some((each) => each.kind === kind)) found++;
    }
    expect(found).toBe(tries);
  });

  it.each<[what: string, by: Vec3, can: boolean]>([
    ["0.4 m along, beside its neighbour", [-0.4, 0, 0], true],
    ["into its neighbour", [-0.6, 0, 0], false],
    ["with part of it over the top", [0, -0.68, 0], true],
    ["beyond the top", [0, -0.9, 0], false],
    ["into the top", [0, 0, -0.9], false],
    ["through the ceiling", [0, 0, 1], false],
    ["out of the room", [3, 0, 0], false],
  ])("thinks of a pendant hung %s only where one can hang", (_, by, can) => {
    expect(canHang(scene, [{ layer: 0, index: 2, by, turn: 0 }])).toBe(can);
    // What else sends such light is not a pendant beyond the top: 2026-11-29, "835 mm less far across".
    const moved = movedDirect(
      lights[2],
      layerByLayer.map(({ at }) => at),
      by,
    );
    const { readings } = drawn(modelOf(layerByLayer), lights, createRandom(17), {
      moved: new Map([[2, moved]]),
    });
    const { faults } = diagnose({ ...modelOf(layerByLayer), readings }, hung);
    const places = faults
      .flatMap((fault) => [fault, ...fault.instead])
      .flatMap(({ kind, subject = 0, by: to, turn = 0 }) =>
        ["moved", "hung wrong"].includes(kind) && to !== undefined
          ? [{ layer: lights[subject].layer, index: lights[subject].index, by: to, turn }]
          : [],
      );
    for (const place of places) expect(canHang(scene, [place])).toBe(true);
  });

  it("finds a layer of other lamps, and a reading that was shaded", () => {
    const model = modelOf(layerByLayer);
    const random = createRandom(21);
    const layer = lights.flatMap((light, j) => (light.layer === 1 ? [[j, 0.5] as const] : []));
    const { readings } = drawn(model, lights, random, { gains: new Map(layer) });
    const [first] = diagnose({ ...model, readings }, hung).faults;
    expect(first).toMatchObject({ kind: "layer", subject: 1 });
    expect(first.factor).toBeCloseTo(0.5, 1);
    const shaded = drawn(model, lights, random).readings.map((reading, i) =>
      i === 7 ? { ...reading, illuminance: 0.5 * reading.illuminance } : reading,
    );
    expect(diagnose({ ...model, readings: shaded }, hung).faults[0]).toMatchObject({
      kind: "reading",
      subject: 7,
    });
  });

  it("finds a fault with everything lit, through ratios of a phone alone", () => {
    const all = [...places, ...places].map((at) => ({ at, lit: [1, 1] }));
    const model = modelOf(all, "phone");
    const own = readingLight(
      scene,
      all.map(({ at }) => at),
      options,
      calculate,
    );
    const { readings } = drawn({ ...model, lights: own }, own, createRandom(5), dead(1));
    const [first] = diagnose({ ...model, lights: own, readings }, hung).faults;
    expect(first).toMatchObject({ kind: "dead", subject: 1 });
  });
});

describe("verify", () => {
  const run = (scale: number, meter: MeterClass) => {
    const model = modelOf(layerByLayer);
    const readings = model.readings.map((reading, i) => {
      const E = lights.reduce(
        (sum, light) => sum + reading.lit[light.layer] * (light.direct[i] + light.interreflected[i]),
        0,
      );
      return { ...reading, illuminance: scale * E };
    });
    const quick: Pick<typeof study, "targets" | "options"> = { targets: study.targets, options };
    return verify({
      study: quick,
      scene: scene as Scene,
      readings: { readings, background: 0 },
      meter,
      maintenance: 1,
      calculate,
    });
  };

  it("says that a sound kitchen agrees, and how it narrows the bands", () => {
    const { agree, compared, faults, parameters, zones } = run(1, 0.03);
    expect(agree).toBe(compared.length);
    expect(faults).toEqual([]);
    const output = parameters.find(({ name }) => name === "output of pendants");
    expect(output?.learnt).toBeGreaterThan(0.5);
    expect(zones[0].band[0]).toBeLessThanOrEqual(zones[0].average);
    expect(zones[0].average / zones[0].predicted).toBeCloseTo(1, 1);
  });

  it("takes a phone's readings as ratios: twice the light teaches nothing of the level", () => {
    const once = run(1, "phone");
    const twice = run(2, "phone");
    expect(twice.faults).toEqual([]);
    expect(twice.zones[0].average / once.zones[0].average).toBeLessThan(1.03);
    expect(twice.open[0]).toMatch(/ratios alone/);
    expect(twice.open.join(" ")).toMatch(/cannot be told apart|next to nothing/);
  });
});
