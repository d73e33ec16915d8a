/** The order of the test files: those that take longest first, so that at the end no processor waits for the other one. */
import { relative } from "node:path";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Browsers and traces before the many quick files. */
const PROJECTS = ["browser", "validation", "unit", "figures"];

/** Over some 8 s, longest first; a new clone knows no times, and how large a file is does not tell. */
const LONG = [
  "tests/shaders/parity.test.ts",
  "tests/browser/elements/elements.test.ts",
  "tests/browser/for-people.test.ts",
  "tests/browser/hand-over.test.ts",
  "tests/browser/first-minute.test.ts",
  "tests/shaders/preview-figures.test.ts",
  "tests/shaders/preview-interaction.test.ts",
  "tests/shaders/preview.test.ts",
  "tests/browser/storage-trouble.test.ts",
  "tests/browser/search.test.ts",
  "tests/browser/settings.test.ts",
  "tests/browser/elements/embedding.test.ts",
  "tests/validation/random-kitchens.test.ts",
  "tests/validation/uncertainty.test.ts",
  "tests/validation/shade-photons.test.ts",
  "tests/validation/openings-behind-solids.test.ts",
  "tests/validation/shades-behind-solids.test.ts",
  "tests/validation/photon-trace.test.ts",
  "tests/cli/read-back.test.ts",
  "tests/cli/killed.test.ts",
  "tests/cli/arrange-verify.test.ts",
  "tests/library/one-answer.test.ts",
  "tests/site/kitchen-guide.test.ts",
  "tests/documents/documents.test.ts",
  "tests/design/search/search.test.ts",
  "tests/engine/interreflection/fine-grid.test.ts",
  "tests/design/boxes/boxes.test.ts",
  "tests/app/progress.test.ts",
  "tests/cli/shuffled-words.test.ts",
];

export default class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification): number => {
      const place = LONG.indexOf(relative(this.ctx.config.root, moduleId).replaceAll("\\", "/"));
      return place < 0 ? LONG.length : place;
    };
    const project = ({ project: { name } }: TestSpecification): number => PROJECTS.indexOf(name);
    return (await super.sort(files)).sort((a, b) => project(a) - project(b) || rank(a) - rank(b));
  }
}
