/** LM-63 by edition: what is multiplied, which planes are stored, what the lamps mean. Expected candela are
 * worked by hand from the text. */
import { describe, expect, it } from "vitest";
import { failure, success } from "../../../src/diagnostics/issue.ts";
import type { Photometry } from "../../../src/photometry/photometry.ts";
import { intensityAt, intensityAtOwnAngles } from "../../../src/photometry/reference-lookup.ts";
import { tiltFactorAt } from "../../../src/photometry/tilt-factor.ts";
import { radians } from "../../../src/units/quantities.ts";
import { bytesOf, errorOf, lm63, read, readGood, warningsOf } from "../../support/photometric-text.ts";

const at = ({ distribution }: Photometry, C: number, gamma: number) =>
  intensityAt(distribution, radians(C), radians(gamma));

describe("factors", () => {
  const three = "0.9 0.5 40";
  it.each([
    ["", "1986", 100 * 2 * 0.9 * 0.5],
    ["IESNA91", "1991", 100 * 2 * 0.9 * 0.5],
    ["IESNA:LM-63-1995", "1995", 100 * 2 * 0.9],
    ["IESNA:LM-63-2002", "2002", 100 * 2 * 0.9],
    ["IES:LM-63-2019", "2019", 100 * 2 * 0.9],
  ])(
    "%s: the multiplier and the ballast factor multiply, the twelfth number only to 1991",
    (header, edition, I) => {
      const labels = header === "" ? ["a lamp on a stick"] : [];
      const photometry = readGood(lm63({ header, labels, ten: "1 900 2 3 1 1 2 0 0 0", three }));
      expect(photometry.edition).toBe(edition);
      expect(at(photometry, 0, 0)).toBe(I);
      expect(photometry.watts).toBe(40);
    },
  );

  it("remarks on a twelfth number that an edition reserves and a file uses", () => {
    expect(warningsOf(lm63({ header: "IESNA:LM-63-1995", three: "1 0.95 5" }))).toEqual([
      "lm63-twelfth-number",
    ]);
    expect(warningsOf(lm63({ header: "IESNA:LM-63-1995", three: "1 1.00 5" }))).toEqual([]);
  });

  it("never multiplies by the number of lamps or their lumens", () => {
    const photometry = readGood(lm63({ ten: "3 700 1 3 1 1 2 0 0 0" }));
    expect(at(photometry, 0, 0)).toBe(100);
    expect(photometry.ratedFlux).toBe(2100);
    expect(photometry.absolute).toBe(false);
  });

  it("applies the multiplier to absolute data too", () => {
    const photometry = readGood(lm63({ ten: "1 -1 1.5 3 1 1 2 0 0 0" }));
    expect(at(photometry, 0, 0)).toBe(150);
    expect(photometry.absolute).toBe(true);
    expect(photometry.ratedFlux).toBeUndefined();
  });

  it("counts a factor of zero as 1 with a warning and refuses a negative one", () => {
    expect(warningsOf(lm63({ three: "0 1 5" }))).toEqual(["lm63-zero-factor"]);
    expect(errorOf(lm63({ three: "-1 1 5" }))).toBe("lm63-negative-factor 8:1");
  });
});

describe("2019 file generation type", () => {
  const generation = (twelfth: string) =>
    readGood(lm63({ header: "IES:LM-63-2019", three: `1 ${twelfth} 5` })).generation;
  it.each([
    ["1.00001", "undefined", false, false],
    ["1.00010", "simulation", false, false],
    ["1.00000", "laboratory", false, false],
    ["1.0", "laboratory", false, false],
    ["1.00100", "laboratory", false, true],
    ["1.01000", "laboratory", true, false],
    ["1.01100", "laboratory", true, true],
    ["1.10000", "accredited laboratory", false, false],
    ["1.10100", "accredited laboratory", false, true],
    ["1.11000", "accredited laboratory", true, false],
    ["1.1110000001", "accredited laboratory", true, true],
  ])("%s is %s, interpolated %s, scaled %s", (twelfth, source, interpolated, scaled) => {
    expect(generation(twelfth)).toMatchObject({ source, interpolated, scaled });
  });

  it("is unknown for other numbers, with a warning, and absent from older editions", () => {
    expect(generation("1.2")).toBeUndefined();
    expect(warningsOf(lm63({ header: "IES:LM-63-2019", three: "1 1.2 5" }))).toEqual([
      "lm63-unknown-generation",
    ]);
    expect(readGood(lm63({ three: "1 1.0 5" })).generation).toBeUndefined();
  });
});

