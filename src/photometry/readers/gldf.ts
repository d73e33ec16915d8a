/**
 * GLDF 1.0: a zip whose `product.xml` says which photometric file belongs to which emitter.
 *
 *   Emitters/Emitter/(Changeable|Fixed)LightEmitter → PhotometryReference → Photometries/Photometry →
 *   PhotometryFileReference → Files/File → the file under `ldc/`
 *   (a multi-channel emitter: LightSourceReference → LightSources/… → Channels/Channel → PhotometryReference)
 *
 * Every light emitter with a photometry is one choice; the first is the default. Its rated luminous flux replaces
 * the lamp flux of a relative file. Sensors are not light. Files named by address are not fetched.
 *
 * Reference: GLDF 1.0.0 XML schema (open, MIT).
 */

import { failure, type Issue, type Outcome, success } from "../../diagnostics/issue.ts";
import type { LampSet, Photometry } from "../photometry.ts";
import { decodeText } from "../text-decoding.ts";
import { readContainer } from "./container.ts";
import { parseNumber } from "./number-scanner.ts";
import type { ReadOptions } from "./read-options.ts";
import { quote, SourceText } from "./source-text.ts";
import { attributeOf, child, childrenNamed, readXml, textOf, type XmlElement } from "./xml.ts";

const PRODUCT = "product.xml";
const FOLDER = "ldc/";

/** Reads a photometric file found inside; handed in, since it is what calls this one. */
export type InnerReader = (bytes: Uint8Array, options: ReadOptions) => Outcome<Photometry>;

interface Choice {
  readonly emitter: XmlElement;
  readonly light: XmlElement;
  readonly fileName: string;
  readonly flux: number | undefined;
  readonly watts: number | undefined;
}

/** The photometry of one light emitter of a GLDF container. */
export function readGldf(
  bytes: Uint8Array,
  options: ReadOptions,
  readInner: InnerReader,
): Outcome<Photometry> {
  const container = readContainer(bytes, (name) => name === PRODUCT || name.startsWith(FOLDER));
  const refuse = (code: string, message: string, detail: Partial<Issue> = {}): Outcome<Photometry> =>
    failure({
      code,
      severity: "error",
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
  const choices = choicesOf(root);
  if (choices.length === 0) {
    source.error(root.at, "gldf-no-light", "No light emitter refers to a photometric file.");
    return failure(...source.errors);
  }
  const index = options.lampSet ?? 0;
  const choice = choices[index];
  if (choice === undefined) {
    source.error(root.at, "lamp-set-unknown", "The product has no such light emitter.", {
      expected: `0 to ${choices.length - 1}`,
      received: String(index),
    });
    return failure(...source.errors);
  }
  const content = fileIn(container.files, choice.fileName);
  if (content === undefined) {
    source.error(choice.light.at, "gldf-missing-file", "The photometric file is not in the archive.", {
      expected: quote(FOLDER + choice.fileName),
    });
    return failure(...source.errors);
  }

  const inner: ReadOptions = {
    file: `${options.file}/${choice.fileName}`,
    tilt: (name) => tiltFile(container.files, name, options),
  };
  const plain = readInner(content, { ...inner, flux: options.flux });
  if (!plain.ok) return plain;
  const relamp = options.flux === undefined && choice.flux !== undefined && !plain.value.absolute;
  const read = relamp ? readInner(content, { ...inner, flux: choice.flux }) : plain;
  // A file that cannot take another flux keeps its own.
  const { value, warnings } = read.ok ? read : plain;
  if (read !== plain && value.ratedFlux !== plain.value.ratedFlux)
    source.warn(
      choice.light.at,
      "gldf-flux",
      "The product's rated flux replaced that of the photometric file.",
      {
        expected: `${plain.value.ratedFlux} lm`,
        received: `${value.ratedFlux} lm`,
      },
    );
  return success(
    {
      ...value,
      format: "GLDF",
      edition: "",
      watts: choice.watts ?? value.watts,
      lampSets: choices.map((each, i) => lampSetOf(each, i === index ? value : undefined)),
      lampSet: index,
      labels: [...labelsOf(root), ...value.labels],
      description:
        localised(child(root, "ProductDefinitions", "ProductMetaData", "Name")) || value.description,
    },
    [...source.warnings, ...warnings],
  );
}

function choicesOf(root: XmlElement): Choice[] {
  const general = child(root, "GeneralDefinitions");
  const files = new Map(
    childrenNamed(child(general, "Files"), "File").map((file) => [attributeOf(file, "id"), file]),
  );
  const photometries = new Map(
    childrenNamed(child(general, "Photometries"), "Photometry").map((entry) => [
      attributeOf(entry, "id"),
      entry,
    ]),
  );
  return childrenNamed(child(general, "Emitters"), "Emitter").flatMap((emitter) =>
    emitter.children
      .filter(({ name }) => /LightEmitter$/i.test(name))
      .flatMap((light) => photometryReferences(light, general).map((id) => ({ light, id })))
      .flatMap(({ light, id }): Choice[] => {
        const photometry = photometries.get(id);
        const file = files.get(attributeOf(child(photometry, "PhotometryFileReference"), "fileId"));
        if (file === undefined || /^url$/i.test(attributeOf(file, "type"))) return [];
        return [
          {
            emitter,
            light,
            fileName: file.text,
            flux: positive(textOf(light, "RatedLuminousFlux")),
            watts: positive(textOf(light, "RatedInputPower")),
          },
        ];
      }),
  );
}

/** Ids of the photometries of a light emitter; a multi-channel one has them at the channels of its light source. */
function photometryReferences(light: XmlElement, general: XmlElement | undefined): string[] {
  const own = attributeOf(child(light, "PhotometryReference"), "photometryId");
  if (own !== "") return [own];
  const named = child(light, "LightSourceReference")?.attributes.values() ?? [];
  const ids = new Set(named);
  return (child(general, "LightSources")?.children ?? [])
    .filter((lamp) => ids.has(attributeOf(lamp, "id")))
    .flatMap((lamp) => childrenNamed(child(lamp, "Channels"), "Channel"))
    .map((channel) => attributeOf(child(channel, "PhotometryReference"), "photometryId"))
    .filter((id) => id !== "");
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
  const found = fileIn(files, name);
  if (found !== undefined) return success(found);
  return failure({
    code: "lm63-tilt-file-missing",
    severity: "error",
    message: "The tilt file is not in the archive.",
    expected: quote(name),
    where: { file: options.file, line: 1, column: 1 },
  });
}

function lampSetOf(choice: Choice, read: Photometry | undefined): LampSet {
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

function positive(text: string): number | undefined {
  const value = parseNumber(text);
  return value !== undefined && value > 0 ? value : undefined;
}
