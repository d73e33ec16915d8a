/** Hand-over: files for those who order, wire and hang. */

import { html } from "lit";
import { arrangementLetters } from "../../src/app.ts";
import type { AppView } from "../app-view.ts";
import { download, fileName } from "../storage/export-study.ts";
import { seeHolds } from "../store/hold-visit.ts";
import type { Export, Made } from "./exports.ts";
import { seatOffer } from "./kitchen/seat-offer.ts";
import { holdList } from "./papers/hold-list.ts";
import { paperDrawer } from "./papers/paper-drawer.ts";
import { siteReadings } from "./readings/site-readings.ts";
import type { View } from "./view.ts";

async function hand(app: AppView, each: Export): Promise<void> {
  const { shown } = app.lighting;
  if (shown === undefined) return;
  if (shown.quality !== "full" && shown.quality !== "judged") {
    app.say("The light is still being refined; the file waits for it. Ask again in a moment.");
    return;
  }
  app.say(`Making ${each.name.toLowerCase()}…`);
  let papers: Made;
  try {
    papers = await each.make(app, shown.answer);
  } catch (error) {
    app.say(error instanceof Error ? error.message : String(error));
    return;
  }
  const { ending, type, content } = papers;
  const option = app.study.arrangements[app.arrangement].name;
  const name = fileName(`${app.study.title ?? "kitchen"} ${option}`, ending);
  download(name, type, content);
  app.say(`Saved ${name}.`);
}

export const handOver: View = {
  entered: seeHolds,
  controls: (app) => html`
    <p class="row-of-actions"><button type="button" @click=${() => app.showClient(true)}>Show to the client</button></p>
    ${seatOffer(app)}
    ${holdList(app)}
    <section class="part" aria-labelledby="exports-heading">
      <h2 id="exports-heading">Files of option ${arrangementLetters(app.study.arrangements)[app.arrangement]} ${app.study.arrangements[app.arrangement].name}</h2>
      ${paperDrawer(app, (each) => void hand(app, each))}
      <p class="row-of-actions"><button type="button" @click=${() => app.printToScale()}>Print the sheet to scale</button></p>
    </section>
    ${siteReadings(app)}
    <section class="part">
      <h2>Before it is ordered</h2>
      <p>
        The figures are predictions with a band, for the dark. Boxes, supports and circuits are for licensed
        people and local codes to decide; check weights against the box, and keep glass and cords clear of heat.
      </p>
    </section>
  `,
};
