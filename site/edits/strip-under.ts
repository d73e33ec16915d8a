/**
 * A strip of light under a wall unit or hood: a luminaire of its length, a layer of its own, and the counter below it as a plane that is
 * judged. Typical values to begin with, common practice, no source: 700 lm and 9 W to the metre, a half-angle of 60°, 50 mm behind the
 * front.
 */

import { metresOf } from "../../src/app.ts";
import type { Json } from "../store/pointer.ts";
import type { NamedEdit } from "./named-edit.ts";
import { freshName, type RawBody, type RawStudy, tidy } from "./raw-study.ts";
import { roomOf } from "./room-contents.ts";

const PER_METRE = { flux: 700, watts: 9 };
const WIDE = 0.012;
const BEHIND_FRONT = 0.05;
const BELOW = 0.01;
/** Left free at each end, and left out along the counter's edges (m). */
const END = 0.05;
const EDGE = 0.02;
/** Nothing lower has a counter below it (m). */
const LOWEST = 1.2;

type Box = readonly [low: readonly number[], high: readonly number[]];

function boxOf({ box }: RawBody): Box {
  const [a, b] = box.map((corner) => corner.map((each) => metresOf(each) ?? 0));
  return [a.map((each, axis) => Math.min(each, b[axis])), a.map((each, axis) => Math.max(each, b[axis]))];
}

/** Whether a strip can hang under a body: high enough, and square with the room. */
export function takesStrip(body: RawBody): boolean {
  return boxOf(body)[0][2] >= LOWEST && (body.turn ?? 0) === 0;
}

/** @returns nothing where no strip can hang */
export function stripUnder(study: RawStudy, arrangement: number, index: number): NamedEdit | undefined {
  const body = study.bodies?.[index];
  if (body === undefined || !takesStrip(body)) return undefined;
  const [low, high] = boxOf(body);
  const room = roomOf(study);
  // It has its back to the nearest wall: 0 at y = 0, then counter-clockwise.
  const gaps = [low[1], room.length - high[0], room.width - high[1], low[0]];
  const wall = gaps.indexOf(Math.min(...gaps));
  const along = wall % 2 === 0 ? 0 : 1;
  const across = 1 - along;
  const isBackLow = wall === 0 || wall === 3;
  const length = tidy(high[along] - low[along] - 2 * END);
  const front = isBackLow ? high[across] - BEHIND_FRONT : low[across] + BEHIND_FRONT;
  const position = [0, 0, tidy(low[2] - BELOW)];
  position[along] = tidy((low[along] + high[along]) / 2);
  position[across] = tidy(front);
  const layers = study.arrangements[arrangement].layers;
  const luminaire = freshName(`strip under ${body.name}`, Object.keys(study.luminaires ?? {}));
  const name = freshName(
    `under ${body.name}`,
    layers.map((each) => each.name),
  );
  const strip = {
    beam: { flux: Math.round(PER_METRE.flux * length), angle: 120 },
    opening: { shape: "rectangle", length, width: WIDE },
    watts: tidy(PER_METRE.watts * length),
  };
  const layer = { name, role: "other", luminaire, at: [{ position, ...(along === 0 ? {} : { turn: 90 }) }] };
  const counter = counterBelow(study, [low, high], along);
  return {
    name: `strip under ${body.name}`,
    edits: [
      { path: ["luminaires", luminaire], value: strip as unknown as Json },
      { path: ["arrangements", arrangement, "layers"], value: [...layers, layer] as unknown as Json },
      ...(counter === undefined ? [] : [{ path: ["planes"], value: planesWith(study, body.name, counter) }]),
    ],
  };
}

/** The part of the highest body below that lies along the strip's. */
function counterBelow({ bodies = [] }: RawStudy, [low, high]: Box, along: number) {
  const below = bodies
    .map(boxOf)
    .filter(
      ([from, to]) =>
        to[2] < low[2] && [0, 1].every((axis) => from[axis] < high[axis] && to[axis] > low[axis]),
    )
    .sort((a, b) => b[1][2] - a[1][2])[0];
  if (below === undefined) return undefined;
  const across = 1 - along;
  const from = [0, 0];
  const to = [0, 0];
  from[along] = Math.max(low[along], below[0][along]) + EDGE;
  to[along] = Math.min(high[along], below[1][along]) - EDGE;
  from[across] = below[0][across] + EDGE;
  to[across] = below[1][across] - EDGE;
  return {
    corner: [tidy(from[0]), tidy(from[1]), below[1][2]],
    u: [tidy(to[0] - from[0]), 0, 0],
    v: [0, tidy(to[1] - from[1]), 0],
  };
}

/** Planes of a study that named none begin with the island's, which are then no default any more. */
function planesWith(study: RawStudy, body: string, rectangle: object): Json {
  const planes = study.planes ?? (study.island === undefined ? [] : [{ name: "island top", on: "island" }]);
  const taken = [...planes, ...(study.island?.zones ?? [])].map(({ name }) => name);
  const name = freshName(`counter under ${body}`, taken);
  return [...planes, { name, rectangle, target: "preparation" }] as unknown as Json;
}
