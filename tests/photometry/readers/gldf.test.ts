/** GLDF containers of our own making, by the open GLDF 1.0 schema; and archives that mean harm. */

import fc from "fast-check";
import { strToU8, type Zippable, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { luminousFlux } from "../../../src/photometry/luminous-flux.ts";
import { readContainer } from "../../../src/photometry/readers/container.ts";
import type { ReadOptions } from "../../../src/photometry/readers/read-options.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { eulumdat, lm63 } from "../../support/photometric-text.ts";

const product = (
  emitters: string,
) => `\ufeff<?xml version="1.0"?><Root xmlns:xsi="x"><Header><Manufacturer>nobody</Manufacturer></Header>
<GeneralDefinitions><Files>
<File id="f1" contentType="ldc/eulumdat" type="localFileName">One.LDT</File>
<File id="f2" contentType="ldc/ies" type="localFileName">two (b).ies</File>
<File id="f3" contentType="ldc/ies" type="url">https://example.org/x.ies</File>
</Files><Photometries>
<Photometry id="p1"><PhotometryFileReference fileId="f1"/></Photometry>
<Photometry id="p2"><PhotometryFileReference fileId="f2"/></Photometry>
<Photometry id="p3"><PhotometryFileReference fileId="f3"/></Photometry>
</Photometries><Emitters>${emitters}</Emitters></GeneralDefinitions>
<ProductDefinitions><ProductMetaData><Name><Locale language="en">a pendant</Locale></Name></ProductMetaData></ProductDefinitions></Root>`;
const light = (photometry: string, flux = "", kind = "Changeable") =>
  `<Emitter id="e"><${kind}LightEmitter><PhotometryReference photometryId="${photometry}"/>${
    flux === "" ? "" : `<RatedLuminousFlux>${flux}</RatedLuminousFlux>`
  }</${kind}LightEmitter></Emitter>`;

const gldf = (emitters: string, more: Zippable = {}) =>
  zipSync({
    "product.xml": strToU8(product(emitters)),
    "ldc/one.ldt": strToU8(eulumdat({ lines: { 23: 0 } })),
    "ldc/two (b).ies": [strToU8(lm63()), { level: 0 }],
    "image/picture.png": new Uint8Array(5000),
    ...more,
  });
const options: Partial<ReadOptions> = { file: "x.gldf" };
const good = (bytes: Uint8Array, chosen: Partial<ReadOptions> = {}) => {
  const outcome = readPhotometry(bytes, { file: "x.gldf", ...options, ...chosen });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome;
};
const bad = (bytes: Uint8Array, chosen: Partial<ReadOptions> = {}) => {
  const outcome = readPhotometry(bytes, { file: "x.gldf", ...chosen });
  if (outcome.ok) throw new Error("read");
  return outcome.issues[0].code;
};

describe("GLDF", () => {
  it("leads from the emitter to its photometric file, names in any case", () => {
    const { value } = good(gldf(light("p1")));
    expect(value).toMatchObject({ format: "GLDF", ratedFlux: 1000, lampSet: 0, description: "a pendant" });
    expect(value.distribution.intensity[0]).toBe(300);
    expect(value.labels[0]).toEqual({ key: "Manufacturer", value: "nobody" });
  });

  it("offers every light emitter, fixed or changeable, and no sensor", () => {
    const emitters = light("p1") + light("p2", "", "Fixed") + '<Emitter id="s"><SensorEmitter/></Emitter>';
    expect(good(gldf(emitters)).value.lampSets).toHaveLength(2);
    const { value } = good(gldf(emitters), { lampSet: 1 });
    expect(value).toMatchObject({ absolute: true, lampSet: 1 });
    expect(value.distribution.intensity[0]).toBe(100);
    expect(bad(gldf(emitters), { lampSet: 2 })).toBe("lamp-set-unknown");
  });

  it("finds the photometries of a multi-channel emitter at the channels of its light source", () => {
    const emitter = `<Emitter id="m"><MultiChannelLightEmitter><LightSourceReference multiChannelLightSourceId="l"/>
</MultiChannelLightEmitter></Emitter></Emitters><LightSources><MultiChannelLightSource id="l"><Channels>
<Channel><PhotometryReference photometryId="p2"/></Channel><Channel><PhotometryReference photometryId="p1"/></Channel>
</Channels></MultiChannelLightSource></LightSources><Emitters>`;
    expect(good(gldf(emitter)).value.absolute).toBe(true);
    expect(good(gldf(emitter), { lampSet: 1 }).value.ratedFlux).toBe(1000);
  });

  it("rates a relative file anew by the emitter's flux, and the caller's flux goes before that", () => {
    const outcome = good(gldf(light("p1", "2000")));
    expect(outcome.value.distribution.intensity[0]).toBe(600);
    expect(outcome.warnings.map((warning) => warning.code)).toContain("gldf-flux");
    expect(good(gldf(light("p1", "2000")), { flux: 500 }).value.distribution.intensity[0]).toBe(150);
    expect(good(gldf(light("p2", "2000"))).value.distribution.intensity[0]).toBe(100);
  });

  /** A luminaire with main and indirect light, each with its own flux, power and turn, in one variant. */
  const variants = (...emitters: string[][]) =>
    `</Emitters></GeneralDefinitions><ProductDefinitions><Variants>${emitters
      .map(
        (ids) =>
          `<Variant id="v"><Geometry><ModelGeometryReference geometryId="g">${ids
            .map((id) => `<EmitterReference emitterId="${id}"/>`)
            .join("")}</ModelGeometryReference></Geometry></Variant>`,
      )
      .join("")}</Variants></ProductDefinitions><GeneralDefinitions><Emitters>`;
  const emitter = (id: string, photometry: string, more: string, attribute = "") =>
    `<Emitter id="${id}"><FixedLightEmitter ${attribute}><PhotometryReference photometryId="${photometry}"/>${more}</FixedLightEmitter></Emitter>`;
  const MAIN = emitter(
    "main",
    "p1",
    "<RatedLuminousFlux>2000</RatedLuminousFlux><RatedInputPower>18</RatedInputPower>",
  );
  const INDIRECT = emitter(
    "indirect",
    "p1",
    "<Rotation><X>180</X><Y>0</Y><Z>0</Z><G0>0</G0></Rotation><RatedLuminousFlux>1000</RatedLuminousFlux><RatedInputPower>9</RatedInputPower>",
  );
  const flux = ({ value }: ReturnType<typeof good>) => luminousFlux(value.distribution);

  it("sums the emitters of a variant, each with its own flux, power and turn", () => {
    const one = flux(good(gldf(light("p1"))));
    expect(one.upward).toBe(0);
    const both = good(gldf(MAIN + INDIRECT + variants(["main", "indirect"])));
    expect(both.value).toMatchObject({ ratedFlux: 3000, watts: 27, lampSet: 0 });
    // Twice the light of the file downward, once upward: the same file rated 2000 and 1000 for its own 1000.
    expect(flux(both).downward).toBeCloseTo(2 * one.total, 6);
    expect(flux(both).upward).toBeCloseTo(one.total, 6);
    expect(both.warnings.map(({ code }) => code)).toContain("gldf-emitters-summed");
    const alone = good(gldf(MAIN + INDIRECT + variants(["main", "indirect"])), { lampSet: 1 });
    expect(alone.value).toMatchObject({ ratedFlux: 1000, watts: 9, lampSet: 1 });
    expect(flux(alone).downward).toBe(0);
    const rated = good(gldf(MAIN + INDIRECT + variants(["main", "indirect"])), { flux: 6000 });
    expect(flux(rated).total).toBeCloseTo(6 * one.total, 6);
  });

  it("has the opening of the variant's simple geometry, before that of the photometric file", () => {
    const simple = (geometry: string, id = "main") =>
      `</Emitters><Geometries><SimpleGeometry id="g"><Cuboid><Width>1000</Width><Length>500</Length><Height>200</Height></Cuboid>${geometry}</SimpleGeometry></Geometries></GeneralDefinitions><ProductDefinitions><Variants><Variant id="v"><Geometry><SimpleGeometryReference geometryId="g" emitterId="${id}"/></Geometry></Variant></Variants></ProductDefinitions><GeneralDefinitions><Emitters>`;
    const opening = (geometry: string, id?: string) => good(gldf(MAIN + simple(geometry, id))).value.opening;
    const own = good(gldf(MAIN)).value.opening;
    // Millimetres; the length along C90–C270, as in EULUMDAT.
    expect(
      opening("<RectangularEmitter><Width>80</Width><Length>1200</Length></RectangularEmitter>"),
    ).toEqual({
      shape: "rectangle",
      length: 0.08,
      width: 1.2,
      height: 0,
    });
    const heights = "<C-Heights><C0>40</C0><C90>30</C90><C180>40</C180><C270>30</C270></C-Heights>";
    expect(opening(`<CircularEmitter><Diameter>350</Diameter></CircularEmitter>${heights}`)).toEqual({
      shape: "cylinder",
      length: 0.35,
      width: 0.35,
      height: 0.04,
    });
    for (const nothing of ["", "<CircularEmitter><Diameter>-3</Diameter></CircularEmitter>"])
      expect(opening(nothing)).toEqual(own);
    expect(opening("<CircularEmitter><Diameter>350</Diameter></CircularEmitter>", "other")).toEqual(own);
  });

  it("takes the first of several variants, and no light of emergencies", () => {
    const warm = good(gldf(MAIN + INDIRECT + variants(["main"], ["indirect"])));
    expect(warm.value).toMatchObject({ ratedFlux: 2000, watts: 18 });
    expect(warm.warnings.find(({ code }) => code === "gldf-emitters-left")?.message).toContain(
      "several variants",
    );
    const exit = emitter("exit", "p1", "", 'emergencyBehaviour="EmergencyOnly"');
    expect(good(gldf(MAIN + exit + variants(["main", "exit"]))).value.ratedFlux).toBe(2000);
  });

  it("takes power from the emitter's own light source, not from another's file", () => {
    const fixed = `<Emitter id="m"><FixedLightEmitter><PhotometryReference photometryId="p1"/><LightSourceReference fixedLightSourceId="l" lightSourceCount="2"/></FixedLightEmitter></Emitter></Emitters><LightSources><FixedLightSource id="k"><RatedInputPower>18</RatedInputPower></FixedLightSource><FixedLightSource id="l"><RatedInputPower>31</RatedInputPower></FixedLightSource></LightSources><Emitters>`;
    expect(good(gldf(fixed)).value.watts).toBe(62);
  });

  it("names a file given by its address", () => {
    const outcome = readPhotometry(gldf(light("p3")), { file: "x.gldf" });
    expect(outcome.ok ? undefined : outcome.issues[0]).toMatchObject({
      code: "gldf-by-address",
      received: "“https://example.org/x.ies”",
    });
  });

  it("misses nothing silently", () => {
    expect(bad(gldf(light("p3")))).toBe("gldf-by-address");
    expect(bad(gldf(light("p9")))).toBe("gldf-no-light");
    expect(bad(zipSync({ "other.txt": strToU8("x") }))).toBe("gldf-no-product");
    expect(bad(zipSync({ "product.xml": strToU8(product(light("p1"))) }))).toBe("gldf-missing-file");
    expect(bad(gldf(light("p1"), { "ldc/one.ldt": strToU8("nothing") }))).toMatch(/^eulumdat-/);
  });
});

describe("an archive that means harm", () => {
  it.each(["../up.ldt", "ldc/../../up.ldt", "/etc/x", "C:/x", "ldc\\x.ldt", "~/x"])("climbs: %s", (name) => {
    expect(bad(gldf(light("p1"), { [name]: strToU8("x") }))).toBe("container-path");
  });

  it("unpacks to far more than it is", () => {
    const bomb = gldf(light("p1"), { "ldc/one.ldt": new Uint8Array(18e6) });
    expect(bomb.length).toBeLessThan(100_000);
    expect(bad(bomb)).toBe("container-too-large");
    const many = Object.fromEntries(Array.from({ length: 8 }, (_, i) => [`f${i}`, new Uint8Array(1e5)]));
    const limits = { entries: 40, file: 2e5, total: 5e5 };
    expect(readContainer(zipSync(many), () => true, limits)).toMatchObject({ code: "container-too-large" });
    expect(readContainer(zipSync(many), () => true, { ...limits, total: 1e6 })).toMatchObject({ ok: true });
  });

  it("lies about its sizes: what is unpacked counts", () => {
    const bytes = gldf(light("p1"), { "ldc/one.ldt": new Uint8Array(18e6) });
    // The declared size of the entry, in its local header, 22 bytes from its signature.
    const name = strToU8("ldc/one.ldt");
    const start = bytes.findIndex((_, i) => name.every((byte, k) => bytes[i + k] === byte)) - 30;
    bytes.set([10, 0, 0, 0], start + 22);
    expect(bad(bytes)).toBe("container-too-large");
  });

  it("holds another archive where a photometric file should be", () => {
    expect(bad(gldf(light("p1"), { "ldc/one.ldt": gldf(light("p1")) }))).toBe("photometry-binary");
  });

  it("holds thousands of files", () => {
    const files = Object.fromEntries(Array.from({ length: 50 }, (_, i) => [`f${i}`, new Uint8Array(1)]));
    const limits = { entries: 40, file: 1e6, total: 1e6 };
    expect(readContainer(zipSync(files), () => true, limits)).toMatchObject({ code: "container-too-many" });
  });

  it("declares a document type", () => {
    expect(bad(zipSync({ "product.xml": strToU8("<!DOCTYPE a><a/>") }))).toBe("xml-doctype");
  });

  it("is cut or changed anywhere: read or refused, never thrown", () => {
    const valid = gldf(light("p1"));
    fc.assert(
      fc.property(fc.nat(valid.length - 1), fc.nat(255), fc.boolean(), (index, byte, cut) => {
        const changed = cut ? valid.slice(0, index) : valid.map((old, i) => (i === index ? byte : old));
        expect(typeof readPhotometry(changed, { file: "x.gldf" }).ok).toBe("boolean");
      }),
      { numRuns: 400 },
    );
  });
});
