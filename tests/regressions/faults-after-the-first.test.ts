/** 2026-11-28: after its first fault the XML reader went on and made an error of every further character: 3 MB of broken XML took 43 times as
 * long as a sound file of that length. A refused file costs no more than a sound one. */
import { expect, it } from "vitest";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";

const ROWS = Array.from({ length: 181 * 73 }, (_, i) => {
  const [h, v] = [5 * Math.floor(i / 181), i % 181];
  return `        <IntData h="${h}" v="${v}">${v < 90 ? 100 : 0}</IntData>`;
});
const sound = `<?xml version="1.0"?>
<IESTM33-22><Version>1.1</Version><Header><Description>d</Description></Header>
<Emitter><Quantity>1</Quantity><Description>e</Description><InputWattage>10</InputWattage>
<LuminousData><LuminousIntensity><AbsolutePhotometry>true</AbsolutePhotometry>
<NumberMeasured>${ROWS.length}</NumberMeasured>
${ROWS.join("\n")}
</LuminousIntensity></LuminousData></Emitter></IESTM33-22>`;

const spoilt: Record<string, string> = {
  "an ampersand in every row": sound.replaceAll("IntData h", "IntData & h"),
  "no end tags": sound.replaceAll("</IntData>", ""),
  "text after the root": sound.slice(0, 300) + "</x>" + "&".repeat(sound.length - 304),
  "unquoted attributes": sound.replaceAll('"', ""),
  "a document type": sound.replace("<IESTM33-22>", "<!DOCTYPE x><IESTM33-22>"),
};

/** Least time of several readings, of the processor (ms): another program's share counts for nobody. */
function time(text: string): number {
  const bytes = new TextEncoder().encode(text);
  const times = Array.from({ length: 5 }, () => {
    const start = process.cpuUsage();
    readPhotometry(bytes, { file: "a.xml" });
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

it("cost no more than a sound file", () => {
  const whole = readPhotometry(new TextEncoder().encode(sound), { file: "a.xml" });
  if (!whole.ok) throw new Error(JSON.stringify(whole.issues));
  const yardstick = time(sound);
  const ratios = Object.entries(spoilt).map(([name, text]) => {
    const outcome = readPhotometry(new TextEncoder().encode(text), { file: "a.xml" });
    expect([name, outcome.ok ? 0 : outcome.issues.length]).toEqual([name, 1]);
    return { name, ratio: time(text) / yardstick };
  });
  console.log(
    `sound ${yardstick.toFixed(1)} ms; worst ratio ${Math.max(...ratios.map(({ ratio }) => ratio)).toFixed(2)}`,
  );
  expect(ratios.filter(({ ratio }) => ratio > 1)).toEqual([]);
});
