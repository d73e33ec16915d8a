/** A small kitchen for tests of what comes after the engine: an island 2.4 m × 1.0 m, two layers, given light. */
import type { CalculationResult } from "../../src/engine/result.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { Evidence } from "../../src/luminaire/evidence.ts";
import type { Luminaire } from "../../src/luminaire/luminaire.ts";
import type { CalculationPlane } from "../../src/scene/calculation-plane.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import type { Scene } from "../../src/scene/scene.ts";
import type { Target } from "../../src/scene/target.ts";
export declare function rectanglePlane(name: string, corner: Vec3, size: readonly [number, number], columns: number, rows: number, zone?: string): CalculationPlane;
/** A Lambertian point luminaire pointing down: I = Φ/π · cos γ. */
export declare function lambertian(name: string, flux: number, evidence: Evidence, watts?: number): Luminaire;
export declare const PENDANT: Luminaire;
export declare const SPOT: Luminaire;
export declare function tinyScene(more?: Partial<Scene>): Scene;
/** Point-source light of every layer on every plane by the textbook: E = I cos ξ / d². No interreflection but
 * an even 20 lx from each layer. */
export declare function textbookResult(scene: Scene, interreflected?: number): CalculationResult;
export declare function tinyStudy(scenes: readonly Scene[], targets?: readonly Target[]): ResolvedStudy;
