/** Forty small studies, the same on every run, which together use every key of the study format. */
import { islandStudies } from "./studies-island.mjs";
import { luminaireStudies } from "./studies-luminaires.mjs";
import { rowStudies } from "./studies-rows.mjs";

/** Name → study. */
export const STUDIES = { ...rowStudies(), ...islandStudies(), ...luminaireStudies() };
