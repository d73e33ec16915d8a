import { describe, expect, it } from "vitest";
import { beamLuminaire } from "../../src/luminaire/beam-luminaire.ts";
import { buildLuminaire, type LuminaireDescription } from "../../src/luminaire/build-luminaire.ts";
import { filedBody } from "../../src/luminaire/filed-body.ts";
import type { Photometry } from "../../src/photometry/photometry.ts";
import { lambertian } from "../support/tiny-scene.ts";

const FILE: Photometry = {
  format: "LM-63",
  edition: "2002",
  distribution: lambertian("x", 1000, "A").distribution,
  opening: { shape: "disc", length: 0.3, width: 0.3, height: 0 },
  absolute: false,
  ratedFlux: 1250,
  watts: 12,
  lampSets: [],
  lampSet: 0,
  labels: [],
  description: "",
};

function built(description: LuminaireDescription, file?: Photometry) {
  const outcome = buildLuminaire("x", description, file, "/luminaires/x", beamLuminaire);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

function refused(description: LuminaireDescription, file?: Photometry) {
  const outcome = buildLuminaire("x", description, file, "/luminaires/x", beamLuminaire);
  if (outcome.ok) throw new Error("it was built");
  return outcome.issues[0];
}

describe("a luminaire from a file", () => {
  // 2026-11-28: a flat opening lay 38 mm up inside the closed housing of a long pendant without a word.
  it("says where a flat opening lies inside its closed housing, and how to put it at the foot", () => {
    const warned = (offset?: number) => {
      const body = {
        profile: "box",
        length: 1.5,
        width: 0.06,
        height: 0.0762,
        ...(offset === undefined ? {} : { offset }),
      };
      const outcome = buildLuminaire(
        "x",
        { photometry: "x.ies", body } as LuminaireDescription,
        FILE,
        "/luminaires/x",
        beamLuminaire,
      );
      return outcome.ok ? outcome.warnings.filter(({ code }) => code === "opening-inside-body") : [];
    };
    expect(warned()).toEqual([
      expect.objectContaining({
        expected: expect.stringContaining('"offset": "38 mm"'),
        received: "0.038 m above its foot",
        where: { path: "/luminaires/x/body" },
      }),
    ]);
    expect(warned(0.0381)).toEqual([]);
  });

  // 2026-11-28: a bar 200 mm wide of no stated height was drawn 200 mm tall; common practice, no source.
  it("takes a bar of no stated height for a low one", () => {
    const height = (length: number, width: number) =>
      built({ photometry: "x.ies", body: { profile: "box", length, width } }, FILE).luminaire.body?.height;
    expect(height(1.2, 0.2)).toBe(0.08);
    expect(height(0.2, 1.2)).toBe(0.08);
    expect(height(1.2, 0.05)).toBeCloseTo(0.8 * 0.05, 9);
    expect(height(0.5, 0.2)).toBeCloseTo(0.8 * 0.2, 9);
    expect(height(0.9, 0.9)).toBeCloseTo(0.8 * 0.9, 9);
  });

  it("carries the file's flux, opening and power", () => {
    const { luminaire } = built({ photometry: "x.ies" }, FILE);
    expect(luminaire.flux).toBeCloseTo(1000, 0);
    expect(luminaire).toMatchObject({ watts: 12, ratedFlux: 1250, evidence: "B", origin: "x.ies" });
    expect(luminaire.emission.opening).toBe(FILE.opening);
    expect(built({ photometry: "x.ies" }, { ...FILE, absolute: true }).luminaire.evidence).toBe("A");
  });

  it("is re-lamped by the ratio of fluxes, and what is said wins over the file", () => {
    const { luminaire } = built({ photometry: "x.ies", flux: 2500, watts: 20, cri: 95 }, FILE);
    expect(luminaire.flux).toBeCloseTo(2000, 0);
    expect(luminaire).toMatchObject({ ratedFlux: 2500, watts: 20, cri: 95, evidence: "G" });
    // The file's own table is left as it was.
    expect(FILE.distribution.intensity[0]).toBeCloseTo(1000 / Math.PI, 10);
  });

  it("is not re-lamped when absolute or unrated", () => {
    expect(refused({ flux: 1 }, { ...FILE, absolute: true })).toMatchObject({
      code: "luminaire-relamp-absolute",
      where: { path: "/luminaires/x/flux" },
    });
    expect(refused({ flux: 1 }, { ...FILE, ratedFlux: undefined }).code).toBe("luminaire-relamp-unrated");
  });
});

describe("a luminaire from a beam", () => {
  it("has the flux it was given, from a point unless an opening is", () => {
    const { luminaire } = built({ beam: { flux: 650, angle: 36 } });
    expect(luminaire.flux / 650).toBeCloseTo(1, 3);
    expect(luminaire).toMatchObject({ evidence: "D", ratedFlux: 650 });
    expect(luminaire.emission.opening.shape).toBe("point");
    const opening = (o: LuminaireDescription["opening"]) =>
      built({ beam: { flux: 650, angle: 36 }, opening: o }).luminaire.emission.opening;
    expect(opening({ diameter: 0.1 })).toEqual({ shape: "disc", length: 0.1, width: 0.1, height: 0 });
    expect(opening({ length: 1.2, width: 0.05 })).toMatchObject({
      shape: "rectangle",
      length: 1.2,
      width: 0.05,
    });
    expect(opening({ length: 1.2, width: 0.05, height: 0.04 }).shape).toBe("box");
    expect(opening({ shape: "ellipsoid", diameter: 0.2 })).toEqual({
      shape: "ellipsoid",
      length: 0.2,
      width: 0.2,
      height: 0.2,
    });
  });

  it("says where a beam cannot be", () => {
    expect(refused({ beam: { flux: 650, angle: 180 } }).where.path).toBe("/luminaires/x/beam");
    expect(refused({}).code).toBe("luminaire-no-light");
  });
});

describe("a body", () => {
  const beam = { flux: 650, angle: 90 };

  it("that glows all round makes a flat opening of its file uncertain, unless the study states the opening", () => {
    const uncertain = (more: LuminaireDescription, file?: Photometry) => {
      const { emission } = built(more, file).luminaire;
      return emission.kind === "opening" && emission.uncertain === true;
    };
    const photometry = "x.ies";
    expect(uncertain({ photometry, body: { profile: "globe" } }, FILE)).toBe(true);
    expect(uncertain({ photometry, body: { profile: "bowl" } }, FILE)).toBe(true);
    expect(uncertain({ photometry, body: { profile: "dome" } }, FILE)).toBe(false);
    const opening = { diameter: 0.3 };
    expect(uncertain({ photometry, body: { profile: "globe" }, opening }, FILE)).toBe(false);
    expect(uncertain({ beam, body: { profile: "globe", diameter: 0.3 } })).toBe(false);
    const tall = { ...FILE, opening: { ...FILE.opening, shape: "ellipsoid" as const, height: 0.3 } };
    expect(uncertain({ photometry, body: { profile: "globe" } }, tall)).toBe(false);
  });

  // 2026-11-28: the choice of a box greyed the drawing: 'a body of profile "box" needs "length"'.
  it("takes usual sides where nobody gives any, and lists them", () => {
    const sides = (description: LuminaireDescription, file?: Photometry) => {
      const { luminaire, defaults } = built(description, file);
      const { length, width, diameter, height } = luminaire.body ?? {};
      const why = new Map(defaults.map((each) => [each.path.split("/").at(-1), each.why]));
      return { body: { length, width, diameter, height }, why };
    };
    const file: Photometry = {
      ...FILE,
      opening: { shape: "rectangle", length: 0.2, width: 1.18, height: 0 },
    };
    const box = { profile: "box" } as const;
    const closed = sides({ photometry: "x.ldt", body: box }, file);
    expect(closed.body).toMatchObject({ length: 0.2, width: 1.18, diameter: 1.18 });
    const opened = sides({ photometry: "x.ldt", body: { ...box, width: 1.25 } }, file);
    expect(opened.body).toMatchObject({ length: 0.2, width: 1.25 });
    expect(opened.body.height).toBe(0.08);
    expect(opened.why.get("length")).toMatch(/luminous opening/);
    expect(opened.why.has("width")).toBe(false);
    for (const body of [box, { profile: "dome" } as const]) {
      const typical = sides({ beam, body });
      expect(typical.body.diameter).toBe(0.3);
      expect(typical.why.get(body.profile === "box" ? "width" : "diameter")).toMatch(/common practice/);
    }
  });

  it("knows the body its file states, lying along the luminous opening with its foot at the light", () => {
    const filed = (housing: NonNullable<Photometry["housing"]>, opening: Photometry["opening"]) =>
      filedBody(built({ photometry: "x.ldt" }, { ...FILE, housing, opening }).luminaire);
    const bar = { length: 0.24, width: 1.23, height: 0.035 };
    const light = { shape: "rectangle", length: 0.2, width: 1.18, height: 0 } as const;
    const expected = { profile: "box", length: 0.24, width: 1.23, height: 0.035, offset: 0.0175 };
    expect(filed(bar, light)).toEqual(expected);
    // Sides named the other way about, a housing smaller than its light, a file in metres, and a round one.
    expect(filed({ ...bar, length: 1.23, width: 0.24 }, light)).toEqual(expected);
    expect(filed({ ...bar, width: 1.1 }, light)).toBeUndefined();
    expect(filed({ length: 0.00024, width: 0.00123, height: 0 }, light)).toBeUndefined();
    const round = { length: 0, width: 0.4, height: 0 };
    expect(filed(round, FILE.opening)).toEqual({ profile: "cylinder", diameter: 0.4 });
  });

  it("takes the opening's diameter and a usual height, and lists both", () => {
    const { luminaire, defaults } = built({ beam, opening: { diameter: 0.3 }, body: { profile: "globe" } });
    expect(luminaire.body).toMatchObject({ diameter: 0.3, height: 0.3, reflectance: 0.5, transmittance: 0 });
    expect(defaults.map((d) => d.path)).toEqual(
      ["diameter", "height", "reflectance"].map((key) => `/luminaires/x/body/${key}`),
    );
  });

  it.each([
    ["a drawn profile without its points", { profile: "profile" }, "/luminaires/x/body/outline"],
    [
      "a profile that turns down",
      {
        profile: "profile",
        outline: [
          [0.1, 0],
          [0.2, 0.1],
          [0.1, 0.05],
        ],
      },
      "/luminaires/x/body/outline",
    ],
    [
      "a profile without width",
      {
        profile: "profile",
        outline: [
          [0, 0],
          [0, 1],
        ],
      },
      "/luminaires/x/body/outline",
    ],
  ] as const)("needs its sizes: %s", (_, body, path) => {
    expect(refused({ beam, body: body as LuminaireDescription["body"] }).where.path).toBe(path);
  });
});
