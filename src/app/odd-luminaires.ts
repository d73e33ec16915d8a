/** Figures that no luminaire has, each as a warning with its place. The thresholds are common practice, no source, each far from anything
 * sold or built. */

import { pathTo } from "../diagnostics/json-path.ts";
import type { Ledger } from "../diagnostics/ledger.ts";
import { lengthList, phrase } from "../diagnostics/phrase.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { cutOutSides } from "../luminaire/cut-out.ts";
import { cutOutFault, FLANGE, leastCutOut, mostCutOut } from "../luminaire/cut-out-fault.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { planExtents } from "../luminaire/plan-extent.ts";
import { BRACKET, FAR_BESIDE, firstBeside } from "../luminaire/points-beside.ts";
import { depthBeyondVoid, isSetIn } from "../scene/recess-depth.ts";
import type { Scene } from "../scene/scene.ts";

/** Less light for its power (lm/W) than a candle gives. */
const LEAST_EFFICACY = 0.3;
/** kg; no ceiling box holds a tenth of it. */
const MOST_WEIGHT = 500;
/** m */
const MOST_CANOPY = 2;
/** The poorest drivers without correction have 0.4. */
const LEAST_POWER_FACTOR = 0.2;
/** h; a filament run far above its voltage lasts as long. */
const LEAST_LIFE = 50;

/** @param luminaires by their names in the study */
export function checkLuminaires(
  luminaires: ReadonlyMap<string, Luminaire>,
  scenes: readonly Scene[],
  ledger: Ledger,
): void {
  for (const [name, luminaire] of luminaires) {
    const { flux, watts, markedWatts, weight, canopy, powerFactor, lampLife } = luminaire;
    const path = pathTo("/luminaires", name);
    if (watts === 0 && flux > 0)
      ledger.warn(
        "watts-none",
        `${path}/watts`,
        "It gives light and takes no power.",
        "its power, or no key",
      );
    if (watts !== undefined && watts > 0 && flux / watts < LEAST_EFFICACY)
      ledger.warn(
        "efficacy-low",
        `${path}/watts`,
        "It gives less light for its power than a candle; units may be wrong.",
        `more than ${LEAST_EFFICACY} lm/W`,
        `${Number((flux / watts).toPrecision(2))} lm/W`,
      );
    if (watts !== undefined && markedWatts !== undefined && watts > markedWatts)
      ledger.warn(
        "watts-above-marked",
        `${path}/watts`,
        "It takes more power than is marked on it.",
        `at most ${markedWatts} W`,
        `${watts} W`,
      );
    if (weight !== undefined && weight > MOST_WEIGHT)
      ledger.warn(
        "weight-high",
        `${path}/weight`,
        "It weighs more than any luminaire; units may be wrong.",
        `less than ${MOST_WEIGHT} kg`,
        `${weight} kg`,
      );
    if (canopy !== undefined && canopy.diameter > MOST_CANOPY)
      ledger.warn(
        "canopy-large",
        `${path}/canopy/diameter`,
        "The canopy is larger than any; units may be wrong.",
        phrase`less than ${MOST_CANOPY}`,
        phrase`${canopy.diameter}`,
      );
    checkRecess(name, luminaire, scenes, ledger);
    if (powerFactor !== undefined && powerFactor < LEAST_POWER_FACTOR)
      ledger.warn(
        "power-factor-low",
        `${path}/powerFactor`,
        "Its power factor is lower than any driver's; circuits are loaded by power over power factor.",
        `${LEAST_POWER_FACTOR} to 1, usually 0.5 to 0.95; or no key`,
        String(powerFactor),
      );
    if (lampLife !== undefined && lampLife < LEAST_LIFE)
      ledger.warn(
        "lamp-life-short",
        `${path}/lampLife`,
        "Its lamps last less than any; they are counted in hours.",
        `more than ${LEAST_LIFE} h, usually 1 000 to 50 000 h; or no key`,
        `${lampLife} h`,
      );
    warnBeyondBody(luminaire, path, ledger);
    for (const { key, index, point } of firstBeside(luminaire, FAR_BESIDE))
      warnBeside(point, key === "feed" ? `${path}/feed` : `${path}/suspensions/${index}`, ledger);
  }
}

/** Points of suspension and the feed beyond the body that hangs on them, the first of each; what lies far off is told as such. */
function warnBeyondBody(luminaire: Luminaire, path: string, ledger: Ledger): void {
  if (luminaire.body === undefined) return;
  const half = planExtents(luminaire).map((extent) => extent / 2);
  for (const { key, point } of firstBeside(luminaire, BRACKET, FAR_BESIDE))
    ledger.warn(
      "suspended-beyond-body",
      `${path}/${key}`,
      key === "feed" ? "The feed lies beyond the body." : "A suspension lies beyond the body.",
      phrase`at most ${lengthList(half, " and ")} from the middle, along and across`,
      lengthList(point),
    );
}

/** The hole that a luminaire is set into, and the room above it. */
function checkRecess(name: string, luminaire: Luminaire, scenes: readonly Scene[], ledger: Ledger): void {
  const path = pathTo("/luminaires", name);
  const { cutOut, body } = luminaire;
  const places = scenes.flatMap((scene) =>
    scene.layers.flatMap(({ luminaires }) =>
      luminaires.flatMap((placed) => (placed.luminaire.name === name ? [{ scene, placed }] : [])),
    ),
  );
  const fault = cutOutFault(
    luminaire,
    places.some(({ scene, placed }) => isSetIn(scene, placed)),
  );
  if (cutOut !== undefined && fault !== undefined) {
    const [length, width] = cutOutSides(cutOut);
    const [least, leastAcross] = cutOutSides(leastCutOut(luminaire) ?? 0);
    const [most, mostAcross] = mostCutOut(luminaire);
    ledger.warn(
      `cut-out-${fault}`,
      `${path}/cutOut`,
      fault === "small"
        ? "The hole is narrower than the luminaire's body, which does not pass it."
        : "The hole is wider than the luminaire with its flange, which would neither cover it nor be held by it.",
      fault === "small"
        ? phrase`at least ${least} × ${leastAcross}`
        : phrase`at most ${most} × ${mostAcross}, a flange of ${FLANGE} on each side`,
      phrase`${length} × ${width}`,
    );
  }
  const { ceilingVoid } = scenes[0].room;
  if (ceilingVoid === undefined) return;
  const depth = Math.max(0, ...places.map(({ scene, placed }) => depthBeyondVoid(scene, placed) ?? 0));
  if (depth > 0)
    ledger.warn(
      "void-shallow",
      body === undefined ? path : `${path}/body`,
      "It goes further into the ceiling than there is room above it.",
      phrase`at most ${ceilingVoid}, or a luminaire under the ceiling`,
      phrase`${depth}`,
    );
}

function warnBeside([x, y]: Vec2, path: string, ledger: Ledger): void {
  ledger.warn(
    "suspension-beside",
    path,
    "It lies far beside the luminaire.",
    "a place on it, from its photometric centre",
    phrase`(${x}, ${y})`,
  );
}
