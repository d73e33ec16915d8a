/** No name and no English word decides anything: the same kitchen with every name another gives the same judgement. */
import { expect, it } from "vitest";
import { assess } from "../../src/assessment/assess.ts";
import type { ArrangementAssessment } from "../../src/assessment/assessment.ts";
import { uncertaintyLight } from "../../src/assessment/uncertainty/uncertainty-light.ts";
import { verdictMethod } from "../../src/assessment/uncertainty/verdict-method.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { topPlane } from "../../src/scene/top-plane.ts";
import { CONTEXT, ISLAND, kitchen, resolved } from "../support/studies.ts";

const study = resolved(
  kitchen({
    island: { ...ISLAND, zones: [{ name: "prep", from: [0, 0], size: [1.4, 1.1], target: "preparation" }] },
    planes: [
      { name: "floor", rectangle: { corner: [0, 0, 0], u: [5.4, 0, 0], v: [0, 4.2, 0] }, spacing: 0.5 },
      { name: "worktop", on: "island" },
    ],
  }),
  CONTEXT,
);

/** What looked like words of the program before: names that regular expressions and comparisons once looked for. */
const NAMES = [
  "island top",
  "floor, fine",
  "rest",
  "maintenance",
  "flux of (measured)",
  "walls",
  "island top, edge",
];

function renamed(scene: Scene): Scene {
  const luminaires = new Map<Luminaire, Luminaire>();
  let next = 0;
  const name = (): string => NAMES[next++ % NAMES.length];
  const other = (luminaire: Luminaire): Luminaire => {
    const known = luminaires.get(luminaire) ?? { ...luminaire, name: name() };
    luminaires.set(luminaire, known);
    return known;
  };
  return {
    ...scene,
    planes: scene.planes.map((plane) => ({ ...plane, name: name() })),
    layers: scene.layers.map((layer) => ({
      ...layer,
      luminaires: layer.luminaires.map((placed) => ({ ...placed, luminaire: other(placed.luminaire) })),
    })),
  };
}

it("judges a kitchen alike whatever its planes and luminaires are called", () => {
  const judged = (scene: Scene): ArrangementAssessment => {
    const engine = new LightEngine();
    const options = { quality: "full", patches: 150 } as const;
    const result = engine.calculate(scene, options);
    return assess(
      study,
      scene,
      result,
      verdictMethod(scene, result, uncertaintyLight(engine, options, engine)),
    );
  };
  const figures = ({ zones, verdict }: ArrangementAssessment) => ({
    verdict,
    checks: zones.flatMap(({ checks }) =>
      checks.map((check) => ({
        ...check,
        drivers: check.drivers.map(({ kind, share }) => [kind, share.toPrecision(9)]),
      })),
    ),
  });
  const [scene] = study.scenes;
  const other = renamed(scene);
  expect(figures(judged(other))).toEqual(figures(judged(scene)));
  expect(topPlane(other)).toBe(topPlane(scene));
  expect(topPlane(other)).toBe(topPlane(scene));
  expect(scene.planes[topPlane(scene)].name).toBe("worktop");
});
