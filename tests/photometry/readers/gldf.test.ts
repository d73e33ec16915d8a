/** GLDF containers of our own making, by the open GLDF 1.0 schema; and archives that mean harm. */

import fc from "fast-check";
import { strToU8, type Zippable, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readContainer } from "../../../src/photometry/readers/container.ts";
import { type ReadOptions, readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
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

  it("misses nothing silently", () => {
    expect(bad(gldf(light("p3")))).toBe("gldf-no-light");
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
