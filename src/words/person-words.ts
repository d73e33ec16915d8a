/** What a person over the island sees and bumps into, in plain words. Names come from studies; whoever shows them
 * makes them safe. */

import { ageBand } from "../advice/age.ts";
import type { PersonFindings } from "../advice/findings.ts";
import type { LuminaireInView, MirrorImage, PersonGlare } from "../advice/glare/person-glare.ts";
import { UGR_STEPS } from "../advice/glare/unified-glare-rating.ts";
import { GOOD_MODELLING } from "../advice/people/eye-light.ts";
import { FACE_SEEN, type Sightline } from "../advice/people/sightlines.ts";
import { quoted } from "../diagnostics/printable.ts";
import { listed } from "../diagnostics/sentence.ts";
import { degrees } from "../units/quantities.ts";
import type { Wording } from "./wording.ts";

/** How many times brighter than the top around it an image must be to be plain to see; our own, no source. */
export const HOT = 10;
/** EN 12464-1, catering kitchens, from memory. */
const CATERING_LIMIT = 22;

/** What a concern is about that is told of several people by each one's own figures. */
const RATING = "rating";

/** Something that asks for attention. */
export interface Concern {
  /** Equal for what is one and the same thing to several people. */
  readonly about: string;
  /** How bad it is, among concerns about the same. */
  readonly degree: number;
  /** A clause. */
  readonly words: string;
}

/** What asks for attention; empty when nothing does. */
export function personConcerns(found: PersonFindings, words: Wording): readonly Concern[] {
  const { glare, head } = found;
  const concerns: Concern[] = [];
  if (head !== undefined && head.outcome !== "clear") {
    const how =
      head.outcome === "in reach"
        ? `meets ${head.pendant}`
        : `comes within ${words.length(head.gap)} of ${head.pendant}`;
    concerns.push({ about: "head", degree: -head.gap, words: `leaning over, the head ${how}` });
  }
  const worst = hiddenFace(found);
  if (worst !== undefined) concerns.push({ about: "face", degree: worst.hidden, words: hiddenWords(worst) });
  const bare = glare.inView.find(({ shielded }) => shielded === false);
  if (bare !== undefined)
    concerns.push({
      about: `bright ${bare.luminaire}`,
      degree: bare.luminance,
      words: unshieldedWords(bare),
    });
  if (isGlaring(found)) {
    concerns.push({
      about: RATING,
      degree: ratingOf(found) - glareLimit(found.age),
      words: `what is in view ${glaringWords([found])}`,
    });
  }
  const [image] = glare.mirrored;
  if (image !== undefined && image.ratio >= HOT)
    concerns.push({
      about: `mirrored ${image.luminaire}`,
      degree: image.ratio,
      words: `the polished top mirrors ${imageWords(image)}`,
    });
  return concerns;
}

/** Concerns of several people, each said once: at its worst, a rating of all in view with everybody's own. */
export function sharedConcerns(
  people: readonly PersonFindings[],
  words: Wording,
): readonly { readonly people: readonly string[]; readonly words: string }[] {
  const concerns = new Map<string, { people: PersonFindings[]; worst: Concern }>();
  for (const each of people)
    for (const concern of personConcerns(each, words)) {
      const known = concerns.get(concern.about);
      if (known === undefined) concerns.set(concern.about, { people: [each], worst: concern });
      else {
        known.people.push(each);
        if (concern.degree > known.worst.degree) known.worst = concern;
      }
    }
  return [...concerns.values()].map(({ people: found, worst }) => ({
    people: found.map(({ person }) => person),
    words: worst.about === RATING ? `what is in view ${glaringWords(found)}` : worst.words,
  }));
}

function worstLine(lines: readonly Sightline[]): Sightline | undefined {
  return lines
    .filter(({ hidden }) => hidden >= FACE_SEEN)
    .reduce<Sightline | undefined>((a, b) => (a === undefined || b.hidden > a.hidden ? b : a), undefined);
}

export function hiddenWords({ towards, hidden, by }: Sightline): string {
  return `the face of ${towards} is ${Math.round(100 * hidden)} % hidden by ${by[0]?.name ?? "something"}`;
}

function unshieldedWords({ luminaire, luminance, elevation, shielding, what }: LuminaireInView): string {
  const bright = brightThing(luminaire, what);
  return `sees ${bright}, ${luminanceWords(luminance)}, ${degrees(elevation).toFixed(0)}° above the eye; such brightness ${shielding.words}`;
}

function brightThing(luminaire: string, what: LuminaireInView["what"]): string {
  return what === "lamp" ? `the bare lamp of ${quoted(luminaire)}` : quoted(luminaire);
}

function imageWords({ luminaire, tag, luminance, ratio }: MirrorImage): string {
  const times = ratio >= 100 ? "over 100" : ratio.toFixed(0);
  return `${quoted(luminaire)} ${tag}, ${luminanceWords(luminance)}, ${times} times as bright as the top around it`;
}

/** `12 000 cd/m²`, two figures. */
export function luminanceWords(luminance: number): string {
  const rounded = Math.round(Number(luminance.toPrecision(2)));
  return `${`${rounded}`.replace(/\B(?=(\d{3})+$)/g, "\u202f")} cd/m²`;
}

/** The greatest UGR of the one kind of kitchen that has a limit, a step lower for eyes over 65. */
export function glareLimit(age: number | undefined): number {
  return CATERING_LIMIT - (age === undefined ? 0 : ageBand(age).glareStep);
}

