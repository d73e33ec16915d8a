/** Study documents at random, seeded, over every key there is: kitchens that can be built for the most part, so that most are accepted. */
import { FINISH_NAMES } from "../../src/luminaire/shade/finishes.ts";
import { randomStream } from "./random-stream.ts";

type Json = Record<string, unknown>;

/**
 * @param traced whether luminaires may be lamp and shade, which take seconds to trace
 * @param small whether the top is small and everything is there but once or twice, so that thousands can be answered
 */
export function randomStudy(seed: number, traced = false, small = false): Json {
  return new StudyMaker(seed, traced, small).study();
}

const IES =
  "IESNA:LM-63-2002\n[TEST] made up\n[TESTLAB] none\n[ISSUEDATE] 2026-11-25\n[MANUFAC] none\nTILT=NONE\n1 500 1 3 1 1 2 -0.08 0 0\n1 1 5\n0 45 90\n0\n300 200 0\n";
const ODD = [
  "ordinary",
  'a "quoted" <b>&amp;',
  "קערה",
  "灯",
  "=1+1",
  "a/b~c",
  "line\nbreak",
  "  blank ",
  "x".repeat(120),
];

class StudyMaker {
  readonly #next: () => number;
  readonly #traced: boolean;
  readonly #small: boolean;
  readonly #names = new Set<string>();
  // Metres.
  readonly #room: { length: number; width: number; height: number; slope: number };
  readonly #top: { length: number; width: number; height: number; centre: [number, number] };

