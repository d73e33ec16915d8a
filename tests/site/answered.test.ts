/** How long a database may keep silent. */
import { expect, it } from "vitest";
import { answered } from "../../site/storage/answered.ts";

const later = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

// 2026-11-29: on a busy machine a page that was held up for longer than a database may be silent said that its storage does not answer.
it("takes an answer that comes as soon as the page has its turn again", async () => {
  const LONGEST = 80;
  const heldUp = async (): Promise<string> => {
    for (let trip = 0; trip < 2; trip++) {
      await later(1);
      const until = performance.now() + 2 * LONGEST;
      while (performance.now() < until);
      await later(1);
    }
    return "kept";
  };
  expect(await answered(heldUp(), LONGEST)).toBe("kept");
});

it("gives up where nothing comes, and hands on what comes instead of an answer", async () => {
  await expect(answered(new Promise(() => {}), 16)).rejects.toMatchObject({ name: "TimeoutError" });
  await expect(answered(Promise.reject(new Error("full")), 16)).rejects.toThrow("full");
});
