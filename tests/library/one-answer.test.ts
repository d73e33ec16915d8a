/** One question, one answer: library, command, worker thread and main thread give the same bits for the worked example (that a worker
 * gives the main thread's is tested beside the workers). */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { CandlespanError, openStudy, type Study } from "candlespan";
import { spawn } from "candlespan/workers";
import { beforeAll, describe, expect, it } from "vitest";
import { isoluxField } from "../../src/app/isolux-field.ts";
import type { LightAnswer } from "../../src/app/light-answer.ts";
import { topLight } from "../../src/elements/shared/illuminance-probe.ts";
import { handoverOption } from "../../src/papers/handover.ts";
import { called } from "../support/cli.ts";

const folder = fileURLToPath(new URL("../../fixtures-data/boathouse/", import.meta.url));
const path = `${folder}boathouse.study.json`;
const text = readFileSync(path, "utf8");
const document = JSON.parse(text);
const NAME = document.arrangements[0].name as string;
const files = readdirSync(`${folder}photometry`).map((name) => ({
  path: `photometry/${name}`,
  content: new Uint8Array(readFileSync(`${folder}photometry/${name}`)),
}));
const read = async (named: string): Promise<Uint8Array> => readFileSync(folder + named);

/** Typed arrays as JSON writes them, so that answers of a process can be compared to the last bit. */
const asJson = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, each) => (ArrayBuffer.isView(each) ? [...(each as Float64Array)] : each)),
  );

/** What every way in must agree on: figures, bands, verdicts, fields. */
function figures({ assessment }: LightAnswer): unknown {
  return asJson({
    planes: assessment.planes.map(({ name, illuminance, statistics, fine }) => ({
      name,
      illuminance,
      statistics,
      fine: fine && { minimum: fine.minimum, maximum: fine.maximum, illuminance: fine.illuminance },
    })),
    zones: assessment.zones.map(({ name, verdict, checks }) => ({ name, verdict, checks })),
    verdict: assessment.verdict,
  });
}

describe("the worked example", () => {
  let study: Study;
  let answer: Awaited<ReturnType<Study["check"]>>;
  beforeAll(async () => {
    study = await openStudy(text, { read });
    answer = await study.check(NAME);
  });

  it("is answered by the command as by the library", async () => {
    const { out } = await called("check", path, "--arrangement", NAME, "--json", "--fine");
    const [printed] = JSON.parse(out).arrangements;
    const { contours, ...own } = answer;
    const flat = asJson(own) as { planes: { points: unknown; fine?: { points: unknown } }[] };
    for (const plane of printed.planes) {
      plane.points = plane.points.flat();
      if (plane.fine !== undefined) plane.fine.points = plane.fine.points.flat();
    }
    printed.workingEdge.points = printed.workingEdge.points.flat();
    // Words are the command's.
    delete printed.method.description;
    expect(flat).toEqual(printed);
    expect(contours.length).toBeGreaterThan(0);
  });

  it("is answered by a worker as by the library", async () => {
    const request = { document, arrangement: 0, quality: "judged" } as const;
    const worker = spawn();
    await worker.call("files", { files }).outcome;
    const there = await worker.call("light", request).outcome;
    worker.close();
    if (!there.ok) throw new Error("no light");
    const mine = {
      planes: answer.planes.map(({ name, illuminance, statistics, fine }) => ({
        name,
        illuminance,
        statistics,
        fine: fine && { minimum: fine.minimum, maximum: fine.maximum, illuminance: fine.illuminance },
      })),
      zones: answer.zones.map(({ name, verdict, checks }) => ({ name, verdict, checks })),
      verdict: answer.verdict,
    };
    const library = asJson({ ...mine });
    expect(figures(there.value)).toEqual(library);
    expect(asJson(there.value.contours)).toEqual(asJson(answer.contours));
    // What the plan on screen is drawn from is what the sheets of paper are drawn from.
    const top = topLight(there.value.scene, there.value.assessment);
    const paper = handoverOption(there.value).top?.field;
    if (top === undefined || paper === undefined) throw new Error("no top");
    expect(isoluxField(top.grid, top.values, top.margin).values).toEqual(paper.values);
    const numbers = answer.planes.reduce((sum, plane) => sum + plane.illuminance.length, 0);
    console.log(`worst error 0 in ${numbers} points and ${answer.contours.length} contour fields`);
  });

  it("has contours that end where the light was calculated: on the very edge", () => {
    const top = answer.contours.find(({ plane }) => plane === answer.top) ?? answer.contours[0];
    const { along, across, values } = top.field;
    expect(along[0]).toBe(0);
    expect(along[along.length - 1]).toBeCloseTo(document.island.length, 9);
    expect(values.length).toBe(along.length * across.length);
    expect(values.every((value) => value > 0)).toBe(true);
  });
});

describe("a study", () => {
  it("throws what is wrong, with its place, and names what there is", async () => {
    const broken = text.replace('"format"', '"fromat"');
    const error = await openStudy(broken, { read, file: "a.study.json" }).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(CandlespanError);
    const { issues } = error as CandlespanError;
    expect(issues[0].where).toMatchObject({ file: "a.study.json" });
    expect(issues[0].where.line).toBeGreaterThan(0);
    const study = await openStudy(document, { read });
    await expect(study.check("no such")).rejects.toThrow(/no arrangement of that name.*three domes/s);
    await expect(study.check(NAME, { confidence: 2 })).rejects.toThrow(/0.5 to 0.999/);
    await expect(study.swap({ instead: "no such" })).rejects.toThrow(/no such luminaire/);
  });

  it("takes files it carries, and says which it could not get", async () => {
    const embedded = Object.fromEntries(
      files.map(({ path: name, content }) => [name, { base64: Buffer.from(content).toString("base64") }]),
    );
    expect((await openStudy({ ...document, embedded })).arrangements).toContain(NAME);
    const failing = openStudy(text, { read: () => Promise.reject(new Error("not found there")) });
    await expect(failing).rejects.toThrow(/\/luminaires\/.*not found there/);
  });
});
