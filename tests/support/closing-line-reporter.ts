import type { Reporter, TestModule } from "vitest/node";

/** Prints one plain closing line, `N passed, N failed, N skipped`, for machines that read only that. */
export default class ClosingLineReporter implements Reporter {
  onTestRunEnd(modules: ReadonlyArray<TestModule>, unhandled: ReadonlyArray<unknown>): void {
    let passed = 0;
    let failed = unhandled.length;
    let skipped = 0;
    for (const module of modules) {
      failed += module.errors().length;
      for (const test of module.children.allTests()) {
        const state = test.result().state;
        if (state === "passed") passed++;
        else if (state === "failed") failed++;
        else skipped++;
      }
    }
    console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
  }
}