describe("type C planes", () => {
  const file = (horizontal: string, header = "IESNA:LM-63-1995") => {
    const planes = horizontal.split(" ");
    // I = 10 per degree of the plane as filed at γ 45, the same 500 at the nadir.
    const candela = planes.map((h) => `500 ${10 * Number(h)} 0`).join("\n");
    return lm63({ header, ten: `1 -1 1 3 ${planes.length} 1 2 0 0 0`, horizontal, candela });
  };
  const everyPlane = (photometry: Photometry) =>
    [0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330, 360].map((C) =>
      Math.round(at(photometry, C, 45)),
    );

  it("0 alone is rotational", () => {
    const photometry = readGood(file("0"));
    expect(photometry.distribution.symmetry).toBe("rotational");
    expect(Array.from(photometry.distribution.horizontal)).toEqual([0]);
  });

  it("0 to 90 is a quadrant", () => {
    const photometry = readGood(file("0 30 60 90"));
    expect(photometry.distribution.symmetry).toBe("quadrant");
    expect(everyPlane(photometry)).toEqual([0, 300, 600, 900, 600, 300, 0, 300, 600, 900, 600, 300, 0]);
  });

  it("0 to 180 is mirrored in C0–C180", () => {
    const photometry = readGood(file("0 90 180"));
    expect(photometry.distribution.symmetry).toBe("mirrored in C0–C180");
    expect(everyPlane(photometry)).toEqual([
      0, 300, 600, 900, 1200, 1500, 1800, 1500, 1200, 900, 600, 300, 0,
    ]);
  });

  it("90 to 270 is mirrored in C90–C270, in its own place and not turned", () => {
    const photometry = readGood(file("90 180 270"));
    expect(photometry.distribution.symmetry).toBe("mirrored in C90–C270");
    expect(everyPlane(photometry)).toEqual([
      1800, 1500, 1200, 900, 1200, 1500, 1800, 2100, 2400, 2700, 2400, 2100, 1800,
    ]);
    expect(warningsOf(file("90 180 270"))).toEqual([]);
    expect(warningsOf(file("90 180 270", "IESNA:LM-63-2002"))).toEqual(["lm63-planes-90-270"]);
  });

  it("90 to 270 without a plane at 180 gets the one between its neighbours", () => {
    const photometry = readGood(file("90 150 270"));
    expect(at(photometry, 0, 45)).toBeCloseTo(1800, 9);
    expect(photometry.distribution.horizontal.at(-1)).toBe(2 * Math.PI);
  });

  it("0 to 360 has no symmetry", () => {
    const text = lm63({
      ten: "1 -1 1 3 4 1 2 0 0 0",
      horizontal: "0 120 240 360",
      candela: "9 1 0\n9 2 0\n9 3 0\n9 1 0",
    });
    const photometry = readGood(text);
    expect(photometry.distribution.symmetry).toBe("none");
    expect([60, 180, 300].map((C) => at(photometry, C, 45).toFixed(12))).toEqual(
      [1.5, 2.5, 2].map((I) => I.toFixed(12)),
    );
  });

  it("refuses a range that declares nothing, at its place", () => {
    expect(errorOf(file("0 45"))).toBe("lm63-horizontal-range 10:1");
    expect(errorOf(file("0 120"))).toBe("lm63-horizontal-range 10:1");
    expect(errorOf(file("90 180"))).toBe("lm63-horizontal-range 10:1");
  });

  it("takes the light outside the vertical range as none, and says when the range is odd", () => {
    expect(at(readGood(lm63()), 0, 91)).toBe(0);
    expect(warningsOf(lm63({ vertical: "0 45 85", candela: "9 8 7" }))).toEqual(["lm63-vertical-range"]);
    expect(warningsOf(lm63({ vertical: "90 135 180", candela: "9 8 7" }))).toEqual([]);
    expect(warningsOf(lm63({ vertical: "5 45 90", candela: "9 8 7" }))).toEqual(["lm63-vertical-range"]);
  });
});

