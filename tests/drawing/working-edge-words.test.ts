/** The working edge's name lies over no other words: 2026-11-29, in a low profile full of lines it lay over what the profile says of itself. */
import { expect, it } from "vitest";
import { workingEdge } from "../../src/app/working-edge.ts";
import { overlaps, type TextMark, textBox } from "../../src/drawing/drawing.ts";
import { islandAxes } from "../../src/drawing/island-axes.ts";
import { highestOf, profileAlong, targetLines } from "../../src/drawing/profile.ts";
import { profileDrawing } from "../../src/drawing/profile-drawing.ts";
import { profileFrame } from "../../src/drawing/profile-frame.ts";
import { sheetScale } from "../../src/drawing/sheet-scale.ts";
import { workingEdgeLine } from "../../src/drawing/working-edge-line.ts";
import { topLight } from "../../src/elements/shared/illuminance-probe.ts";
import { wording } from "../../src/words/wording.ts";
import { syntheticAssessment, syntheticScene, syntheticStudy } from "../support/synthetic-island.ts";

it("stands clear of all words, also where a profile is low", () => {
  const scene = syntheticScene();
  const assessment = syntheticAssessment(scene);
  const top = topLight(scene, assessment);
  const edge = workingEdge(scene, assessment);
  if (top === undefined || edge === undefined) throw new Error("the synthetic island has a working edge");
  const words = wording();
  const profile = profileAlong(top.grid, top.fine, islandAxes(scene));
  const targets = targetLines(scene.zones, syntheticStudy(scene).targets);
  const over: string[] = [];
  for (const width of [560, 700, 1040])
    for (const height of [84, 100, 150]) {
      const frame = profileFrame(highestOf(profile, targets), "lx", height);
      const scale = sheetScale(islandAxes(scene), width, { largest: 280 });
      const { marks } = profileDrawing(profile, targets, scale, words, frame);
      const others = marks.flatMap((mark) => (mark.kind === "text" ? [textBox(mark)] : []));
      // Names of many zones fill the field between the axis and its top.
      const full = { x: 0, y: frame.y(frame.top), width, height: frame.y(0) - frame.y(frame.top) };
      const line = workingEdgeLine(edge, scale, frame, words, [...others, full]);
      const name = line.find((mark): mark is TextMark => mark.kind === "text");
      if (name === undefined) throw new Error("no name");
      if (others.some((other) => overlaps(other, textBox(name)))) over.push(`${width} × ${height}`);
    }
  expect(over).toEqual([]);
});
