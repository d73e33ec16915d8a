/** The light where hands are, read back from the figure of the report. */
import { expect, it } from "vitest";
import { workingEdge } from "../../src/app/working-edge.ts";
import { handoverWords } from "../../src/papers/handover.ts";
import { workingEdgeBlocks } from "../../src/papers/working-edge-figure.ts";
import { handoverOf } from "../support/handover.ts";
import { kitchen } from "../support/studies.ts";

it("draws every place of the line at its height, and says its average and least", () => {
  const handover = handoverOf(kitchen());
  const [option] = handover.options;
  const edge = workingEdge(option.scene, option.assessment);
  const [sentence, figure] = workingEdgeBlocks(option, handoverWords(handover));
  if (edge === undefined || figure?.kind !== "figure" || sentence?.kind !== "paragraph")
    throw new Error("none");
  const marks = figure.draw(0, 0, 500);
  const [foot, mean] = marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "grid line" ? [mark.points[0][1]] : [],
  );
  const drawn = marks.flatMap((mark) =>
    mark.kind === "line" && mark.depicts === "working edge" && mark.points.length > 2 ? [mark.points] : [],
  )[0];
  // The dotted line stands for the average: it gives the scale.
  const perLux = (foot - mean) / edge.average;
  const errors = drawn.map(([, y], i) => Math.abs((foot - y) / perLux / edge.illuminance[i] - 1));
  console.log(
    `figure of the working edge: ${drawn.length} places, worst ${Math.max(...errors).toExponential(1)}`,
  );
  expect(drawn).toHaveLength(edge.distance.length);
  expect(Math.max(...errors)).toBeLessThan(1e-12);
  const words = marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
  expect(words).toContain(String(Math.round(edge.average)));
  expect(words).toContain(`least ${Math.round(edge.minimum)}`);
  expect(sentence.words).toContain("Along the edge that is worked at");
  expect(
    workingEdgeBlocks(
      handoverOf(kitchen({ island: undefined, arrangements: [{ name: "none", layers: [] }] })).options[0],
      handoverWords(handover),
    ),
  ).toEqual([]);
});
