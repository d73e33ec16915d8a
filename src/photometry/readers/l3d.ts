/**
 * Where light leaves a luminaire in an L3D model: the light-emitting objects of its `structure.xml`, in the luminaire's frame (m).
 *
 *   Luminaire/Structure/Geometry/(LightEmittingObjects/LightEmittingObject | Joints/Joint/Geometries/Geometry …)
 *
 * each with Position (m) in what holds it and Rotation (degrees) in the order z, x, y about its own axes; joints stand as `DefaultRotation`
 * leaves them. A light-emitting object is a circle or a rectangle in its own plane of x and y.
 *
 * Reference: L3D XML reference of the GLDF documentation (open, MIT). Assumed: x lies along C0, y along C90, z upwards.
 */

import { add, type Vec3 } from "../../geometry/vector.ts";
import type { LuminousOpening } from "../luminous-opening.ts";
import { type Rotation, rotationAboutAxes } from "../rotated-distribution.ts";
import { decodeText } from "../text-decoding.ts";
import { readContainer } from "./container.ts";
import { parseNumber } from "./number-scanner.ts";
import { SourceText } from "./source-text.ts";
import { attributeOf, child, childrenNamed, readXml, type XmlElement } from "./xml.ts";

export interface LightEmittingObject {
  readonly centre: Vec3;
  /** Its extents along the luminaire's axes; undefined where it states no shape. */
  readonly opening: LuminousOpening | undefined;
}

interface Placing {
  readonly origin: Vec3;
  readonly turn: Rotation;
}

const STRUCTURE = "structure.xml";
const UNTURNED: Rotation = rotationAboutAxes(0, 0, 0);

/** By name; undefined where the bytes are no such model. */
export function lightEmittingObjects(
  bytes: Uint8Array,
  file: string,
): ReadonlyMap<string, LightEmittingObject> | undefined {
  const container = readContainer(bytes, (name) => name === STRUCTURE);
  const text = container.ok ? container.files.get(STRUCTURE) : undefined;
  if (text === undefined) return undefined;
  const root = readXml(new SourceText(decodeText(text).text, `${file}/${STRUCTURE}`));
  const objects = new Map<string, LightEmittingObject>();
  for (const geometry of childrenNamed(child(root, "Structure"), "Geometry"))
    collect(geometry, { origin: [0, 0, 0], turn: UNTURNED }, objects);
  return objects;
}

function collect(geometry: XmlElement, parent: Placing, found: Map<string, LightEmittingObject>): void {
  const own = placedIn(parent, geometry);
  for (const object of childrenNamed(child(geometry, "LightEmittingObjects"), "LightEmittingObject")) {
    const { origin, turn } = placedIn(own, object);
    found.set(attributeOf(object, "partName"), { centre: origin, opening: openingOf(object, turn) });
  }
  for (const joint of childrenNamed(child(geometry, "Joints"), "Joint")) {
    const still = placedIn(own, joint);
    const turned = { ...still, turn: composed(still.turn, rotationOf(child(joint, "DefaultRotation"))) };
    for (const inner of childrenNamed(child(joint, "Geometries"), "Geometry")) collect(inner, turned, found);
  }
}

function placedIn({ origin, turn }: Placing, part: XmlElement): Placing {
  return {
    origin: add(origin, turned(turn, vectorOf(child(part, "Position")))),
    turn: composed(turn, rotationOf(child(part, "Rotation"))),
  };
}

function openingOf(object: XmlElement, turn: Rotation): LuminousOpening | undefined {
  const size = (shape: string, key: string): number =>
    Math.max(0, parseNumber(attributeOf(child(object, shape), key)) ?? 0);
  const diameter = size("Circle", "diameter");
  const [x, y] = [size("Rectangle", "sizeX"), size("Rectangle", "sizeY")];
  if (diameter > 0) {
    const [length, width, height] = turn[2].map(
      (cosine) => diameter * Math.sqrt(Math.max(0, 1 - cosine ** 2)),
    );
    const level = height < 1e-6;
    return { shape: level ? "disc" : "box", length, width, height: level ? 0 : height };
  }
  if (!(x > 0 && y > 0)) return undefined;
  const [length, width, height] = [0, 1, 2].map((k) => Math.abs(turn[0][k]) * x + Math.abs(turn[1][k]) * y);
  return { shape: height > 0 ? "box" : "rectangle", length, width, height };
}

/** About z, then x, then y of the axes as they have turned: R = Rz Rx Ry. */
function rotationOf(element: XmlElement | undefined): Rotation {
  const [x, y, z] = vectorOf(element);
  return composed(
    composed(rotationAboutAxes(0, 0, z), rotationAboutAxes(x, 0, 0)),
    rotationAboutAxes(0, y, 0),
  );
}

/** First `inner`, then `outer`. */
function composed(outer: Rotation, inner: Rotation): Rotation {
  return [turned(outer, inner[0]), turned(outer, inner[1]), turned(outer, inner[2])];
}

function turned([x, y, z]: Rotation, v: Vec3): Vec3 {
  return [0, 1, 2].map((k) => x[k] * v[0] + y[k] * v[1] + z[k] * v[2]) as unknown as Vec3;
}

function vectorOf(element: XmlElement | undefined): Vec3 {
  const value = (key: string): number => parseNumber(attributeOf(element, key)) ?? 0;
  return [value("x"), value("y"), value("z")];
}
