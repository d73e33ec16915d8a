/** The arrangement and the layer a command is about, by name or the usual one. */

import type { Scene } from "../scene/scene.ts";
import { usageError } from "./command.ts";

export function indexOfArrangement(scenes: readonly Scene[], name: string | undefined): number {
  if (name === undefined) return 0;
  const index = scenes.findIndex((scene) => scene.name === name);
  if (index >= 0) return index;
  throw usageError(
    "The study has no arrangement of that name.",
    scenes.map((scene) => JSON.stringify(scene.name)).join(", "),
    JSON.stringify(name),
  );
}

export function indexOfLayer({ layers }: Scene, name: string | undefined): number {
  const index =
    name === undefined
      ? layers.findIndex(({ role }) => role === "pendant")
      : layers.findIndex((layer) => layer.name === name);
  if (index >= 0) return index;
  throw usageError(
    name === undefined ? "The arrangement has no layer of pendants." : "There is no such layer.",
    layers.map((layer) => JSON.stringify(layer.name)).join(", ") || "a layer",
    name === undefined ? undefined : JSON.stringify(name),
  );
}
