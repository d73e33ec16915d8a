/** The light on every surface of an arrangement's room, for a picture of it. */

import type { Observer } from "../diagnostics/cancelled.ts";
import { type Outcome, success } from "../diagnostics/issue.ts";
import {
  SKETCHED_LIGHT,
  SURFACE_LIGHT,
  type SurfaceLight,
  surfaceLight,
} from "../engine/surfaces/surface-light.ts";
import type { Scene } from "../scene/scene.ts";
import { type ArrangementRequest, openArrangement, type Workspace } from "./open-document.ts";
import { RoomLights } from "./room-light-cache.ts";

export interface RoomRequest extends ArrangementRequest {
  /** `sketch`: what a second or two allow, to look at while the rest is computed. */
  readonly quality: "sketch" | "full";
}

export interface RoomAnswer {
  readonly scene: Scene;
  readonly surfaces: SurfaceLight;
  /** What that light rests on: equal keys, equal light, whatever it is dimmed to. */
  readonly key: string;
  /** Whether people stood in that light. */
  readonly people: boolean;
}

/** With everyone standing in it when they are asked to. */
export async function roomLight(
  request: RoomRequest,
  workspace: Workspace,
  observer: Observer,
): Promise<Outcome<RoomAnswer>> {
  const opened = await openArrangement(request, true, workspace, observer);
  if (!opened.ok) return opened;
  const { study, scene, engines } = opened.value;
  const isSketch = request.quality === "sketch";
  // In full, rows of thousands of nodes: 170 MB of a kitchen that nobody asks for again.
  const engine = await (isSketch ? engines.get() : engines.passing());
  const people = request.people ?? study.options.people;
  const calculation = { ...study.options, people };
  workspace.rooms ??= new RoomLights();
  const { key, surfaces } = workspace.rooms.of(scene, request.quality, calculation, () =>
    surfaceLight(
      scene,
      (...of) => engine.calculate(...of),
      { ...(isSketch ? SKETCHED_LIGHT : SURFACE_LIGHT), calculation, sources: engine.sources },
      observer,
    ),
  );
  return success({ scene, surfaces, people, key });
}