/** The rating of all that a person has in view, to the whole number that is printed and judged; 0 where there is none. */
function ratingOf({ glare }: PersonFindings): number {
  return Math.round(glare.rating?.value ?? 0);
}

/** Whether the rating of all that a person has in view is over the limit for such eyes. */
export function isGlaring(found: PersonFindings): boolean {
  return ratingOf(found) > glareLimit(found.age);
}

/** `is glaring taken together (UGR 21 for Ben and 24 for Cleo, where kitchens at work are held to 19 and 22)` */
export function glaringWords(people: readonly PersonFindings[]): string {
  const [values, limits] = [people.map(ratingOf), people.map(({ age }) => glareLimit(age))];
  const areSame = (all: readonly number[]): boolean => all.every((each) => each === all[0]);
  const rated = areSame(values)
    ? String(values[0])
    : listed(people.map(({ person }, i) => `${values[i]} for ${person}`));
  const held = areSame(limits)
    ? String(limits[0])
    : listed(
        limits.map((limit, i) => (areSame(values) ? `${limit} for ${people[i].person}` : String(limit))),
      );
  return `is glaring taken together (UGR ${rated}, where kitchens at work are held to ${held})`;
}

/** The face most hidden from someone in their own posture; undefined where all are seen. */
export function hiddenFace({ posture, sightlines }: PersonFindings): Sightline | undefined {
  const own = posture === "seated" ? "seated" : "standing";
  return worstLine(sightlines.filter((line) => line.posture === own && line.direction !== "along"));
}

/** Everything about one person, a sentence each. */
export function personSentences(found: PersonFindings, words: Wording): string[] {
  const { glare, light, head, sightlines } = found;
  const out: string[] = [];
  if (head !== undefined) {
    const where = (rise: number) => `${words.length(Math.abs(rise))} ${rise >= 0 ? "above" : "below"}`;
    const meets =
      head.outcome === "in reach"
        ? `leaning over, the head meets ${head.pendant}`
        : `leaning over, ${words.length(head.gap)} stay between the head and ${head.pendant}`;
    out.push(
      `The lowest edge hangs ${where(head.rimAboveEye)} the eye (${where(head.rimAboveStandingEye)} it standing upright); ${meets}.`,
    );
  }
  const hidden = sightlines.filter((line) => line.hidden >= FACE_SEEN);
  out.push(
    hidden.length === 0
      ? "Faces across, along the island and of everyone else are in plain view, standing and seated."
      : `${hidden.map((line, i) => `${i === 0 ? "For" : "for"} ${found.person} ${line.posture}, ${hiddenWords(line)}`).join("; ")}.`,
  );
  out.push(glareWords(glare, found.age));
  for (const image of glare.mirrored.slice(0, 3))
    out.push(
      `Mirrored in the top: ${imageWords(image)}${image.ratio >= HOT ? ", plain to see" : ""} (${words.length(image.spot[0])} from wall 3, ${words.length(image.spot[1])} from wall 0).`,
    );
  if (light !== undefined) {
    const { modelling } = light;
    const balance =
      modelling === undefined
        ? ""
        : `; modelling ${modelling.toFixed(2)}, ${
            modelling < GOOD_MODELLING[0]
              ? "flat from above"
              : modelling > GOOD_MODELLING[1]
                ? "much from the side"
                : "balanced"
          } (0.30 to 0.60 is called balanced by EN 12464-1, written for work places; confirm it in its text)`;
    out.push(
      `Light on the face: vertical ${words.light(light.vertical)}, cylindrical ${words.light(light.cylindrical)}${balance}.`,
    );
  }
  return out;
}

function glareWords({ inView, unmeasured, rating, unrated }: PersonGlare, age: number | undefined): string {
  const [brightest] = inView;
  const others =
    unmeasured === 0
      ? ""
      : ` ${unmeasured} in view state no luminous opening, so how bright they are cannot be told.`;
  if (brightest === undefined) return unmeasured === 0 ? "No luminaire is in view." : others.trim();
  const most = glareLimit(age);
  const limit = `${most}${most < CATERING_LIMIT ? ` at ${age} years, one step under the ${CATERING_LIMIT}` : ""}`;
  const { luminaire, luminance, what, shielded, elevation } = brightest;
  const addition =
    what === "mean over the opening"
      ? " (mean over its opening; a visible lamp can be 10 to 100 times brighter)"
      : "";
  const source = brightThing(luminaire, what);
  const height = `${Math.abs(degrees(elevation)).toFixed(0)}° ${elevation >= 0 ? "above" : "below"} the eye`;
  const kept =
    shielded === false
      ? `: it ${brightest.shielding.words} (EN 12464-1, secondary)`
      : shielded === true && brightest.shielding.angle > 0 && elevation > 0
        ? ", as high as its brightness asks"
        : "";
  const glare =
    rating === undefined
      ? `No glare rating: ${unrated ?? "not calculated"}.`
      : `UGR ${rating.value < UGR_STEPS[0] ? `under ${UGR_STEPS[0]}` : rating.value.toFixed(0)} from ${rating.counted} in view${rating.leftOut > 0 ? `, ${rating.leftOut} left out as it does not speak of them` : ""} (position index to be confirmed in CIE 117; the limit would be ${limit} of catering kitchens, homes have none).`;
  return `Brightest in view: ${source}, ${luminanceWords(luminance)}${addition}, ${height}${kept}. ${glare}${others}`;
}
