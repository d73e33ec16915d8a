/**
 * What a GLDF product says of its light emitters: which photometric file each one has, with what flux, power and turn, which of them
 * shine together in one variant of the product, and the luminous opening of a simple geometry.
 *
 * Reference: GLDF 1.0.0 XML schema (open, MIT). Assumed: the order of an emitter's turns (about x, then y, then z); that a simple geometry's
 * length lies along C90–C270, as in EULUMDAT, which it stands in for.
 */

import type { LuminousOpening } from "../luminous-opening.ts";
import { openingOfSides } from "./eulumdat-opening.ts";
import { parseNumber } from "./number-scanner.ts";
import { attributeOf, child, childrenNamed, textOf, type XmlElement } from "./xml.ts";

export interface LightEmitter {
  readonly emitter: XmlElement;
  readonly light: XmlElement;
  /** Its name under `ldc/`, or its address. */
  readonly file: string;
  readonly byAddress: boolean;
  /** lm */
  readonly flux: number | undefined;
  /** W, of all its light sources. */
  readonly watts: number | undefined;
  /** Turns about x, y, z and of C0 about its own axis (degrees). */
  readonly turn: readonly [x: number, y: number, z: number, g0: number];
}

/** Every light emitter with a photometry, in the order of the file. */
export function lightEmitters(root: XmlElement): LightEmitter[] {
  const general = child(root, "GeneralDefinitions");
  const files = byId(childrenNamed(child(general, "Files"), "File"));
  const photometries = byId(childrenNamed(child(general, "Photometries"), "Photometry"));
  return childrenNamed(child(general, "Emitters"), "Emitter").flatMap((emitter) =>
    emitter.children
      .filter(({ name }) => /LightEmitter$/i.test(name))
      .flatMap((light) => photometryReferences(light, general).map((id) => ({ light, id })))
      .flatMap(({ light, id }): LightEmitter[] => {
        const file = files.get(attributeOf(child(photometries.get(id), "PhotometryFileReference"), "fileId"));
        if (file === undefined) return [];
        return [
          {
            emitter,
            light,
            file: file.text,
            byAddress: /^url$/i.test(attributeOf(file, "type")),
            flux: positive(textOf(light, "RatedLuminousFlux")),
            watts: wattsOf(light, general),
            turn: turnOf(child(light, "Rotation")),
          },
        ];
      }),
  );
}

/** Numbers of the emitters that shine together in the first variant; of a product that joins none, the first alone. */
export function shiningTogether(root: XmlElement, all: readonly LightEmitter[]): number[] {
  const [variant] = childrenNamed(child(root, "ProductDefinitions", "Variants"), "Variant");
  const ids = new Set(emitterIds(child(variant, "Geometry")));
  const first = (id: string): number =>
    all.findIndex(({ emitter, light }) => attributeOf(emitter, "id") === id && !isEmergency(light));
  const numbers = [...ids].map(first).filter((number) => number >= 0);
  return numbers.length > 0 ? numbers.sort((a, b) => a - b) : [0];
}

/** How many variants the product has. */
export function variantCount(root: XmlElement): number {
  return childrenNamed(child(root, "ProductDefinitions", "Variants"), "Variant").length;
}

/** The opening of an emitter where the first variant gives it a simple geometry, which goes before the photometric file's; millimetres. */
export function openingOfEmitter(root: XmlElement, { emitter }: LightEmitter): LuminousOpening | undefined {
  const [variant] = childrenNamed(child(root, "ProductDefinitions", "Variants"), "Variant");
  const reference = childrenNamed(child(variant, "Geometry"), "SimpleGeometryReference").find(
    (each) => attributeOf(each, "emitterId") === attributeOf(emitter, "id"),
  );
  const geometry = childrenNamed(child(root, "GeneralDefinitions", "Geometries"), "SimpleGeometry").find(
    (each) => attributeOf(each, "id") === attributeOf(reference, "geometryId"),
  );
  if (reference === undefined || geometry === undefined) return undefined;
  const size = (...path: string[]): number => positive(textOf(geometry, ...path)) ?? 0;
  const heights = ["C0", "C90", "C180", "C270"].map((side) => size("C-Heights", side));
  const diameter = size("CircularEmitter", "Diameter");
  if (diameter > 0) return openingOfSides([diameter, 0], heights);
  const [length, width] = [size("RectangularEmitter", "Length"), size("RectangularEmitter", "Width")];
  return length > 0 && width > 0 ? openingOfSides([length, width], heights) : undefined;
}