  constructor(seed: number, traced: boolean, small: boolean) {
    this.#next = randomStream(seed * 15_485_863);
    this.#traced = traced;
    this.#small = small;
    const length = this.#number(1, small ? 1.8 : 3.5);
    const width = this.#number(0.6, small ? 0.9 : 1.6);
    const room = { length: length + this.#number(1.8, 4), width: width + this.#number(1.8, 4) };
    this.#room = { ...room, height: this.#number(2.3, 4), slope: this.#is(0.2) ? this.#number(0, 15) : 0 };
    this.#top = { length, width, height: this.#number(0.7, 1.1), centre: [room.length / 2, room.width / 2] };
  }

  #number(from: number, to: number): number {
    return Number((from + (to - from) * this.#next()).toFixed(4));
  }
  #whole(from: number, to: number): number {
    return Math.floor(from + (to + 1 - from) * this.#next());
  }
  /** A count, at most two in a small study. */
  #count(from: number, to: number): number {
    return this.#whole(from, this.#small ? Math.min(2, to) : to);
  }
  #is(probability: number): boolean {
    return this.#next() < probability;
  }
  #one<const T>(list: readonly T[]): T {
    return list[this.#whole(0, list.length - 1)];
  }
  #some<T>(from: number, to: number, make: (index: number) => T): T[] {
    return Array.from({ length: this.#count(from, to) }, (_, i) => make(i));
  }
  /** A length as people write it. */
  #length(metres: number): number | string {
    const ways = [
      metres,
      metres,
      `${(metres * 1000).toFixed(1)} mm`,
      `${metres} m`,
      `${(metres / 0.0254).toFixed(3)} in`,
    ];
    return this.#one(ways);
  }
  #text(): string {
    return this.#is(0.8) ? this.#one(["oak", "the maker", "as agreed"]) : this.#one(ODD);
  }
  #name(kind: string): string {
    const name = this.#is(0.9) ? `${kind} ${this.#names.size}` : `${this.#one(ODD)} ${this.#names.size}`;
    this.#names.add(name);
    return name;
  }
  /** Each key that `keys` makes with the probability beside it. */
  #maybe(keys: Readonly<Record<string, () => unknown>>, probability = 0.4): Json {
    const made: Json = {};
    for (const [key, make] of Object.entries(keys)) if (this.#is(probability)) made[key] = make();
    return made;
  }

  study(): Json {
    const island = this.#is(0.95) ? this.#island() : undefined;
    const zones = ((island?.zones ?? []) as { name: string }[]).map(({ name }) => name);
    const luminaires = this.#luminaires();
    const underlay = (): Json => ({
      image: "plan.png",
      ...this.#maybe({
        scale: () => 0.01,
        turn: () => this.#number(-90, 90),
        origin: () => [0, this.#number(0, 1)],
        opacity: () => this.#number(0, 1),
      }),
    });
    return {
      format: "candlespan-study",
      version: 1,
      ...this.#maybe({
        $schema: () => "./study.schema.json",
        title: () => this.#text(),
        note: () => this.#text(),
        project: () =>
          this.#maybe({
            client: () => this.#text(),
            address: () => this.#text(),
            author: () => this.#text(),
            logo: () => "logo.png",
            number: () => "24-017",
          }),
        display: () =>
          this.#maybe({
            length: () => this.#one(["mm", "m", "ft-in"]),
            illuminance: () => this.#one(["lx", "fc"]),
          }),
        maintenance: () =>
          this.#is(0.5)
            ? this.#number(0.3, 1)
            : this.#maybe({
                lampFlux: () => this.#number(0.5, 1),
                survival: () => this.#number(0.5, 1),
                luminaire: () => this.#number(0.5, 1),
                surfaces: () => this.#number(0.5, 1),
              }),
        tariff: () => ({ perKilowattHour: this.#number(0, 1), ...this.#maybe({ currency: () => "EUR" }) }),
        underlay,
      }),
      room: this.#roomDocument(),
      ...(island === undefined ? {} : { island }),
      ...this.#maybe({ bodies: () => this.#bodies(), people: () => this.#people() }),
      luminaires,
      targets: this.#targets(),
      embedded: { "inline.ies": { text: IES }, "bytes.ies": { base64: Buffer.from(IES).toString("base64") } },
      arrangements: this.#some(1, this.#small && this.#is(0.8) ? 1 : 2, (i) =>
        this.#arrangement(i, Object.keys(luminaires), zones),
      ),
      ...this.#maybe({ planes: () => this.#planes(island !== undefined, zones) }),
      calculation: {
        interreflection: this.#is(0.3),
        ...this.#maybe({ occlusion: () => this.#is(0.7), nearFieldError: () => this.#number(0.0025, 0.05) }),
      },
    };
  }

  #roomDocument(): Json {
    const { length, width, height, slope } = this.#room;
    const reflectance = (): number => this.#number(0, 0.95);
    return {
      length: this.#length(length),
      width: this.#length(width),
      ceilingHeight: this.#length(height),
      ...(slope > 0 ? { ceiling: { slope, towards: this.#number(0, 360) } } : {}),
      ...this.#maybe({
        ceilingVoid: () => this.#length(this.#number(0, 0.6)),
        reflectance: () =>
          this.#maybe({
            ceiling: reflectance,
            walls: () =>
              this.#is(0.5) ? reflectance() : [reflectance(), reflectance(), reflectance(), reflectance()],
            floor: reflectance,
          }),
        openings: () => [
          {
            wall: this.#whole(0, 3),
            from: this.#length(0.2),
            length: this.#length(this.#number(0.4, 1.2)),
            height: this.#number(0.4, 1),
            ...this.#maybe({ name: () => this.#name("window"), sill: () => this.#number(0, 1), reflectance }),
          },
        ],
        doors: () => [
          {
            wall: this.#whole(0, 3),
            from: this.#number(1.5, 1.6),
            width: this.#number(0.6, 0.9),
            ...this.#maybe({
              name: () => this.#name("door"),
              swing: () => this.#one(["in-left", "in-right", "out-left", "out-right", "none"]),
              height: () => this.#number(1.9, 2.3),
            }),
          },
        ],
        joists: () => ({
          along: this.#one(["x", "y"]),
          spacing: this.#length(this.#number(0.3, 0.7)),
          first: this.#number(0, 0.3),
          ...this.#maybe({ width: () => this.#number(0.03, 0.1) }),
        }),
        ceilingBox: () => this.#length(this.#number(0.04, 0.12)),
        keepOuts: () =>
          this.#some(0, 3, () => ({
            ...(this.#is(0.5)
              ? { from: [0.1, 0.2], size: [0.4, 0.3] }
              : {
                  polygon: [
                    [0, 0],
                    [0.5, 0],
                    [0, 0.7],
                  ],
                }),
            ...this.#maybe({ name: () => this.#name("duct") }),
          })),
      }),
    };
  }

  #island(): Json {
    const { length, width, height, centre } = this.#top;
    const outlined = this.#is(0.2);
    const finish = (): string => this.#one(["matt", "satin", "polished"]);
    const reflectance = (): number => this.#number(0.02, 0.9);
    const cuts = this.#count(0, 3);
    return {
      ...this.#maybe({ centre: () => centre, turn: () => (this.#is(0.7) ? 0 : this.#number(-30, 30)) }),
      length: this.#length(length),
      width: this.#length(width),
      height,
      ...(outlined
        ? {
            outline: [
              [0, 0],
              [length, 0],
              [length, width * 0.7],
              [length * 0.8, width],
              [0, width],
            ],
          }
        : {}),
      ...this.#maybe({
        levels: () => [
          {
            height: height + this.#number(0.1, 0.2),
            ...(this.#is(0.5)
              ? { from: [0, 0], size: [length * 0.2, width * 0.5] }
              : {
                  polygon: [
                    [0, 0],
                    [length * 0.2, 0],
                    [0, width * 0.4],
                  ],
                }),
            ...this.#maybe({ name: () => this.#name("bar") }),
          },
        ],
        overhang: () => ({ side: this.#one(["x-", "x+", "y-", "y+"]), depth: this.#number(0, 0.25) }),
        reflectance: () => this.#maybe({ top: reflectance, sides: reflectance }),
        finish,
        colour: () => this.#text(),
        hob: () => ({ from: [length * 0.7, width * 0.2], size: [length * 0.08, width * 0.4] }),
        sink: () => ({
          from: [length * 0.4, width * 0.3],
          size: [length * 0.2, width * 0.3],
          ...this.#maybe({ basin: () => this.#one([true, false, 0.2, "180 mm"]) }),
        }),
        seats: () => ({
          ...this.#maybe({ side: () => this.#one(["y-", "y+"]), count: () => 1, width: () => 0.5 }),
        }),
      }),
      zones: Array.from({ length: cuts }, (_, i) => {
        const [a, b] = [(0.25 + (0.5 * i) / cuts) * length, (0.25 + (0.5 * (i + 0.9)) / cuts) * length];
        const [c, d] = [0.1 * width, 0.65 * width];
        return {
          name: this.#name("zone"),
          ...(this.#is(0.6)
            ? { from: [a, c], size: [b - a, d - c] }
            : {
                polygon: [
                  [a, c],
                  [b, c],
                  [a, d],
                ],
              }),
          ...this.#maybe({
            height: () => height,
            target: () => this.#one(["preparation", "cooking", "washing", "eating", "mine", null]),
          }),
        };
      }),
    };
  }

  #bodies(): Json[] {
    const { length } = this.#room;
    return this.#some(0, 2, (i) => ({
      name: this.#name("cabinet"),
      box: [
        [0.05 + 0.8 * i, 0.02, 0],
        [0.6 + 0.8 * i, 0.4, Math.min(2.2, 0.5 * length)],
      ],
      ...this.#maybe({
        turn: () => 0,
        reflectance: () => this.#number(0, 0.9),
        transmittance: () => (this.#is(0.7) ? 0 : this.#number(0, 1)),
        finish: () => "matt",
        colour: () => "oak",
      }),
    }));
  }

  #people(): Json[] {
    const [x, y] = this.#top.centre;
    return this.#some(0, 3, (i) => ({
      name: this.#name("cook"),
      at: [x + (i - 1) * 0.5, y + (i === 1 ? 1 : -1) * (this.#top.width / 2 + this.#number(0.15, 0.5))],
      ...this.#maybe({
        stature: () => this.#number(1.2, 2),
        facing: () => this.#number(-180, 180),
        posture: () => this.#one(["standing", "leaning", "seated"]),
        seat: () => this.#number(0.4, 0.8),
        age: () => this.#whole(5, 99),
        hand: () => this.#one(["left", "right"]),
      }),
    }));
  }

  #luminaires(): Record<string, Json> {
    const list = this.#some(1, 3, () => this.#luminaire());
    return Object.fromEntries(list.map((luminaire) => [this.#name("lamp"), luminaire]));
  }

  #luminaire(): Json {
    const size = this.#number(0.06, 0.4);
    const facts = this.#maybe(
      {
        watts: () => this.#number(1, 60),
        markedWatts: () => 60,
        cct: () => this.#whole(2200, 5000),
        cri: () => this.#whole(70, 100),
        weight: () => this.#number(0.2, 9),
        canopy: () => ({ diameter: 0.12, ...this.#maybe({ height: () => 0.03 }) }),
        cutOut: () => this.#one([0.075, [0.2, 0.1]]),
        suspension: () => this.#one(["rod", "cord", "chain", "cable"]),
        finish: () => "brass",
        colour: () => this.#text(),
        maker: () => this.#text(),
        order: () => this.#text(),
        measured: () => this.#text(),
        base: () => "E27",
        driver: () => "in the lamp",
        dimming: () => "trailing edge",
        price: () => this.#number(0, 900),
        powerFactor: () => this.#number(0.5, 1),
        lampPrice: () => this.#number(0, 90),
        lampLife: () => this.#whole(500, 50_000),
        suspensions: () => [[0, 0]],
        feed: () => [0, 0],
        note: () => this.#text(),
        body: () => this.#body(size),
      },
      0.3,
    );
    const kind = this.#next();
    if (this.#traced && kind < 0.2) return { ...this.#shaded(), ...facts, body: undefined };
    if (kind < 0.35)
      return {
        photometry: this.#one(["inline.ies", "bytes.ies"]),
        ...this.#maybe({ lampSet: () => 0, flux: () => this.#number(200, 2000), lamp: () => "R63" }),
        ...this.#maybe({ fluxFrom: () => this.#one(["file", "lamps"]) }, 0.2),
        ...facts,
      };
    const angle = this.#number(15, 140);
    return {
      beam: {
        flux: this.#number(50, 4000),
        angle,
        ...this.#maybe({ fieldAngle: () => Math.min(179, angle * this.#number(1.4, 2)) }, 0.2),
        ...this.#maybe({ peak: () => this.#number(100, 2000) }, 0.05),
      },
      ...this.#maybe({
        opening: () => {
          const shape = this.#one(["point", "disc", "rectangle", "box", "ellipsoid", "cylinder"]);
          if (shape === "point") return { shape };
          if (shape === "rectangle" || shape === "box")
            return { shape, length: size, width: size * 0.5, ...(shape === "box" ? { height: 0.05 } : {}) };
          return { shape, diameter: size * 0.8, ...(shape === "disc" ? {} : { height: size * 0.5 }) };
        },
        lamp: () => "GU10, 36°",
      }),
      ...facts,
    };
  }

  #body(size: number): Json {
    const profile = this.#one(["dome", "cone", "cylinder", "box", "profile"]);
    const about = this.#maybe({
      offset: () => this.#number(0, 0.05),
      reflectance: () => this.#number(0.05, 0.8),
      lining: () => this.#number(0.05, 0.8),
      transmittance: () => this.#number(0, 0.6),
    });
    if (profile === "profile")
      return {
        profile,
        outline: [
          [0, -0.1],
          [size / 2, 0],
          [0.02, 0.12],
        ],
        ...about,
      };
    if (profile === "box") return { profile, length: size, width: size / 2, height: 0.06, ...about };
    return { profile, diameter: size, height: this.#number(0.05, 0.3), ...about };
  }

  #shaded(): Json {
    const side = (): Json =>
      this.#maybe({
        finish: () => this.#one(FINISH_NAMES),
        reflectance: () => this.#number(0.05, 0.6),
        specular: () => this.#number(0, 0.2),
        transmittance: () => this.#number(0, 0.2),
        diffusion: () => 1,
      });
    const linear = this.#is(0.3);
    return {
      lamp: {
        flux: this.#number(200, 2000),
        ...(linear ? { finish: "module" } : { shape: "A19" }),
        ...this.#maybe({ watts: () => 7, count: () => this.#whole(1, 2) }),
        ...(linear
          ? {}
          : this.#maybe({
              diameter: () => 0.06,
              finish: () => this.#one(["frosted", "clear", "half-mirrored", "directional"]),
              beam: () => this.#number(20, 120),
              orientation: () => this.#one(["base-up", "base-down", "horizontal"]),
              height: () => 0.1,
              radius: () => 0,
              filament: () => 0.03,
            })),
      },
      shade: linear
        ? { profile: "linear", length: 1, width: 0.06, height: 0.05, bottom: "diffuser" }
        : {
            profile: this.#is(0.7)
              ? this.#one(["cone", "cylinder", "dome"])
              : [
                  [0.05, 0.25],
                  [0.2, 0],
                ],
            diameter: 0.35,
            height: 0.25,
            ...this.#maybe({
              topDiameter: () => 0.1,
              finish: () => this.#one(FINISH_NAMES),
              inside: side,
              outside: side,
              transmittance: () => this.#number(0, 0.3),
              diffusion: () => 1,
              top: () => this.#one(["open", "closed"]),
              bottom: () => this.#one(["open", "closed", "diffuser"]),
              diffuser: side,
            }),
          },
    };
  }

  #targets(): Json {
    return {
      mine: {
        illuminance: this.#one([300, "50 fc", 150]),
        ...this.#maybe({
          name: () => this.#text(),
          minimum: () => this.#number(10, 200),
          uniformity: () => this.#number(0.1, 0.9),
          nature: () => this.#one(["maintained", "initial"]),
          source: () => this.#text(),
        }),
      },
    };
  }

  #arrangement(index: number, luminaires: readonly string[], zones: readonly string[]): Json {
    const layers = this.#some(0, 3, () => this.#layer(luminaires));
    const settings = (): Json[] =>
      this.#some(1, 3, () => ({
        name: this.#name("setting"),
        ...this.#maybe({
          dim: () => Object.fromEntries(layers.map(({ name }) => [name, this.#number(0, 1)])),
          zones: () => Object.fromEntries(zones.map((zone) => [zone, this.#one(["eating", "mine", null])])),
          note: () => this.#text(),
        }),
        ...this.#maybe({ find: () => this.#one(["least power", "evenest"]) }, 0.1),
      }));
    return {
      name: this.#name("option"),
      layers,
      ...this.#maybe({ letter: () => "CD"[index], note: () => this.#text(), settings }, 0.3),
    };
  }

  #layer(luminaires: readonly string[]): Json {
    const { length, width, height } = this.#top;
    const [x, y] = this.#top.centre;
    const ceiling = this.#room.height;
    const turn = (): number => this.#number(-180, 180);
    const aim = (): number[] => [x, y, height];
    const kind = this.#whole(0, 2);
    const count = this.#count(1, 4);
    const where =
      kind === 0
        ? {
            row: {
              count,
              ...this.#maybe({ clearance: () => this.#length(this.#number(0.5, 0.9)) }, 0.8),
              ...(this.#is(0.5)
                ? {}
                : this.#one([{ end: length / 6 }, { spacing: length / (count + 1) }, { gap: 0.1 }])),
              ...this.#maybe(
                {
                  offset: () => [0, this.#number(-0.2, 0.2) * width],
                  turn,
                  followSlope: () => this.#is(0.5),
                },
                0.2,
              ),
              ...this.#maybe({ aim }, 0.1),
            },
          }
        : kind === 1
          ? {
              grid: {
                columns: this.#count(1, 3),
                rows: this.#count(1, 3),
                ...this.#maybe({
                  margin: () => this.#number(0, 0.6),
                  offset: () => [this.#number(-0.2, 0.2), this.#number(-0.2, 0.2)],
                  over: () => [
                    [0, 0],
                    [this.#room.length * 0.9, this.#room.width],
                  ],
                  turn,
                  followSlope: () => this.#is(0.5),
                }),
                ...this.#maybe({ aim, height: () => Math.min(ceiling, 2.25) }, 0.2),
              },
            }
          : {
              at: this.#some(1, 3, (i) => ({
                position: [x + (i - 1) * 0.4, y, Math.min(2.2, ceiling - 0.1)],
                ...(this.#is(0.4)
                  ? { aim: aim() }
                  : this.#maybe({ turn, tilt: () => this.#number(0, 40), spin: turn })),
              })),
            };
    return {
      name: this.#name("layer"),
      luminaire: this.#one(luminaires),
      ...where,
      ...this.#maybe({
        role: () => this.#one(["pendant", "recessed", "accent", "other"]),
        dim: () => this.#number(0, 1),
        circuit: () => this.#one(["1", "2"]),
        switches: () => this.#some(1, 3, (i) => ({ at: [0.1, 0.3 + 0.4 * i] })),
        hours: () => this.#number(0, 24),
        beyondTop: () => this.#is(0.5),
        dimmer: () =>
          this.#maybe({
            name: () => this.#text(),
            minimumWatts: () => this.#number(0, 20),
            maximumWatts: () => this.#number(100, 400),
            curve: () => [
              [0, 0.05],
              [1, 1],
            ],
            control: () =>
              this.#one<unknown>([
                "linear",
                "square",
                "logarithmic",
                [
                  [0, 0],
                  [0.6, 0.3],
                  [1, 1],
                ],
              ]),
          }),
      }),
    };
  }

  #planes(onIsland: boolean, zones: readonly string[]): Json[] {
    const quantity = (): string => this.#one(["planar", "cylindrical", "semi-cylindrical"]);
    const floor = {
      rectangle: { corner: [0, 0, 0], u: [1.5, 0, 0], v: [0, 1.5, 0] },
      spacing: this.#number(0.2, 0.6),
      ...this.#maybe({ target: () => "preparation" }),
    };
    const eyes = { points: [[0.5, 0.5, 1.2]], normal: [1, 0, 0] };
    const on = {
      on: this.#one(["island", ...zones]),
      ...this.#maybe({ spacing: () => 0.08, margin: () => 0.05 }),
    };
    const kinds = [floor, eyes, ...(onIsland ? [on] : [])];
    return this.#some(0, 2, () => {
      const kind = this.#one(kinds);
      return {
        name: this.#name("plane"),
        ...kind,
        ...("target" in kind ? {} : this.#maybe({ quantity })),
      };
    });
  }
}
