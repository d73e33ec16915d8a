/** Values written in other people's habits: what is said shows what was found and what was meant. */
import { describe, expect, it } from "vitest";
import { checkStudy } from "../../src/study/study.ts";
import { readLength } from "../../src/units/read-length.ts";

const issues = (room: object) => {
  const outcome = checkStudy({
    format: "candlespan-study",
    version: 1,
    room: { length: 5, width: 4, ceilingHeight: 2.6, ...room },
    arrangements: [{ name: "a", layers: [] }],
  });
  return outcome.ok ? [] : outcome.issues;
};

describe("a value that is none", () => {
  it("in percent is told as a share", () => {
    expect(issues({ reflectance: { floor: "80 %" } })[0]).toMatchObject({
      message: "The value is not a reflectance.",
      expected: "a number, such as 0.8",
      received: '"80 %"',
    });
  });

  it("in millimetres is asked after", () => {
    expect(issues({ ceilingHeight: 2400 })[0]).toMatchObject({
      message: 'The length is out of range. Did you mean "2400 mm"?',
      received: "2400 m",
    });
    expect(issues({ ceilingHeight: 2e9 })[0].message).toBe("The length is out of range.");
  });

  it("is told of no length what it lacks, of a large one its bound", () => {
    expect(issues({ length: 0 })[0].expected).toBe("a length above 0");
    expect(issues({ length: "0 mm" })[0].expected).toBe("a length above 0");
    expect(issues({ length: 2e9 })[0].expected).toMatch(/^at most /);
  });

  it("has its article", () => {
    expect(issues({ ceiling: { slope: "steep" } })[0].message).toBe("The value is not an angle.");
  });
});

describe("a point between thousands", () => {
  it("is not taken for a decimal point where nobody states thousandths", () => {
    const read = readLength("1.200 mm");
    expect(read.ok ? "" : read.problem).toContain('"1200 mm" or "1.2 mm"');
    expect(readLength("1.200 m")).toEqual({ ok: true, metres: 1.2 });
    expect(readLength("12.5 mm")).toMatchObject({ ok: true });
  });
});

it("a dimmer given as a text: the message shows one as a study would write it", () => {
  const layers = [{ name: "p", luminaire: "x", row: { count: 1 }, dimmer: "trailing edge" }];
  const outcome = checkStudy({
    format: "candlespan-study",
    version: 1,
    room: { length: 5, width: 4, ceilingHeight: 2.6 },
    arrangements: [{ name: "a", layers }],
  });
  expect(outcome.ok ? undefined : outcome.issues[0]).toMatchObject({
    message: "The value is not an object.",
    expected: 'an object, such as { "name": "wall dimmer", "maximumWatts": 150 }',
    where: { path: "/arrangements/0/layers/0/dimmer" },
  });
});
