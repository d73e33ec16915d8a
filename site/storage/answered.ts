/** Longer than a database that works ever takes to answer (ms). */
const LONGEST_ANSWER = 8000;
/** Into how many turns it is cut. */
const TURNS = 16;

/** What was asked, or `TimeoutError` where no answer comes, neither yes nor no: as of a database whose other page is held or whose disk
 * is gone. What counts is time in which this page had its turn: while it is held up, by its own work or by a busy machine, an answer that
 * has come waits as well. */
export async function answered<T>(asked: Promise<T>, longest = LONGEST_ANSWER): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const silence = new Promise<never>((_, reject) => {
    const turn = (left: number): void => {
      if (left === 0) reject(new DOMException("no answer", "TimeoutError"));
      else timer = setTimeout(turn, longest / TURNS, left - 1);
    };
    turn(TURNS);
  });
  try {
    return await Promise.race([asked, silence]);
  } finally {
    clearTimeout(timer);
  }
}