/** Which light-emitting objects of which model under `geo/` an emitter is in the first variant. */
export function objectsOfEmitter(
  root: XmlElement,
  { emitter }: LightEmitter,
): { readonly file: string; readonly names: readonly string[] } | undefined {
  const [variant] = childrenNamed(child(root, "ProductDefinitions", "Variants"), "Variant");
  const general = child(root, "GeneralDefinitions");
  const id = attributeOf(emitter, "id");
  for (const reference of childrenNamed(child(variant, "Geometry"), "ModelGeometryReference")) {
    const names = childrenNamed(reference, "EmitterReference")
      .filter((each) => attributeOf(each, "emitterId") === id)
      .flatMap((each) => childrenNamed(each, "EmitterObjectExternalName"))
      .map(({ text }) => text);
    const model = byId(childrenNamed(child(general, "Geometries"), "ModelGeometry")).get(
      attributeOf(reference, "geometryId"),
    );
    const [finest] = childrenNamed(model, "GeometryFileReference");
    const file = byId(childrenNamed(child(general, "Files"), "File")).get(attributeOf(finest, "fileId"));
    if (names.length > 0 && file !== undefined) return { file: file.text, names };
  }
  return undefined;
}

function emitterIds(element: XmlElement | undefined): string[] {
  if (element === undefined) return [];
  const own = attributeOf(element, "emitterId");
  return [...(own === "" ? [] : [own]), ...element.children.flatMap(emitterIds)];
}

/** Light that burns in an emergency alone is none of everyday. */
function isEmergency(light: XmlElement): boolean {
  return /^emergency ?only$/i.test(attributeOf(light, "emergencyBehaviour"));
}

/** Ids of the photometries of a light emitter; a multi-channel one has them at the channels of its light source. */
function photometryReferences(light: XmlElement, general: XmlElement | undefined): string[] {
  const own = attributeOf(child(light, "PhotometryReference"), "photometryId");
  if (own !== "") return [own];
  return sourcesOf(light, general)
    .flatMap((lamp) => childrenNamed(child(lamp, "Channels"), "Channel"))
    .map((channel) => attributeOf(child(channel, "PhotometryReference"), "photometryId"))
    .filter((id) => id !== "");
}

function sourcesOf(light: XmlElement, general: XmlElement | undefined): readonly XmlElement[] {
  const ids = new Set(child(light, "LightSourceReference")?.attributes.values() ?? []);
  return (child(general, "LightSources")?.children ?? []).filter((lamp) => ids.has(attributeOf(lamp, "id")));
}

/** Its own power, else that of its light sources, as many as it has. */
function wattsOf(light: XmlElement, general: XmlElement | undefined): number | undefined {
  const own = positive(textOf(light, "RatedInputPower"));
  if (own !== undefined) return own;
  const count = positive(attributeOf(child(light, "LightSourceReference"), "lightSourceCount")) ?? 1;
  const [lamp] = sourcesOf(light, general);
  const each = positive(textOf(lamp, "RatedInputPower"));
  return each === undefined ? undefined : each * count;
}

function turnOf(rotation: XmlElement | undefined): LightEmitter["turn"] {
  const angle = (name: string): number => parseNumber(textOf(rotation, name)) ?? 0;
  return [angle("X"), angle("Y"), angle("Z"), angle("G0")];
}

function byId(elements: readonly XmlElement[]): ReadonlyMap<string, XmlElement> {
  return new Map(elements.map((element) => [attributeOf(element, "id"), element]));
}

function positive(text: string): number | undefined {
  const value = parseNumber(text);
  return value !== undefined && value > 0 ? value : undefined;
}
