/** The tables and words of the set-out sheet in the order they are needed. */

import type { SetOut } from "../../app/set-out/set-out.ts";
import { type Block, bullet, heading, SMALL } from "../../drawing/paper/flow.ts";
import { shortTags } from "../../scene/ceiling-boxes.ts";
import { topPlane } from "../../scene/top-plane.ts";
import { shiftedWords } from "../../words/shifted-words.ts";
import { chosenOption, type Handover, type HandoverWords } from "../handover.ts";
import { circuitTable, digitalNote, switchTable } from "./circuit-table.ts";
import { hanging, typeNames } from "./hanging.ts";
import { hold, setOutHolds } from "./holds.ts";
import { notes } from "./notes.ts";
import { asHung } from "./orientation-table.ts";
import { fixedTable, recessedTable, recesses } from "./other-boxes-tables.ts";
import { pendantTables } from "./pendant-table.ts";
import { suspensionTable } from "./suspension-table.ts";
import { toleranceTable } from "./tolerance-table.ts";

export function tables(handover: Handover, setOut: SetOut, words: HandoverWords, width: number): Block[] {
  const blocks: Block[] = [];
  const pendants = setOut.boxes.filter((box) => box.kind === "pendant");
  const recessed = setOut.boxes.filter((box) => box.kind === "recessed");
  if (pendants.length > 0)
    blocks.push(
      ...pendantTables(pendants, words, width),
      ...hanging(pendants, words),
      ...suspensionTable(pendants, words),
      ...toleranceTable(handover, pendants, words),
    );
  if (recessed.length > 0)
    blocks.push(
      heading(`Recessed, from the datum: ${typeNames(recessed)}`, 9),
      recessedTable(recessed, words),
      recesses(recessed, chosenOption(handover).scene, words),
    );
  const fixed = setOut.boxes.filter(({ kind }) => kind === "fixed");
  if (fixed.length > 0)
    blocks.push(
      heading(`Fixed below the ceiling, to cabinet, hood or wall: ${typeNames(fixed)}`, 9),
      fixedTable(fixed, words),
    );
  blocks.push(
    ...asHung(setOut, chosenOption(handover).scene, words),
    heading("Circuits", 9),
    circuitTable(handover),
    ...digitalNote(handover),
    ...switchTable(handover, words),
  );
  const flags = setOutHolds(handover, setOut, words);
  if (flags.length > 0) blocks.push(heading("HOLD: not to be built before this is settled", 9));
  for (const { tags, words: flag } of flags)
    blocks.push(hold(tags.length === 0 ? "all" : shortTags(tags), flag));
  const option = chosenOption(handover);
  const shifted = shiftedWords(option, option.assessment.planes[topPlane(option.scene)], words.lux);
  if (shifted !== undefined) blocks.push(bullet(shifted, SMALL));
  blocks.push(heading("Notes", 9), ...notes(handover, setOut, words));
  return blocks;
}
