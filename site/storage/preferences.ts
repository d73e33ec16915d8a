/** What this browser keeps of a person rather than of a study: whether the page is light (`day`) or dark (`evening`). */

export type Mode = "day" | "evening" | "auto";

const MODE = "candlespan-mode";

export function keptMode(): Mode {
  try {
    const mode = localStorage.getItem(MODE);
    return mode === "day" || mode === "evening" ? mode : "auto";
  } catch {
    return "auto";
  }
}

export function keepMode(mode: Mode): void {
  try {
    localStorage.setItem(MODE, mode);
  } catch {
    // A browser that keeps nothing shows each visit by its own setting.
  }
}
