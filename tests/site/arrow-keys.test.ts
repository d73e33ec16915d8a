/** Arrow keys lose no step and make one change, however far behind the drawing is. */
import { expect, it, vi } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import type { AppView } from "../../site/app-view.ts";
import { DragEdit } from "../../site/edits/drag-edit.ts";
import * as LuminaireEdits from "../../site/edits/luminaires.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { StudyHistory } from "../../site/store/history.ts";
import type { Json } from "../../site/store/pointer.ts";
import { PUBLISHED_TARGETS_BY_ID } from "../../src/assessment/targets-published.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import type { LuminaireMoveDetail } from "../../src/elements.ts";
import { checkStudy } from "../../src/study/study.ts";
import { resolveStudy } from "../support/resolve-study.ts";

const beam = { beam: { flux: 800, angle: 60 }, opening: { diameter: 0.2 } };
const document = { ...example, luminaires: { dome: beam, cone: beam, globe: beam, downlight: beam } };

function sceneOf(study: unknown) {
  const photometry = new Map();
  return orThrow(
    resolveStudy(orThrow(checkStudy(study)), { photometry, publishedTargets: PUBLISHED_TARGETS_BY_ID }),
  ).scenes[0];
}

/** A hand on pendant 1; the drawing follows only when asked to. */
function hand() {
  const history = new StudyHistory(document as unknown as Json);
  const app = {
    history,
    arrangement: 0,
    lighting: { isBehind: false },
    display: { length: "mm", illuminance: "lx" },
    light: { scene: sceneOf(document) },
    say: () => {},
    get study() {
      return history.document as unknown as RawStudy;
    },
  };
  const drag = new DragEdit(app as unknown as AppView, () => {});
  return {
    history,
    app,
    follow: () => {
      app.light = { scene: sceneOf(history.document) };
    },
    press(by: readonly [number, number, number]) {
      const from = app.light.scene.layers[0].luminaires[0].frame.origin;
      const position = from.map((value, axis) => value + by[axis]) as unknown as [number, number, number];
      const move = { layer: 0, index: 0, layerName: "pendants", position, from };
      const detail = { ...move, phase: "commit", moves: [move], name: "move", reasons: [], by: "keyboard" };
      drag.move(detail as unknown as LuminaireMoveDetail, LuminaireEdits);
    },
    x: () => sceneOf(history.document).layers[0].luminaires[0].frame.origin[0],
  };
}

it("counts every press of a held key, also before the drawing follows", () => {
  const { history, press, follow, x } = hand();
  const before = x();
  for (let i = 0; i < 20; i++) {
    press([0.025, 0, 0]);
    if (i % 7 === 3) follow();
  }
  expect(x() - before).toBeCloseTo(0.5, 9);
  expect(history.done.map(({ name }) => name)).toEqual(["move pendant 1"]);
  history.undo();
  expect(x()).toBe(before);
});

it("begins another change after a pause, but never from a place the drawing has not reached", () => {
  vi.useFakeTimers({ toFake: ["performance"] });
  const { history, app, press, follow, x } = hand();
  const before = x();
  press([0.025, 0, 0]);
  follow();
  vi.advanceTimersByTime(2000);
  press([0.025, 0, 0]);
  expect(history.done).toHaveLength(2);
  app.lighting.isBehind = true;
  vi.advanceTimersByTime(2000);
  press([-0.005, 0, 0]);
  expect(history.done).toHaveLength(2);
  expect(x() - before).toBeCloseTo(0.045, 9);
  vi.useRealTimers();
});
