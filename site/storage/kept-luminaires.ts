/** What is on the shelf of luminaires, as the page shows it. */

import type { AppView } from "../app-view.ts";
import type { NewLuminaire } from "../edits/study-luminaires.ts";
import { type KeptLuminaire, LuminaireShelf } from "./luminaire-shelf.ts";

export interface ShelfState {
  shelf?: Promise<LuminaireShelf>;
  kept: readonly KeptLuminaire[];
  /** The one taken away last, until another is. */
  removed?: NewLuminaire;
  isOpen: boolean;
}

const states = new WeakMap<AppView["lighting"], ShelfState>();

type ShelfView = Pick<AppView, "lighting" | "say" | "redraw">;

export function stateOf(app: ShelfView): ShelfState {
  const state = states.get(app.lighting) ?? { kept: [], isOpen: false };
  states.set(app.lighting, state);
  return state;
}

/** Does something with the shelf, and lists it again. */
export async function withShelf(
  app: ShelfView,
  act: (shelf: LuminaireShelf) => Promise<void>,
): Promise<boolean> {
  const state = stateOf(app);
  try {
    state.shelf ??= LuminaireShelf.open();
    const shelf = await state.shelf;
    await act(shelf);
    state.kept = await shelf.list();
    app.redraw();
    return true;
  } catch (error) {
    state.shelf = undefined;
    const why = error instanceof Error ? error.message : String(error);
    app.say(`This browser keeps no luminaires (${why}).`);
    return false;
  }
}

/** Puts luminaires on the shelf. */
export async function keepLuminaires(app: ShelfView, luminaires: readonly NewLuminaire[]): Promise<void> {
  stateOf(app).isOpen = true;
  if (await withShelf(app, (shelf) => shelf.put(luminaires)))
    app.say(`Kept for every study: ${luminaires.map(({ name }) => name).join(", ")}.`);
}
