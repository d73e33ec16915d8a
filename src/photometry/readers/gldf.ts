/**
 * GLDF 1.0: a zip whose `product.xml` says which photometric file belongs to which emitter.
 *
 *   Emitters/Emitter/(Changeable|Fixed)LightEmitter → PhotometryReference → Photometries/Photometry →
 *   PhotometryFileReference → Files/File → the file under `ldc/`
 *   (a multi-channel emitter: LightSourceReference → LightSources/… → Channels/Channel → PhotometryReference)
 *
 * The light is that of all emitters of the first variant, each with its own flux, turn and place (emitters-together.ts); or of one of them,
 * where it is asked for. An emitter's rated luminous flux replaces the lamp flux of a relative file. Sensors are not light. Files named by
 * address are not fetched.
 *
 * The opening is that of the variant's simple geometry where it has one, else of the photometric file; that of several emitters covers the
 * light-emitting objects of the product's model.
 *
 * Known error: without a model, emitters shine from one centre.
 *
 * Reference: GLDF 1.0.0 XML schema (open, MIT).
 */

import { FILE_LIMITS, megabytes } from "../../diagnostics/file-limits.ts";
import { failure, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import { sumIfAll } from "../../numerics/known-sum.ts";
import type { LuminousOpening } from "../luminous-opening.ts";
import type { LampSet, Photometry } from "../photometry.ts";
import { rotatedDistribution, rotationAboutAxes } from "../rotated-distribution.ts";
import { decodeText } from "../text-decoding.ts";
import { type PhotometryReader, refusal } from "./checked-text.ts";
import { readContainer } from "./container.ts";
import {
  type LightEmitter,
  lightEmitters,
  openingOfEmitter,
  shiningTogether,
  variantCount,
} from "./gldf-emitters.ts";
import { placesOfEmitters, sumOfEmitters } from "./gldf-sum.ts";
import type { ReadOptions } from "./read-options.ts";
import { quote, SourceText } from "./source-text.ts";
import { attributeOf, child, readXml, textOf, type XmlElement } from "./xml.ts";

const PRODUCT = "product.xml";
const FOLDER = "ldc/";

interface ReadEmitter {
  readonly photometry: Photometry;
  readonly warnings: readonly Issue[];
  readonly watts: number | undefined;
}

/** The photometry of a GLDF container: of the emitters that shine together, or of the one asked for.
 * @param readInner reads a photometric file found inside; handed in, since it is what calls this one */
export function readGldf(
  bytes: Uint8Array,
  options: ReadOptions,
  readInner: PhotometryReader,
): Outcome<Photometry> {
  if (bytes.length > FILE_LIMITS.photometricArchive)
    return refusal(
      options,
      "photometry-too-large",
      "The archive is too large.",
      `at most ${megabytes(FILE_LIMITS.photometricArchive)}`,
      megabytes(bytes.length),
    );
  const container = readContainer(bytes, (name) => name === PRODUCT || name.startsWith(FOLDER));
  const refuse = (code: string, message: string, detail: Partial<Issue> = {}): Outcome<Photometry> =>
    failure({
      code,
      message,
      where: { file: options.file, line: 1, column: 1 },
      ...detail,
    });
  if (!container.ok) return refuse(container.code, container.message, { received: container.received });
  const product = container.files.get(PRODUCT);
  if (product === undefined)
    return refuse("gldf-no-product", "The archive has no product description.", { expected: PRODUCT });

  const source = new SourceText(decodeText(product).text, `${options.file}/${PRODUCT}`);
  const root = readXml(source);
  if (root === undefined) return failure(...source.errors);
  const all = lightEmitters(root);
  if (all.length === 0) {
    source.error(root.at, "gldf-no-light", "No light emitter refers to a photometric file.");
    return failure(...source.errors);
  }
  const chosen = options.lampSet === undefined ? shiningTogether(root, all) : [options.lampSet];
  if (all[chosen[0]] === undefined) {
    source.error(root.at, "lamp-set-unknown", "The product has no such light emitter.", {
      expected: `0 to ${all.length - 1}`,
      received: String(options.lampSet),
    });
    return failure(...source.errors);
  }
  const read = chosen.map((index) =>
    readEmitter(
      all[index],
      { together: chosen.length, opening: openingOfEmitter(root, all[index]) },
      source,
      options,
      container.files,
      readInner,
    ),
  );
  const faults = read.flatMap((each) => (each.ok ? [] : each.issues));
  if (faults.length > 0) return failure(...faults);
  const parts = read.flatMap((each) => (each.ok ? [each.value] : []));
  const summed =
    parts.length === 1
      ? parts[0].photometry
      : sumOfEmitters(
          parts.map(({ photometry }) => photometry),
          placesOfEmitters(
            root,
            chosen.map((index) => all[index]),
            bytes,
            options,
          ),
          root,
          options,
          source,
        );
  if (summed === undefined) return failure(...source.errors);
  sayWhatIsLeft(root, all, chosen, options, source);
  return success(
    {
      ...summed,
      format: "GLDF",
      edition: "",
      watts: sumIfAll(parts.map(({ watts }) => watts)),
      lampSets: all.map((each, i) => lampSetOf(each, parts[chosen.indexOf(i)]?.photometry)),
      lampSet: chosen[0],
      labels: [...labelsOf(root), ...summed.labels],
      description:
        localised(child(root, "ProductDefinitions", "ProductMetaData", "Name")) || summed.description,
    },
    [...source.warnings, ...parts.flatMap(({ warnings }) => warnings)],
  );
}

/** One emitter's file, rated by its flux and turned as it is mounted. */
function readEmitter(
  { light, file, byAddress, flux, watts, turn }: LightEmitter,
  { together, opening }: { readonly together: number; readonly opening: LuminousOpening | undefined },
  source: SourceText,
  options: ReadOptions,
  files: ReadonlyMap<string, Uint8Array>,
  readInner: PhotometryReader,
): Outcome<ReadEmitter> {
  const refuse = (code: string, message: string, detail: { expected?: string; received?: string }) => {
    source.error(light.at, code, message, detail);
    return failure<ReadEmitter>(...source.errors);
  };
  if (byAddress)
    return refuse("gldf-by-address", "The photometric file is given by its address, which is not fetched.", {
      expected: "the file itself inside the archive",
      received: quote(file),
    });
  const content = fileIn(files, file);
  if (content === undefined)
    return refuse("gldf-missing-file", "The photometric file is not in the archive.", {
      expected: quote(FOLDER + file),
    });
  const inner: ReadOptions = {
    file: `${options.file}/${file}`,
    tilt: (name) => tiltFile(files, name, options),
  };
  const own = together === 1 ? options.flux : undefined;
  const plain = readInner(content, own === undefined ? inner : { ...inner, flux: own });
  if (!plain.ok) return plain;
  const relamp = own === undefined && flux !== undefined && !plain.value.absolute;
  const rated = relamp ? readInner(content, { ...inner, flux }) : plain;
  // A file that cannot take another flux keeps its own.
  const { value, warnings } = rated.ok ? rated : plain;
  if (rated !== plain && value.ratedFlux !== plain.value.ratedFlux)
    source.warn(light.at, "gldf-flux", "The product's rated flux replaced that of the photometric file.", {
      expected: `${plain.value.ratedFlux} lm`,
      received: `${value.ratedFlux} lm`,
    });
  return success({
    photometry: turned(opening === undefined ? value : { ...value, opening }, turn, light.at, source),
    warnings,
    watts: watts ?? value.watts,
  });
}

function turned(
  photometry: Photometry,
  turn: LightEmitter["turn"],
  at: number,
  source: SourceText,
): Photometry {
  const [x, y, z, g0] = turn;
  if (turn.every((angle) => angle % 360 === 0)) return photometry;
  if (photometry.distribution.type !== "C") {
    source.warn(
      at,
      "gldf-turn",
      "The emitter is turned, which is not followed for photometry of type A or B.",
    );
    return photometry;
  }
  source.warn(at, "gldf-turn", "The emitter is turned as the product says: about x, then y, then z.", {
    received: `${x}°, ${y}°, ${z}°, C0 by ${g0}°`,
  });
  const own = rotatedDistribution(photometry.distribution, rotationAboutAxes(0, 0, g0));
  return { ...photometry, distribution: rotatedDistribution(own, rotationAboutAxes(x, y, z)) };
}

/** Emitters and variants whose light is not in the answer. */
function sayWhatIsLeft(
  root: XmlElement,
  all: readonly LightEmitter[],
  chosen: readonly number[],
  options: ReadOptions,
  source: SourceText,
): void {
  const variants = variantCount(root);
  if (options.lampSet !== undefined || all.length === chosen.length) return;
  source.warn(
    root.at,
    "gldf-emitters-left",
    variants > 1
      ? "The product has several variants; the light is that of the first."
      : "The product has further light emitters; their light is not in the answer.",
    { received: `${chosen.length} of ${all.length} emitters` },
  );
}

/** By its name under `ldc/`, letter case aside; the text may already hold the folder. */
function fileIn(files: ReadonlyMap<string, Uint8Array>, name: string): Uint8Array | undefined {
  const key = name.toLowerCase();
  return files.get(FOLDER + key) ?? files.get(key);
}

function tiltFile(
  files: ReadonlyMap<string, Uint8Array>,
  name: string,
  options: ReadOptions,
): Outcome<Uint8Array> {
  const bytes = fileIn(files, name);
  if (bytes !== undefined) return success(bytes);
  return failure({
    code: "lm63-tilt-file-missing",
    message: "The tilt file is not in the archive.",
    expected: quote(name),
    where: { file: options.file, line: 1, column: 1 },
  });
}

function lampSetOf(choice: LightEmitter, read: Photometry | undefined): LampSet {
  const own = read?.lampSets[read.lampSet];
  return {
    count: own?.count ?? 1,
    type: localised(child(choice.light, "Name")) || own?.type || attributeOf(choice.emitter, "id"),
    flux: read === undefined ? choice.flux : read.ratedFlux,
    watts: choice.watts ?? own?.watts,
    colourTemperature: own?.colourTemperature ?? "",
    colourRendering: own?.colourRendering ?? "",
  };
}

/** The first language of a text in several. */
function localised(element: XmlElement | undefined): string {
  return textOf(element, "Locale") || (element?.text ?? "");
}

function labelsOf(root: XmlElement): { key: string; value: string }[] {
  const header = child(root, "Header");
  return ["Manufacturer", "Author", "GldfCreationTimeCode", "CreationTimeCode"].flatMap((key) => {
    const value = textOf(header, key);
    return value === "" ? [] : [{ key, value }];
  });
}
