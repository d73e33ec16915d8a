/** Which fields each part of a study has: where they stand, what they are called, what they may be. */

import type { Limits } from "../length-field/number-text.ts";

export type StudyPart = "room" | "island" | "people" | "zones";

export interface StudyField {
  /** JSON pointer into the study document. */
  readonly path: string;
  readonly label: string;
  readonly kind: "length" | "fraction" | "number" | "text" | "choice";
  readonly limits?: Limits;
  readonly choices?: readonly string[];
}

export interface FieldGroup {
  readonly name: string;
  readonly fields: readonly StudyField[];
}

const SIZE: Limits = { least: 0.1, most: 30 };
const SHARE: Limits = { least: 0, most: 1 };

/** Fields of a part, in the order a survey takes them. `document` tells how many people and zones there are. */
export function fieldsOf(part: StudyPart, document: unknown, targets: readonly string[]): FieldGroup[] {
  const study = (document ?? {}) as { island?: { zones?: unknown[] }; people?: unknown[] };
  switch (part) {
    case "room":
      return [
        {
          name: "Room",
          fields: [
            length("/room/length", "Length"),
            length("/room/width", "Width"),
            length("/room/ceilingHeight", "Ceiling height", { least: 1.8, most: 12 }),
          ],
        },
        {
          name: "Finishes",
          fields: [
            share("/room/reflectance/ceiling", "Ceiling reflectance"),
            share("/room/reflectance/walls", "Wall reflectance"),
            share("/room/reflectance/floor", "Floor reflectance"),
          ],
        },
      ];
    case "island":
      return [
        {
          name: "Island",
          fields: [
            length("/island/length", "Length"),
            length("/island/width", "Width"),
            length("/island/height", "Height of the top", { least: 0.4, most: 1.5 }),
            length("/island/centre/0", "Centre from wall 3", { least: 0, most: 30 }),
            length("/island/centre/1", "Centre from wall 0", { least: 0, most: 30 }),
            length("/island/overhang/depth", "Overhang", { least: 0, most: 1 }),
            share("/island/reflectance/top", "Top reflectance"),
            {
              path: "/island/finish",
              label: "Finish of the top",
              kind: "choice",
              choices: ["matt", "satin", "polished"],
            },
          ],
        },
      ];
    case "people":
      return (study.people ?? []).map((person, i) => ({
        name: nameOf(person, `Person ${i + 1}`),
        fields: [
          { path: `/people/${i}/name`, label: "Name", kind: "text" },
          length(`/people/${i}/stature`, "Stature", { least: 0.8, most: 2.3 }),
          {
            path: `/people/${i}/posture`,
            label: "Posture",
            kind: "choice",
            choices: ["standing", "leaning", "seated"],
          },
          { path: `/people/${i}/age`, label: "Age", kind: "number", limits: { least: 1, most: 120 } },
          length(`/people/${i}/at/0`, "From wall 3", { least: 0, most: 30 }),
          length(`/people/${i}/at/1`, "From wall 0", { least: 0, most: 30 }),
        ],
      }));
    case "zones":
      return (study.island?.zones ?? []).map((zone, i) => ({
        name: nameOf(zone, `Zone ${i + 1}`),
        fields: [
          { path: `/island/zones/${i}/name`, label: "Name", kind: "text" },
          { path: `/island/zones/${i}/target`, label: "Target", kind: "choice", choices: targets },
          length(`/island/zones/${i}/from/0`, "From the left end", { least: 0, most: 30 }),
          length(`/island/zones/${i}/from/1`, "From the near side", { least: 0, most: 30 }),
          length(`/island/zones/${i}/size/0`, "Length", { least: 0.05, most: 30 }),
          length(`/island/zones/${i}/size/1`, "Width", { least: 0.05, most: 30 }),
        ],
      }));
  }
}

function length(path: string, label: string, limits: Limits = SIZE): StudyField {
  return { path, label, kind: "length", limits };
}

function share(path: string, label: string): StudyField {
  return { path, label, kind: "fraction", limits: SHARE };
}

function nameOf(thing: unknown, fallback: string): string {
  const { name } = (thing ?? {}) as { name?: unknown };
  return typeof name === "string" && name !== "" ? name : fallback;
}

/** For the undo list: `cook, stature 1720 mm`. */
export function editName(group: FieldGroup, field: StudyField, words: string): string {
  return `${group.name.toLowerCase()}, ${field.label.toLowerCase()} ${words}`;
}
