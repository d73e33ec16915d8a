/**
 * What `check --json` adds beside the verdict of each arrangement. Metres, degrees, lux, watts, cd/m².
 *
 *   cards: [{ id, subject, rule, measure: { kind, of, low, high, found }, outcome, asks, row?: { count, pitch,
 *     clearance, width }, light?: { average, uniformity }, known, source, contradicts }]    rules that apply
 *   people: [{ name, posture, light?: { vertical, cylindrical, horizontal, modelling },
 *     head?: { gap, outcome, pendant, lean, rimAboveEye, rimAboveStandingEye },
 *     sightlines: [{ posture, direction, towards, hidden, by: [{ name, hidden }] }],
 *     glare: { unmeasured, inView: [{ layer, luminaire, position, luminance, what, elevation, offSight, visible, shielding,
 *       shielded }], ugr: { value, background, counted, leftOut } | null, unrated?, mirrored: [{ layer, luminaire, spot,
 *       luminance, around, ratio, incidence }] } }]
 *   load: { layers, circuits, fittedWatts, drawnWatts, markedWatts, wattsPerSquareMetre, kilowattHoursPerYear?, … }
 *   cost: { years, currency?, price?, lamps?, energy?, total?, layers: [{ layer, price?, … }], missing: [{ kind, luminaire | layer }] }
 *   ageing: [{ years, factor, illuminance }], age?: { person, age, band, zones }
 *   appearance: { view?: { viewpoint, covered, weight, words }, cohesion?: { outcome, sentence, sizeShare, … } }
 *   sizes: { counts, widths, clearance, cells: [{ count, width, gap, end, average, uniformity, agree, apply }] } | null
 *   surround: { walls?, ceiling?, dim: [{ zone, beside, asked, found }], readings?: [{ kind, of, average, minimum, maximum, points }] }
 *   row: { luminaire, mixed, count, pitch, gap, width, breadth, end, clearance, aboveFloor } | null
 */

import type { Findings, PersonFindings } from "../advice/findings.ts";
import type { PendantRow } from "../advice/pendant-row.ts";
import { degrees } from "../units/quantities.ts";

export function findingsJson(findings: Findings): object {
  const { cards, people, load, cost, ageing, age, view, cohesion, sizes, surround, row } = findings;
  return {
    cards: cards.filter(({ outcome }) => outcome !== "does not apply"),
    people: people.map(personJson),
    load,
    cost,
    ageing,
    age,
    appearance: { view, cohesion },
    sizes: sizes ?? null,
    surround,
    row: row === undefined ? null : rowJson(row),
  };
}

function rowJson(row: PendantRow): object {
  const { luminaire, mixed, count, pitch = null, gap = null, rim, breadth, end, clearance, aboveFloor } = row;
  return {
    luminaire: luminaire.name,
    mixed,
    count,
    pitch,
    gap,
    width: rim,
    breadth,
    end,
    clearance,
    aboveFloor,
  };
}

function personJson({ person, posture, light, head, sightlines, glare }: PersonFindings): object {
  const { inView, unmeasured, rating, unrated, mirrored } = glare;
  return {
    name: person,
    posture,
    light: light && {
      vertical: light.vertical,
      cylindrical: light.cylindrical,
      horizontal: light.horizontal,
      modelling: light.modelling ?? null,
    },
    head: head && {
      gap: head.gap,
      outcome: head.outcome,
      pendant: head.pendant,
      lean: degrees(head.lean),
      rimAboveEye: head.rimAboveEye,
      rimAboveStandingEye: head.rimAboveStandingEye,
    },
    sightlines: sightlines.map(({ posture: as, direction, towards, hidden, by }) => ({
      posture: as,
      direction,
      towards,
      hidden,
      by,
    })),
    glare: {
      inView: inView.map((seen) => ({
        layer: seen.layer,
        luminaire: seen.luminaire,
        position: seen.position,
        luminance: seen.luminance,
        what: seen.what,
        ...(seen.lampInSight === undefined ? {} : { lampInSight: seen.lampInSight }),
        elevation: degrees(seen.elevation),
        offSight: degrees(seen.offSight),
        visible: seen.visible,
        shielding: degrees(seen.shielding.angle),
        shielded: seen.shielded ?? null,
      })),
      unmeasured,
      ugr: rating ?? null,
      ...(unrated === undefined ? {} : { unrated }),
      mirrored: mirrored.map(({ layer, luminaire, spot, luminance, around, ratio, incidence, what }) => ({
        layer,
        luminaire,
        spot,
        luminance,
        what,
        around,
        // A dark top has no ratio to speak of.
        ratio: Number.isFinite(ratio) ? ratio : null,
        incidence: degrees(incidence),
      })),
    },
  };
}
