/** What is typed in a field: any unit, said back, refused with what was expected and found. */
import { describe, expect, it } from "vitest";
import {
  illuminanceFromText,
  lengthFromText,
  numberFromText,
} from "../../src/elements/length-field/number-text.ts";
import { valueAt, withValueAt } from "../../src/elements/study-fields/edit-path.ts";
import { fieldsOf } from "../../src/elements/study-fields/field-list.ts";

describe("a length", () => {
  it("is read in any unit and said back in both families", () => {
    expect(lengthFromText("36 in", "mm")).toEqual({ ok: true, value: 36 * 0.0254, said: `914 mm, 3'-0"` });
    expect(lengthFromText(`7' 6 1/2"`, "mm")).toMatchObject({ ok: true, value: 90.5 * 0.0254 });
  });

  it("without a unit is in the unit on screen, inches for feet and inches", () => {
    expect(lengthFromText("850", "mm")).toMatchObject({ ok: true, value: 0.85 });
    expect(lengthFromText("3.6", "mm", {}, 4.8)).toEqual({
      ok: true,
      value: 3.6,
      said: `read as 3.6 m: 3600 mm, 11'-9 3/4"`,
    });
    expect(lengthFromText("2.4", "m")).toMatchObject({ ok: true, value: 2.4 });
    expect(lengthFromText("33 1/2", "ft-in")).toMatchObject({ ok: true, value: 33.5 * 0.0254 });
  });

  it("outside its limits is refused with expected and found", () => {
    const read = lengthFromText("9 m", "mm", { least: 0.1, most: 5 });
    expect(read).toEqual({ ok: false, problem: "Expected between 100 mm and 5000 mm, found 9000 mm." });
  });

  it("that is none is refused with a reason", () => {
    for (const text of ["", "tall", "1e9 km", "<b>2</b>", "9".repeat(500)])
      expect(lengthFromText(text, "mm").ok, text.slice(0, 12)).toBe(false);
  });
});

describe("light and numbers", () => {
  it("are read with or without their unit", () => {
    expect(illuminanceFromText("50 fc", "lx")).toMatchObject({ ok: true });
    expect(illuminanceFromText("500", "lx")).toMatchObject({ ok: true, value: 500 });
    expect(numberFromText("45 %", "fraction", { least: 0, most: 1 })).toMatchObject({
      ok: true,
      value: 0.45,
    });
    expect(numberFromText("0,5", "fraction")).toMatchObject({ ok: true, value: 0.5 });
    expect(numberFromText("2.5", "count").ok).toBe(false);
    expect(numberFromText("150 %", "fraction", { least: 0, most: 1 }).ok).toBe(false);
  });
});

describe("an edit of a study", () => {
  const study = { room: { length: 5 }, people: [{ name: "cook" }, { name: "guest" }] };

  it("changes one place and shares the rest", () => {
    const edited = withValueAt(study, "/people/1/name", "client");
    expect(edited.people[1].name).toBe("client");
    expect(edited.people[0]).toBe(study.people[0]);
    expect(edited.room).toBe(study.room);
    expect(study.people[1].name).toBe("guest");
    expect(valueAt(withValueAt(study, "/island/overhang/depth", 0.3), "/island/overhang/depth")).toBe(0.3);
    expect(withValueAt(study, "/people/0", undefined).people).toEqual([{ name: "guest" }]);
  });

  it("never reaches a prototype", () => {
    expect(withValueAt(study, "/__proto__/polluted", 1)).toBe(study);
    expect(valueAt(study, "/__proto__/toString")).toBeUndefined();
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it("has a field for every person and zone", () => {
    const groups = fieldsOf("people", study, []);
    expect(groups.map((g) => g.name)).toEqual(["cook", "guest"]);
    expect(fieldsOf("zones", study, [])).toEqual([]);
  });
});
