/** Some of the studies of `npm run long`: random and valid ones are answered whole, nearly valid ones refused with the place. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { randomStudy } from "../support/random-studies.ts";
import { answerOfStudy, faultOfSpoiltStudy, keysIn } from "./checked-studies.ts";

const FIXTURE = new URL("../../fixtures-data/every-key.study.json", import.meta.url);

it("hold every key of a study", () => {
  const wanted = keysIn(JSON.parse(readFileSync(FIXTURE, "utf8")));
  const found = new Set(
    Array.from({ length: 600 }, (_, seed) => [...keysIn(randomStudy(seed, true))]).flat(),
  );
  expect([...wanted].filter((key) => !found.has(key))).toEqual([]);
});

it("are answered whole", async () => {
  const answers = [];
  for (let seed = 0; seed < 4; seed++)
    answers.push({ seed, answer: await answerOfStudy(seed, { papers: seed === 3 }) });
  for (let seed = 10; seed < 30; seed++)
    answers.push({ seed, answer: await answerOfStudy(seed, { papers: seed % 10 === 1, coarse: true }) });
  expect(answers.filter(({ answer }) => answer.kind === "fault")).toEqual([]);
  expect(answers.filter(({ answer }) => answer.kind === "answered").length).toBeGreaterThan(12);
});

it("are refused with the place of one spoilt value", () => {
  const faults = Array.from({ length: 400 }, (_, seed) => faultOfSpoiltStudy(seed)).filter(
    (fault) => fault !== undefined,
  );
  expect(faults).toEqual([]);
});
