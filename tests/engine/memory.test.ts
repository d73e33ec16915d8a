/** Memory stays flat over a thousand edits of a luminaire: what is remembered of one that hangs nowhere any more goes.
 * Runs the built library, in a process of its own, where the collector can be called. */
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

it("is the same after 1,000 edits as after 100", () => {
  const script = fileURLToPath(new URL("../support/memory-of-edits.mjs", import.meta.url));
  const told = execFileSync(process.execPath, ["--expose-gc", script], { encoding: "utf8" });
  const { edits, heap, sources } = JSON.parse(told) as Record<"edits" | "heap", number[]> & {
    readonly sources: number;
  };
  console.log(
    `heap after ${edits.join(", ")} edits: ${heap.map((mb) => mb.toFixed(1)).join(", ")} MB; ${sources} sources kept`,
  );
  // Kept for ever, each edit took 0.5 MB: 450 MB here. A collector leaves a megabyte more or less.
  expect(heap[heap.length - 1] - heap[0]).toBeLessThan(2);
});
