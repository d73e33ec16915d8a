/** Sentences for the system's codes, so that nobody has to know them. */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  const known: Readonly<Record<string, string>> = {
    ENOENT: "There is no such file.",
    ENOTDIR: "A part of the path is not a folder.",
    EEXIST: "A file stands where a folder should be.",
    EISDIR: "This is a folder, not a file.",
    EACCES: "Reading or writing it is not permitted.",
    EPERM: "Reading or writing it is not permitted.",
    ELOOP: "Its symbolic links go in a circle.",
    ENAMETOOLONG: "The path is too long.",
    ENOSPC: "The disk is full.",
    EROFS: "The disk cannot be written to.",
    EMFILE: "Too many files are open.",
  };
  return known[code ?? ""] ?? `The system refused it (${code ?? String(error)}).`;
}
