/** A length where a bare number is metres is read alike in options, in offsets of what was built and in readings on site. */
import { expect, it } from "vitest";
import { lengthOf } from "../../src/cli/option-values.ts";
import { readOffsets } from "../../src/design/boxes/as-built.ts";
import { readReadings } from "../../src/design/verify/readings.ts";
import { kitchen, resolved } from "../support/studies.ts";

const [scene] = resolved(kitchen()).scenes;

const offset = (text: string) => {
  const read = readOffsets(
    `number,along,across\n1,"${text}",0\n`,
    [{ tag: "P1", at: [0, 0], ceiling: 2.7 }],
    0,
  );
  return read.ok ? read.value[0].along : undefined;
};
const reading = (text: string) => {
  const read = readReadings(`along,across,lx\n"${text}",0.5,400\n`, scene);
  return read.ok ? read.value.readings[0].at[0] - 1.5 : undefined;
};
const option = (text: string) => {
  try {
    return lengthOf(text, "--step");
  } catch {
    return undefined;
  }
};

// One foot is 0.3048 m, one inch 0.0254 m, by definition.
it.each([
  ["0.2", 0.2],
  ["+0.2", 0.2],
  ["0.20000000000000000000001", 0.2],
  ["+200 mm", 0.2],
  ["1/4", undefined],
  ["6 in", 0.1524],
  ["0,2", 0.2],
])("%s", (text, metres) => {
  for (const read of [offset, reading, option])
    if (metres === undefined) expect(read(text)).toBeUndefined();
    else expect(read(text)).toBeCloseTo(metres, 9);
});

it.each([
  ["1712,2100,2600", "1712 mm"],
  ["67.4,2.1,2.6", "67.4 in"],
])("%s of a sheet without its unit is told once, with what was meant", (cells, meant) => {
  const planned = [1, 2].map((n) => ({ tag: `P${n}`, at: [1.7, 2.1] as const, ceiling: 2.6 }));
  const read = readOffsets(`box,x,y,ceiling\nP1,${cells}\nP2,${cells}\n`, planned, 0);
  expect(read.ok ? [] : read.issues.map(({ message }) => message)).toEqual([
    `The column "x" holds no place. Did you mean "${meant}"? Write the unit in every line: without one it is metres.`,
  ]);
});

it.each([
  ["-0.1", -0.1],
  ["\u22120.1", -0.1],
  ["- 100 mm", -0.1],
])("%s, towards the other side", (text, metres) => {
  for (const read of [offset, reading]) expect(read(text)).toBeCloseTo(metres, 9);
  expect(option(text)).toBeUndefined();
});
