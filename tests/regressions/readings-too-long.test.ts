/** 2026-11: a list of readings over a million characters was cut there without a word, and the site judged by what was left. */
import { expect, it } from "vitest";
import { Engines } from "../../src/app/engines.ts";
import { verifyReadings } from "../../src/app/verify.ts";
import { FILE_LIMITS } from "../../src/diagnostics/file-limits.ts";
import { kitchen, resolved } from "../support/studies.ts";

it("refuses a list of readings that is longer than it would read", async () => {
  const line = "100,100,500\n";
  const readings = `along,across,lux\n${line.repeat(Math.ceil(FILE_LIMITS.readings / line.length))}`;
  const study = resolved(kitchen());
  const outcome = await verifyReadings({ study, engines: new Engines() }, { readings, file: "site.csv" });
  expect(outcome).toMatchObject({
    ok: false,
    issues: [
      {
        code: "readings-too-long",
        where: { file: "site.csv" },
        expected: "at most 1000000 characters",
        received: `${readings.length}`,
      },
    ],
  });
});
