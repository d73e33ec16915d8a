/** Longer than a database that works ever takes to answer (ms). */
const LONGEST_ANSWER = 8000;

/** What was asked, or `TimeoutError` where no answer comes, neither yes nor no: as of a database whose other page is held or whose disk
 * is gone. */
export async function answered<T>(asked: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const silence = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new DOMException("no answer", "TimeoutError")), LONGEST_ANSWER);
  });
  try {
    return await Promise.race([asked, silence]);
  } finally {
    clearTimeout(timer);
  }
}
