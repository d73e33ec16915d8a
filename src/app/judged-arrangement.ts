import type { BodyShadow } from "../advice/body-shadow.ts";
import type { Clash } from "../advice/clashes/clash.ts";
import type { Findings } from "../advice/findings.ts";
import type { ArrangementAssessment, Statistics } from "../assessment/assessment.ts";
import type { CalculationResult } from "../engine/result.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";
import type { Scene } from "../scene/scene.ts";
import type { IsoluxField } from "./isolux-field.ts";

/** The light of a plane to draw contours from (lx, maintained and dimmed), calculated to the very edge. */
export interface PlaneContour {
  /** Name of the plane; its fine grid, and x, y, z of the cells' centres (m). */
  readonly plane: string;
  readonly grid: PlaneGrid;
  readonly points: Float64Array;
  readonly field: IsoluxField;
}

/** The light of one arrangement: what words, drawings and papers are made from. */
export interface JudgedArrangement {
  readonly scene: Scene;
  readonly result: CalculationResult;
  readonly assessment: ArrangementAssessment;
  /** One a plane that is a top or part of one, in the scene's order. */
  readonly contours: readonly PlaneContour[];
  /** What cannot hang or be built as it is placed. */
  readonly clashes: readonly Clash[];
  /** The whole top once boxes are shifted as the ways out of clashes say, where some are to be. */
  readonly shifted?: Statistics;
  /** What there is to say beside the verdict, where it was asked for. */
  readonly findings?: Findings;
  /** What the people's own bodies take from their hands, where people were asked for. */
  readonly bodyShadows?: readonly BodyShadow[];
}

/** The contours of one plane of a scene. */
export function contourOf(
  { contours }: Pick<JudgedArrangement, "contours">,
  plane: { readonly name: string } | undefined,
): PlaneContour | undefined {
  return plane === undefined ? undefined : contours.find(({ plane: name }) => name === plane.name);
}