describe("types A and B", () => {
  const ten = (type: number) => `1 -1 1 3 2 ${type} 2 0 0 0`;
  it.each([
    [2, "B"],
    [3, "A"],
  ])("number %d is type %s, in its own angles", (number, type) => {
    const text = lm63({
      ten: ten(number),
      vertical: "-90 0 90",
      horizontal: "-90 90",
      candela: "0 4 0\n0 8 0",
    });
    const { distribution } = readGood(text);
    expect(distribution.type).toBe(type);
    expect(distribution.symmetry).toBe("none");
    expect(intensityAtOwnAngles(distribution, radians(-90), 0)).toBe(4);
    expect(intensityAtOwnAngles(distribution, radians(90), 0)).toBe(8);
    expect(intensityAtOwnAngles(distribution, radians(0), radians(45))).toBe(3);
  });

  it("mirror planes from 0 in H 0", () => {
    const { distribution } = readGood(
      lm63({ ten: ten(3), vertical: "-90 0 90", horizontal: "0 90", candela: "0 4 0\n0 8 0" }),
    );
    expect(distribution.symmetry).toBe("mirrored in H0");
    expect(Array.from(distribution.horizontal)).toEqual([radians(-90), 0, radians(90)]);
    expect([-90, -45, 45].map((h) => intensityAtOwnAngles(distribution, radians(h), 0))).toEqual([8, 6, 6]);
  });

  it("leave V < 0 dark when only V ≥ 0 is stored, and say so", () => {
    const text = lm63({ ten: ten(3), vertical: "0 45 90", horizontal: "0 90", candela: "4 4 4\n4 4 4" });
    expect(warningsOf(text)).toEqual(["lm63-half-range"]);
    expect(intensityAtOwnAngles(readGood(text).distribution, 0, radians(-10))).toBe(0);
  });

  it("warn where the planes stop short of ±90", () => {
    const text = lm63({ ten: ten(2), vertical: "-90 0 90", horizontal: "-60 60", candela: "0 4 0\n0 8 0" });
    expect(warningsOf(text)).toEqual(["lm63-horizontal-range"]);
  });
});

