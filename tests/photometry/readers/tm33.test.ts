/** TM-33-18 and -23 in files of our own making, by the schemas of ANSI/IES TM-33; hostile XML. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Photometry } from "../../../src/photometry/photometry.ts";
import { intensityAt, intensityAtOwnAngles } from "../../../src/photometry/reference-lookup.ts";
import { writeTm33 } from "../../../src/photometry/writers/tm33-writer.ts";
import { radians } from "../../../src/units/quantities.ts";
import { arbitraryTypeAB, arbitraryTypeC } from "../../support/distributions.ts";
import { errorOf, photometryOf, read, readGood, warningsOf } from "../../support/photometric-text.ts";

const at = ({ distribution }: Photometry, C: number, gamma: number) =>
  intensityAt(distribution, radians(C), radians(gamma));

type Samples = readonly (readonly [h: number | string, v: number | string, I: number | string])[];
const quarter: Samples = [0, 45, 90].flatMap((h) =>
  [0, 45, 90].map((v) => [h, v, v === 0 ? 100 : h + v] as const),
);

interface Parts {
  root?: string;
  samples?: Samples;
  data?: string;
  emitter?: string;
  emitters?: readonly string[];
  equipment?: string;
}

function emitter({ samples = quarter, data = "", emitter: more = "" }: Parts = {}): string {
  return `<Emitter><Quantity>1</Quantity><Description>LED</Description><InputWattage>10</InputWattage>
<LuminousData><LuminousIntensity><AbsolutePhotometry>True</AbsolutePhotometry>${data}
${samples.map(([h, v, I]) => `<IntData h="${h}" v="${v}">${I}</IntData>`).join("\n")}
</LuminousIntensity></LuminousData>
<EmissionAreas><BottomFace><BottomArea><Length>0.5</Length><Width>0.1</Width></BottomArea></BottomFace></EmissionAreas>
${more}</Emitter>`;
}

function tm33(parts: Parts = {}): string {
  const root = parts.root ?? "IESTM33";
  return `<?xml version="1.0" encoding="UTF-8"?>
<${root}><Version>1.0</Version><Header><Description>a pendant</Description><Laboratory>ours</Laboratory></Header>
<Equipment>${parts.equipment ?? ""}</Equipment>
${(parts.emitters ?? [emitter(parts)]).join("\n")}
</${root}>`;
}

describe("TM-33", () => {
  it("holds candela by h and v, in any order", () => {
    const photometry = readGood(tm33({ samples: [...quarter].reverse() }));
    expect(photometry).toMatchObject({ format: "TM-33", edition: "18", absolute: true, watts: 10 });
    expect(photometry.distribution.symmetry).toBe("quadrant");
    expect(at(photometry, 45, 45)).toBe(90);
    expect(at(photometry, 135, 45)).toBe(90);
    expect(at(photometry, 270, 90)).toBe(180);
    expect(photometry.opening).toEqual({ shape: "rectangle", length: 0.5, width: 0.1, height: 0 });
    expect(photometry.description).toBe("a pendant");
  });

  it("is read as some programs write it: rows under the luminous data, other names, blanks for underscores", () => {
    const own = readGood(tm33());
    const rows = tm33({
      equipment: "<Gonioradiometer><Type>CIE _ C</Type></Gonioradiometer>",
      data: "<Symm>Symm Quad</Symm>",
    })
      .replaceAll(/<\/?LuminousIntensity>/g, "")
      .replaceAll("IntData h=", "IntensityData horz=")
      .replaceAll(" v=", " vert=")
      .replaceAll("</IntData>", "</IntensityData>");
    expect(rows).toContain('<IntensityData horz="45" vert="90">135</IntensityData>');
    expect(readGood(rows).distribution).toEqual(own.distribution);
    expect(warningsOf(rows)).toEqual(warningsOf(tm33()));
    for (const root of ["IESTM33_22", "IES_TM33-23"]) expect(readGood(tm33({ root })).edition).toBe("23");
    for (const type of ["IES C", "IES_C", "ies-c", "Type C"])
      expect(
        readGood(tm33({ equipment: `<Gonioradiometer><Type>${type}</Type></Gonioradiometer>` })).distribution
          .type,
      ).toBe("C");
  });

  it("of another layout is refused by its name", () => {
    const refusal = (text: string) => {
      const outcome = read(text);
      return outcome.ok ? "read" : `${outcome.issues[0].code}: ${outcome.issues[0].received}`;
    };
    expect(refusal('<LuminaireOpticalData version="1"/>')).toBe("tm33-unknown-root: “LuminaireOpticalData”");
    const curves = tm33().replaceAll("LuminousIntensity>", "IntensityCurves>").replaceAll("IntData", "Curve");
    expect(refusal(curves)).toBe("tm33-no-light: “IntensityCurves”");
  });

  it("of 2023 has its own root, a multiplier and a named symmetry", () => {
    const text = tm33({ root: "IESTM33-22", data: "<Symm>Symm _ Quad</Symm><Multiplier>2.5</Multiplier>" });
    expect(readGood(text).edition).toBe("23");
    expect(at(readGood(text), 45, 45)).toBe(225);
    expect(warningsOf(text)).toEqual([]);
    expect(warningsOf(tm33({ data: "<Symm>Symm_Bi_90</Symm>" }))).toEqual(["tm33-symmetry"]);
  });

  it("infers symmetry from the range of h as LM-63 does", () => {
    const planes = (...h: number[]) =>
      tm33({ samples: h.flatMap((C) => [0, 90].map((v) => [C, v, v] as const)) });
    const symmetry = (...h: number[]) => readGood(planes(...h)).distribution.symmetry;
    expect(symmetry(0)).toBe("rotational");
    expect(symmetry(0, 180)).toBe("mirrored in C0–C180");
    expect(symmetry(90, 180, 270)).toBe("mirrored in C90–C270");
    expect(symmetry(0, 120, 240, 360)).toBe("none");
    expect(symmetry(0, 90, 180, 270)).toBe("none");
    expect(errorOf(planes(0, 45))).toMatch(/^tm33-horizontal-range /);
  });

  it("of type B keeps its own angles", () => {
    const samples: Samples = [-90, 0, 90].flatMap((h) => [-90, 0, 90].map((v) => [h, v, 100 + h] as const));
    const equipment = "<Gonioradiometer><Type>IES_B</Type></Gonioradiometer>";
    const { distribution } = readGood(tm33({ samples, equipment }));
    expect(distribution.type).toBe("B");
    expect(intensityAtOwnAngles(distribution, radians(-90), 0)).toBe(10);
    expect(errorOf(tm33({ equipment: "<Gonioradiometer><Type>CUSTOM</Type></Gonioradiometer>" }))).toMatch(
      /^tm33-unknown-type /,
    );
  });

  it("may give a pole once for all planes", () => {
    const samples = quarter.filter(([h, v]) => v !== 0 || h === 0);
    expect(at(readGood(tm33({ samples })), 77, 0)).toBe(100);
  });

  it("sums its emitters, or takes the one asked for", () => {
    const emitters = [emitter(), emitter({ samples: [0, 30, 90].map((v) => [0, v, 10] as const) })];
    const text = tm33({ emitters });
    expect(warningsOf(text)).toEqual(["tm33-emitters-summed"]);
    expect(at(readGood(text), 45, 45)).toBe(100);
    expect(at(readGood(text), 10, 15)).toBeCloseTo(at(readGood(text, { lampSet: 0 }), 10, 15) + 10, 10);
    expect(readGood(text).watts).toBe(20);
    expect(readGood(text).lampSets).toHaveLength(2);
    expect(at(readGood(text, { lampSet: 1 }), 45, 45)).toBe(10);
    expect(readGood(text, { lampSet: 1 }).lampSet).toBe(1);
    expect(errorOf(text, { lampSet: 2 })).toMatch(/^lamp-set-unknown /);
  });

  it("covers the openings of emitters that say where they are", () => {
    const at = (x: number, z: number) =>
      emitter({
        emitter: `<EmitterCenter><LengthOffset>${x}</LengthOffset><WidthOffset>0</WidthOffset><HeightOffset>${z}</HeightOffset></EmitterCenter>`,
      });
    const { opening } = readGood(tm33({ emitters: [at(-0.3, 0), at(0.3, 0.1)] }));
    expect(opening).toMatchObject({ shape: "box", width: 0.1 });
    expect(opening.length).toBeCloseTo(1.1, 12);
    expect(opening.height).toBeCloseTo(0.1, 12);
    expect(warningsOf(tm33({ emitters: [at(0, 0), at(0.3, 0)] }))).toEqual(["tm33-emitters-summed"]);
    expect(readGood(tm33({ emitters: [at(0, 0), emitter()] })).opening.length).toBe(0.5);
  });

  it("tells how its data came to be", () => {
    const how = (inner: string) =>
      readGood(tm33({ emitter: `<DataGeneration>${inner}</DataGeneration>` })).generation;
    expect(how("<Simulation>True</Simulation>")).toMatchObject({ source: "simulation", code: "1.00010" });
    expect(how("<Simulation>false</Simulation><AngleInterpolation>true</AngleInterpolation>")).toMatchObject({
      source: "laboratory",
      interpolated: true,
      code: "1.01000",
    });
  });

  it("without luminous data is refused by name", () => {
    const uv = "<Emitter><Quantity>1</Quantity><RadiantData/></Emitter>";
    expect(errorOf(tm33({ emitters: [uv] }))).toMatch(/^radiometric-file 4:/);
    expect(errorOf(tm33({ emitters: ["<Emitter/>"] }))).toMatch(/^tm33-no-light /);
    expect(errorOf(tm33({ root: "LuminaireOpticalData" }))).toBe("tm33-unknown-root 2:1");
  });

  it("with holes, doubles, wrong counts or wrong numbers is refused", () => {
    expect(errorOf(tm33({ samples: quarter.slice(0, -1) }))).toMatch(/^tm33-incomplete-table /);
    expect(errorOf(tm33({ samples: [...quarter, [45, 45, 1]] }))).toMatch(/^tm33-incomplete-table /);
    expect(errorOf(tm33({ data: "<NumberMeasured>8</NumberMeasured>" }))).toMatch(/^tm33-count-mismatch /);
    expect(warningsOf(tm33({ data: "<NumberMeasured>9</NumberMeasured>" }))).toEqual([]);
    for (const bad of ["NaN", "", "1e999", "x"])
      expect(
        errorOf(
          tm33({
            samples: [
              [0, 0, 1],
              [0, 90, bad],
            ],
          }),
        ),
      ).toBe("tm33-not-a-number 7:1");
    expect(
      errorOf(
        tm33({
          samples: [
            [0, 0, 1],
            [0, -5, 1],
          ],
        }),
      ),
    ).toBe("tm33-angle-out-of-range 7:1");
    expect(
      errorOf(
        tm33({
          samples: [
            [0, 0, 1],
            [0, 90, -1],
          ],
        }),
      ),
    ).toMatch(/^tm33-negative-intensity /);
    expect(
      errorOf(tm33({ samples: Array.from({ length: 1000 }, (_, i) => [i / 3, i / 7, 1] as const) })),
    ).toMatch(/^tm33-incomplete-table /);
  });
});

describe("XML that means harm", () => {
  const laughs = `<!DOCTYPE a [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]><IESTM33>&b;</IESTM33>`;
  it.each([
    ["entities", laughs, "xml-doctype 1:"],
    ["an outside document", `<!DOCTYPE a SYSTEM "file:///etc/passwd"><a/>`, "xml-doctype 1:"],
    ["an unknown entity", "<IESTM33>&secret;</IESTM33>", "xml-malformed 1:"],
    ["a wrong end", "<IESTM33><a></b></IESTM33>", "xml-malformed 1:"],
    ["no end", "<IESTM33><a>", "xml-malformed 1:"],
    ["only space", "<", "xml-malformed 1:"],
    ["depth", "<a>".repeat(1e5), "xml-too-deep 1:97"],
  ])("%s", (_, text, place) => {
    expect(errorOf(text, { file: "x.xml" }).startsWith(place)).toBe(true);
  });

  it("too many elements", () => {
    expect(errorOf(`<a>${"<b/>".repeat(700_000)}</a>`, { file: "x.xml" })).toMatch(/^xml-too-many /);
  });

  it("any change of a valid file is read or refused with a place", () => {
    const valid = tm33();
    fc.assert(
      fc.property(
        fc.nat(valid.length),
        fc.nat(20),
        fc.constantFrom("", "<", ">", "&", '"', "</Emitter>", "<IntData>", "]]>", "<!--", "\0", "é", "1e9"),
        (from, cut, insert) => {
          const outcome = read(valid.slice(0, from) + insert + valid.slice(from + cut), { file: "x.xml" });
          if (!outcome.ok) expect(outcome.issues[0].where.column).toBeGreaterThan(0);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe("written as TM-33-18", () => {
  it("reads back as the same distribution, any type", () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryTypeC, arbitraryTypeAB), (d) => {
        fc.pre(d.type === "C" || d.horizontal[0] !== 0);
        const text = writeTm33(photometryOf(d));
        const back = readGood(text.ok ? text.value : "", { file: "x.xml" }).distribution;
        expect(back.type).toBe(d.type);
        expect(Array.from(back.horizontal)).toEqual(Array.from(d.horizontal));
        expect(Array.from(back.vertical)).toEqual(Array.from(d.vertical));
        let worst = 0;
        d.intensity.forEach((I, i) => {
          worst = Math.max(worst, Math.abs(back.intensity[i] - I) / Math.max(I, 1e-18));
        });
        expect(worst).toBeLessThan(5e-10);
      }),
      { numRuns: 100 },
    );
  });

  it("keeps flux, watts, colour, generation, opening and untrusted text", () => {
    const sent = photometryOf(undefined, {
      absolute: false,
      ratedFlux: 900,
      description: `<b>"a" & 'b'</b> \u0000\ud800 ]]>`,
      opening: { shape: "cylinder", length: 0.3, width: 0.3, height: 0.1 },
      generation: { code: "1.11000", source: "accredited laboratory", interpolated: true, scaled: false },
    });
    const text = writeTm33(sent);
    const back = readGood(text.ok ? text.value : "", { file: "x.xml" });
    expect(back).toMatchObject({ absolute: false, ratedFlux: 900, watts: 12.5, opening: sent.opening });
    expect(back.generation).toEqual(sent.generation);
    expect(back.description).toBe(`<b>"a" & 'b'</b>  ]]>`);
    expect(back.lampSets[0]).toMatchObject({ colourTemperature: "3000", colourRendering: "90" });
  });
});
