import type { Calculate } from "../../src/engine/calculate.ts";
import { LightEngine } from "../../src/engine/light-engine.ts";

/** The light of a scene by an engine of its own, which remembers nothing. */
export const calculate: Calculate = (scene, options, observer) =>
  new LightEngine().calculate(scene, options, observer);
