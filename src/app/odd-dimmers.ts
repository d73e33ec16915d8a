/** Curves of dimmers that their luminaires do not follow. */

import type { Ledger } from "../diagnostics/ledger.ts";
import type { Scene } from "../scene/scene.ts";

/** A control voltage, `0-10 V` or `1...10V`; of the free words on dimming the only ones understood. */
const BY_VOLTAGE = /\b[01]\s*(?:-|–|…|\.{2,3}|to)\s*10\s*V\b/i;

/** The logarithmic levels of IEC 62386-102 are those of digital control; 0–10 V (IEC 60929) is set in volts. */
export function checkDimmers(scenes: readonly Scene[], ledger: Ledger): void {
  scenes.forEach(({ layers }, a) => {
    layers.forEach(({ dimmer, luminaires: [placed] }, l) => {
      const dimming = placed?.luminaire.dimming ?? "";
      if (dimmer?.control !== "logarithmic" || !BY_VOLTAGE.test(dimming)) return;
      ledger.warn(
        "curve-not-of-dimming",
        `/arrangements/${a}/layers/${l}/dimmer/control`,
        "The logarithmic curve is that of digital levels, not of a control by voltage.",
        '"linear" or points for 0–10 V; or digital dimming',
        dimming,
      );
    });
  });
}
