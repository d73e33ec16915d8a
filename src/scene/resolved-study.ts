import type { Issue } from "../diagnostics/issue.ts";
import type { DefaultUsed } from "../diagnostics/ledger.ts";
import type { Luminaire } from "../luminaire/luminaire.ts";
import type { CalculationOptions } from "./calculation-options.ts";
import type { Scene } from "./scene.ts";
import type { Target } from "./target.ts";

/** A study with every reference followed, every default filled in and every length in metres. */
export interface ResolvedStudy {
  readonly title: string;
  readonly display: { readonly length: "mm" | "m" | "ft-in"; readonly illuminance: "lx" | "fc" };
  /** One scene an arrangement, in the study's order. */
  readonly scenes: readonly Scene[];
  readonly luminaires: ReadonlyMap<string, Luminaire>;
  readonly targets: ReadonlyMap<string, Target>;
  readonly options: CalculationOptions;
  readonly defaults: readonly DefaultUsed[];
  readonly warnings: readonly Issue[];
}
