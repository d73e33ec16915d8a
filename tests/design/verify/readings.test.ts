/** The strict reader of comma-separated text against another reader, and what is wrong with readings said by line. */
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { readCsv } from "../../../src/design/verify/csv-reader.ts";
import { readReadings } from "../../../src/design/verify/readings.ts";
import { kitchen, resolved } from "../../support/studies.ts";

const [scene] = resolved(kitchen()).scenes;

describe("comma-separated text", () => {
  it("reads what another writer wrote, whatever the fields hold", () => {
    const field = fc.string({
      unit: fc.constantFrom("a", " ", ",", ";", '"', "\n", "=", "é", "1"),
      maxLength: 6,
    });
    fc.assert(
      fc.property(fc.array(fc.tuple(field, field, field), { minLength: 1, maxLength: 6 }), (rows) => {
        const header = ["one", "two", "three"];
        const text = Papa.unparse({ fields: header, data: rows }, { quotes: true });
        const table = readCsv(text);
        expect(table).toMatchObject({ ok: true, value: { header } });
        if (table.ok) expect(table.value.rows.map(({ fields }) => fields)).toEqual(rows);
      }),
      { seed: 1 },
    );
  });

  it("never throws and never hangs", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom("a", ",", '"', "\n", "\r", "\t", ";"), maxLength: 60 }),
        (text) => {
          const table = readCsv(text);
          expect(typeof table.ok).toBe("boolean");
        },
      ),
      { seed: 2, numRuns: 500 },
    );
  });

  it.each([
    ["", "empty"],
    ['a,b\n1,"2', "does not end"],
    ['a,b\n1,"2"x', "follows a quoted field"],
    ['a,b\n1,2"3', "inside a field"],
    ["a,b\n1", "another number of fields"],
  ])("refuses %j", (text, why) => {
    const table = readCsv(text, "r.csv");
    expect(table.ok).toBe(false);
    if (!table.ok) expect(table.issues[0].message).toContain(why);
  });
});

describe("readings", () => {
  const read = (text: string) => readReadings(text, scene, "r.csv");

  it("takes places on the island or in the room, units, layers, dimming and a background", () => {
    const outcome = read(
      "along;across;fc;lit\n0.2;300 mm;30;pendants@0.5+ambient\n8 in;0.3;1;none\n1.2;0.3;40;all\n",
    );
    expect(outcome.ok).toBe(true);
    if (!outcome.ok) return;
    const { readings, background } = outcome.value;
    expect(background).toBeCloseTo(10.764, 2);
    expect(readings.map(({ lit }) => lit)).toEqual([
      [0.5, 1],
      [1, 1],
    ]);
    expect(readings[0].at.map((c) => Number(c.toFixed(6)))).toEqual([1.7, 1.85, 0.92]);
    expect(readings[0].illuminance).toBeCloseTo(29 * 10.7639, 1);
    expect(readings[1].line).toBe(4);
  });

  it("takes feet and inches as the sheets print them", () => {
    const places = (text: string) => {
      const outcome = read(text);
      if (!outcome.ok) throw new Error(outcome.issues[0].message);
      return outcome.value.readings.map(({ at }) => at);
    };
    const plain = places("across,along,fc\n10.5 in,84 in,20\n9 in,27 in,20\n");
    expect(places(`across,along,fc\n10 1/2",7'-0",20\n9",27" ,20\n`)).toEqual(plain);
    expect(places(`across;along;fc\n"10 1/2""";7'-0";20\n9";"27""";20\n`)).toEqual(plain);
    expect(places(`fc,across,along\n20,0'-10 1/2",7'-0"\n20,9",27"`)).toEqual(plain);
  });

  it("leaves no less than nothing of a reading under the background", () => {
    const outcome = read("along,across,lx,lit\n0.2,0.3,3,pendants\n0.2,0.3,5,none\n1.2,0.3,9,all\n");
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    expect(outcome.value.readings.map(({ illuminance }) => illuminance)).toEqual([0, 4]);
  });

  it("takes decimal commas where semicolons or tabs part the fields, and a byte-order mark", () => {
    const places = (text: string) => {
      const outcome = read(text);
      return outcome.ok
        ? outcome.value.readings.map(({ at, illuminance, lit }) => [
            ...at.map((c) => Number(c.toFixed(6))),
            illuminance,
            ...lit,
          ])
        : outcome.issues;
    };
    const plain = places("x,y,lx,lit\n1.85,2.1,374.9,pendants@0.5+ambient\n2.2,1.9,512,all\n");
    expect(plain).toHaveLength(2);
    expect(places("\ufeffx;y;lx;lit\r\n1,85;2,1;374,9;pendants@0,5+ambient\r\n2,2;1,9;512;all\r\n")).toEqual(
      plain,
    );
    expect(places("x\ty\tlx\tlit\n1,85\t2,1\t374,9\tpendants@0,5+ambient\n2,2\t1,9\t512\tall\n")).toEqual(
      plain,
    );
    // A point elsewhere: 1,200 could group thousands, so it is not taken for 1.2.
    expect(read("x\ty\tlx\n1.85\t2.1\t1,200\n").ok).toBe(false);
  });

  it.each([
    ["along,across,lx\n1,2,dark", 2, "no illuminance"],
    ["along,across,lx\n1,2,-5", 2, "no illuminance"],
    ["along,across,lx,lit\n0.2,0.3,100,pendant", 2, 'Did you mean "pendants"'],
    ["along,across,lx,lit\n0.2,0.3,100,pendants@3", 2, "more than all"],
    ["along,across,lux,lx\n1,1,1,1", 1, "given twice"],
    ["along,acros,lx\n1,1,1", 1, 'Did you mean "across"'],
    ["x,y,along,across,lx\n1,1,1,1,1", 1, "no one place"],
    ["along,across\n1,1", 1, "no one unit"],
    ["along,across,lx,fc\n1,1,100,10", 1, "in two units"],
    ["along,across,lx\n99,0,100", 2, "outside the room"],
    ["along,across,lx\n300,450,500", 2, "were these millimetres"],
    ["along,across,lx\n1450,700,500", 2, "Then write 1450 mm, 700 mm or 1450 in, 700 in."],
    ["along,across,fc\n54,24,80", 2, "or inches"],
    ["along,across,fc\n54,24,80", 2, "Then write 54 mm, 24 mm or 54 in, 24 in."],
    ["along,across,lx\nfar,0,100", 2, "no length"],
    ["along,across,lx,lit\n1,0.2,100,none", 1, "no readings"],
  ])("refuses %j", (text, line, why) => {
    const outcome = read(text);
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.issues[0].message).toContain(why);
    expect(outcome.issues[0].where).toMatchObject({ file: "r.csv", line });
  });
});
