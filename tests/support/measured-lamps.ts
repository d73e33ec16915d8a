/**
 * Flux (lm), beam angle (°) and measured axial intensity (cd) of five lamps as published by their test laboratories'
 * reports (names left out on purpose), and the axial intensity of cosⁿ of the same flux and beam.
 */
export const MEASURED_LAMPS: readonly {
  readonly name: string;
  readonly flux: number;
  readonly beam: number;
  readonly peak: number;
  readonly model: number;
}[] = [
  { name: "LED reflector lamp, 2 in", flux: 485, beam: 58, peak: 473.7, model: 476.6 },
  { name: "LED downlight", flux: 730, beam: 105, peak: 280, model: 278.4 },
  { name: "compact fluorescent downlight", flux: 514, beam: 120, peak: 154, model: 163.6 },
  { name: "incandescent reflector lamp in a downlight", flux: 570, beam: 55, peak: 510, model: 615 },
  { name: "LED downlight, narrow", flux: 1000, beam: 71, peak: 927.8, model: 695.6 },
];
