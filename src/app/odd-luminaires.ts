/** Figures that no luminaire has, each as a warning with its place. The thresholds are common practice, no source, each far from anything
 * sold or built. */

import { pathTo } from "../diagnostics/json-path.ts";
import type { Ledger } from "../diagnostics/ledger.ts";
import { phrase } from "../diagnostics/phrase.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { cutOutSides } from "../luminaire/cut-out.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import { planExtents } from "../luminaire/plan-extent.ts";
import { firstBeside } from "../luminaire/suspension-points.ts";

/** Less light for its power (lm/W) than a candle gives. */
const LEAST_EFFICACY = 0.3;
/** kg; no ceiling box holds a tenth of it. */
const MOST_WEIGHT = 500;
/** m */
const MOST_CANOPY = 2;
/** What it hangs from may be wider than a luminaire, hardly by more (m), whatever its body; of a stated body `BRACKET` holds. */
const BESIDE = 0.5;
/** A thousandth of what a hole is cut to (m). */
const SAME_SIZE = 1e-6;
/** The poorest drivers without correction have 0.4. */
const LEAST_POWER_FACTOR = 0.2;
/** h; a filament run far above its voltage lasts as long. */
const LEAST_LIFE = 50;

/** @param luminaires by their names in the study */
export function checkLuminaires(luminaires: ReadonlyMap<string, Luminaire>, ledger: Ledger): void {
  for (const [name, luminaire] of luminaires) {
    const { flux, watts, markedWatts, weight, canopy, cutOut, powerFactor, lampLife } = luminaire;
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
    const [along, across] = planExtents(luminaire);
    if (cutOut !== undefined && luminaire.body !== undefined) {
      const [length, width] = cutOutSides(cutOut);
      if (length > along + SAME_SIZE || width > across + SAME_SIZE)
        ledger.warn(
          "cut-out-large",
          `${path}/cutOut`,
          "The hole is wider than the luminaire, which would neither cover it nor be held by it.",
          phrase`at most ${along} × ${across}`,
          phrase`${length} × ${width}`,
        );
    }
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
    for (const { key, index, point } of firstBeside(luminaire, BESIDE))
      warnBeside(point, key === "feed" ? `${path}/feed` : `${path}/suspensions/${index}`, ledger);
  }
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
