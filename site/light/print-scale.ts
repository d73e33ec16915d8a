/** Drawing scales on paper: CSS promises 96 px to the inch when a page is printed at 100 %. */

import { html, type TemplateResult } from "lit";
import { arrangementLetters } from "../../src/app.ts";
import type { StudySession } from "../session.ts";

const PX_PER_METRE = 96 / 0.0254;
/** Architects' scales, largest drawing first. */
const RATIOS = [10, 20, 25, 50, 100] as const;
/** Room beyond each end of the island on the sheet (m), and the sheet's margins for figures and names (px). */
const REACH = 0.32;
const MARGINS = 136;
/** Width and height of the printed sheet (mm): A4 and Letter upright both hold it. */
export const PAPER_WIDTH = 190;
const PAPER_HEIGHT = 257;
/** Words, legend and dimensions (px), and the elevation and people around the top (m), up the page; the profile may
 * stand on the next. */
const FIXED_HEIGHT = 355;
const AROUND_TOP = 2.1;

export interface PaperScale {
  /** px a metre of the kitchen */
  readonly perMetre: number;
  /** The scale with its line, the option and the date, in the head of the page. */
  readonly words: TemplateResult;
}

/** The largest of the usual scales at which the sheet of an island of this size (m) fits the paper. */
function paperScale(length: number, width: number): { readonly ratio: number; readonly perMetre: number } {
  const across = ((PAPER_WIDTH / 1000) * PX_PER_METRE - MARGINS) / (length + 2 * REACH);
  const up = ((PAPER_HEIGHT / 1000) * PX_PER_METRE - FIXED_HEIGHT) / (width + AROUND_TOP);
  const fits = RATIOS.find((ratio) => Math.min(across, up) >= PX_PER_METRE / ratio);
  const ratio = fits ?? RATIOS[RATIOS.length - 1];
  return { ratio, perMetre: PX_PER_METRE / ratio };
}

/** Prints at a usual scale. @param layOut draws the page for paper, or for the screen again without a scale */
export async function printToScale(
  session: StudySession,
  layOut: (paper: PaperScale | undefined) => Promise<unknown>,
): Promise<void> {
  if (session.light === undefined) return;
  const { room, island = room } = session.light.scene;
  document.documentElement.classList.add("on-paper");
  const scale = paperScale(island.length, island.width);
  await layOut({ ...scale, words: headWords(session, scale.ratio) });
  // The drawings measure their width when the browser has laid the page out.
  for (let i = 0; i < 3; i++) await new Promise((done) => requestAnimationFrame(done));
  print();
  document.documentElement.classList.remove("on-paper");
  await layOut(undefined);
}

function headWords({ study: { arrangements }, arrangement }: StudySession, ratio: number): TemplateResult {
  return html`<p class="paper-scale">1 : ${ratio} when printed at 100 %: the line is 100 mm long</p>
    <p class="paper-option">
      Option ${arrangementLetters(arrangements)[arrangement]} ${arrangements[arrangement].name},
      ${new Date().toLocaleDateString("en-CA")}
    </p>`;
}