describe("TILT", () => {
  const include = ["TILT=INCLUDE", "1", "3", "0 45 90", "0.9 0.8 0.7"].join("\r\n");
  it("INCLUDE multiplies by the factor for no tilt and keeps the table", () => {
    const photometry = readGood(lm63({ tilt: include }));
    expect(at(photometry, 0, 0)).toBe(90);
    expect(photometry.tilt?.lampGeometry).toBe(1);
    expect(Array.from(photometry.tilt?.factors ?? [])).toEqual([0.9, 0.8, 0.7]);
    expect(photometry.tilt?.angles[1]).toBe(radians(45));
    expect(warningsOf(lm63({ tilt: include }))).toEqual(["lm63-tilt-sensitive"]);
  });

  it("is linear between its angles and constant beyond them", () => {
    const between = lm63({ tilt: "TILT=INCLUDE\r\n3\r\n3\r\n-30 30 90\r\n0.9 0.8 0.7" });
    const photometry = readGood(between);
    expect(at(photometry, 0, 0)).toBeCloseTo(85, 12);
    const { tilt } = photometry;
    if (tilt === undefined) throw new Error("no tilt");
    expect([-90, -30, 0, 60, 90, 120].map((angle) => tiltFactorAt(tilt, radians(angle)).toFixed(12))).toEqual(
      [0.9, 0.9, 0.85, 0.75, 0.7, 0.7].map((factor) => factor.toFixed(12)),
    );
  });

  it("a file is fetched by its name", () => {
    const text = lm63({ tilt: "TILT= lamp.tlt ", header: "IESNA:LM-63-1995" });
    const asked: string[] = [];
    const tilt = (name: string) => {
      asked.push(name);
      return success(bytesOf("2\n2\n0 90\n0.5 0.4\n"));
    };
    expect(at(readGood(text, { tilt }), 0, 0)).toBe(50);
    expect(asked).toEqual(["lamp.tlt"]);
    expect(warningsOf(lm63({ tilt: "TILT=a.tlt", header: "IES:LM-63-2019" }), { tilt })).toContain(
      "lm63-tilt-file-2019",
    );
  });

  it("a file that is missing, unreadable, wrong or huge is an error", () => {
    const text = lm63({ tilt: "TILT=lamp.tlt" });
    expect(errorOf(text)).toBe("lm63-tilt-file-missing 6:1");
    const where = { file: "lamp.tlt", line: 1, column: 1 };
    const tilt = () =>
      failure<Uint8Array>({ code: "no-such-file", severity: "error", message: "None.", where });
    expect(errorOf(text, { tilt })).toBe("no-such-file 1:1");
    const outcome = read(text, { tilt: () => success(bytesOf("1\n2\n0 90\n1 x\n")) });
    expect(!outcome.ok && outcome.issues[0].where).toEqual({ file: "lamp.tlt", line: 4, column: 3 });
    const huge = read(text, { tilt: () => success(new Uint8Array(2 ** 21)) });
    expect(!huge.ok && huge.issues[0]).toMatchObject({
      code: "lm63-tilt-file-too-large",
      expected: "at most 1 MB",
      received: "2.1 MB",
      where: { line: 6, column: 1 },
    });
  });

  it("with nothing after it, falling angles or a negative factor is an error at its place", () => {
    expect(errorOf(lm63({ tilt: "TILT=" }))).toBe("lm63-bad-tilt 6:1");
    expect(errorOf(lm63({ tilt: "TILT=INCLUDE\r\n1\r\n2\r\n90 0\r\n1 1" }))).toBe(
      "lm63-angles-not-rising 9:4",
    );
    expect(errorOf(lm63({ tilt: "TILT=INCLUDE\r\n1\r\n2\r\n0 90\r\n1 -1" }))).toBe(
      "lm63-negative-factor 10:3",
    );
    expect(errorOf(lm63({ tilt: "TILT=INCLUDE\r\n4\r\n2\r\n0 90\r\n1 1" }))).toBe("lm63-bad-count 7:1");
  });
});

describe("another lamp flux", () => {
  const relative = lm63({ ten: "2 500 1 3 1 1 2 0 0 0" });
  it("scales a relative file", () => {
    const photometry = readGood(relative, { flux: 3000 });
    expect(at(photometry, 0, 0)).toBe(300);
    expect(photometry.ratedFlux).toBe(3000);
    expect(photometry.lampSets[0].flux).toBe(3000);
  });

  it("is refused for an absolute file, an unknown flux, and for nonsense", () => {
    expect(errorOf(lm63(), { flux: 3000 })).toBe("relamp-absolute 7:1");
    expect(errorOf(lm63({ ten: "1 0 1 3 1 1 2 0 0 0" }), { flux: 3000 })).toBe("relamp-unknown 7:1");
    for (const flux of [0, -5, Number.NaN, Number.POSITIVE_INFINITY])
      expect(errorOf(relative, { flux })).toBe("relamp-flux 7:1");
  });
});

describe("what the file says of itself", () => {
  it("keeps keywords in order, repeated and continued", () => {
    const { labels, description, lampSets } = readGood(
      lm63({
        labels: ["[LAMP] one", "[LUMINAIRE] a pendant", "[MORE] of brass", "[LAMP] two", "[_OWN THING]x"],
      }),
    );
    expect(labels).toEqual([
      { key: "LAMP", value: "one" },
      { key: "LUMINAIRE", value: "a pendant\nof brass" },
      { key: "LAMP", value: "two" },
      { key: "_OWN THING", value: "x" },
    ]);
    expect(description).toBe("a pendant\nof brass");
    expect(lampSets).toHaveLength(1);
    expect(lampSets[0].type).toBe("one");
  });

  it("is described by its free lines in 1986", () => {
    expect(readGood(lm63({ header: "REPORT 7", labels: ["a lamp", "on a stick"] })).description).toBe(
      "REPORT 7\na lamp\non a stick",
    );
  });
});
