/**
 * The first page of a PDF (ISO 32000-2) as a PNG to lie beneath the floor plan.
 *
 * The file is read in a worker that fetches nothing and runs no script of it, the page drawn without fields and notes, its longest
 * side LONGEST_SIDE pixels. Whatever takes longer than PATIENCE in all is given up, with its worker.
 * Known limit: letters whose font is not in the file are drawn in one of this machine's; pictures in JPEG 2000 are not drawn, and
 * the page is refused for them.
 */

import { getDocument, type PDFPageProxy, PDFWorker } from "pdfjs-dist";
import PdfReader from "pdfjs-dist/build/pdf.worker.min.mjs?worker";
import type { Issue, Outcome } from "../../src/app.ts";

/** As other pictures beneath the plan are shown (px). */
const LONGEST_SIDE = 4096;
/** Longest side of a page (units of 1/72 inch): what ISO 32000-1, annex C calls the most. */
const LARGEST_PAGE = 14_400;
const SMALLEST_PAGE = 3;
/** Pixels of one picture on the page. */
const MOST_PIXELS = 40e6;
/** For all of it (ms). */
const PATIENCE = 20_000;

/** @param file its name, for issues */
export async function firstPage(
  bytes: Uint8Array<ArrayBuffer>,
  file: string,
): Promise<Outcome<Uint8Array<ArrayBuffer>>> {
  const reader = new PdfReader();
  const worker = PDFWorker.create({ port: reader, verbosity: 0 });
  const deadline = performance.now() + PATIENCE;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, fail) => {
    timer = setTimeout(() => fail(new TooSlow()), PATIENCE);
  });
  const task = getDocument({
    data: bytes.slice(),
    worker,
    verbosity: 0,
    stopAtErrors: true,
    isEvalSupported: false,
    useWasm: false,
    useWorkerFetch: false,
    enableXfa: false,
    disableFontFace: true,
    maxImageSize: MOST_PIXELS,
  });
  try {
    const drawn = async (): Promise<Outcome<Uint8Array<ArrayBuffer>>> => {
      const page = await (await task.promise).getPage(1);
      const { width, height } = page.getViewport({ scale: 1 });
      const isFit = Math.min(width, height) >= SMALLEST_PAGE && Math.max(width, height) <= LARGEST_PAGE;
      if (!isFit)
        return refused(
          file,
          "Its first page has no size that a drawing has.",
          `sides of ${SMALLEST_PAGE} to ${LARGEST_PAGE} units of 1/72 inch`,
          `${Number(width.toPrecision(6))} × ${Number(height.toPrecision(6))} units`,
        );
      return {
        ok: true,
        value: await pngOf(page, LONGEST_SIDE / Math.max(width, height), deadline),
        warnings: [],
      };
    };
    return await Promise.race([drawn(), late]);
  } catch (error) {
    return troubleOf(file, error);
  } finally {
    clearTimeout(timer);
    void task.destroy().catch(() => undefined);
    worker.destroy();
    reader.terminate();
  }
}

class TooSlow extends Error {
  override readonly name = "TooSlow";
}

async function pngOf(page: PDFPageProxy, scale: number, deadline: number): Promise<Uint8Array<ArrayBuffer>> {
  const viewport = page.getViewport({ scale });
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(viewport.width));
  canvas.height = Math.max(1, Math.round(viewport.height));
  // As printed: a page out of sight draws too, and layers that are for the screen alone are left out.
  const running = page.render({
    canvas,
    viewport,
    intent: "print",
    annotationMode: 0,
    background: "#ffffff",
  });
  running.onContinue = (go: () => void) => {
    if (performance.now() < deadline) go();
    else running.cancel();
  };
  await running.promise;
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done));
  if (blob === null) throw new Error("no bitmap");
  return new Uint8Array(await blob.arrayBuffer());
}

function troubleOf(file: string, error: unknown): Outcome<never> {
  const name = error instanceof Error ? error.name : "";
  if (name === "PasswordException")
    return refused(file, "It opens with a password only.", "a PDF file without one", "a locked file");
  if (name === "TooSlow" || name === "RenderingCancelledException")
    return refused(
      file,
      "Its first page takes too long to draw.",
      `at most ${PATIENCE / 1000} s`,
      "a page that was given up",
    );
  return refused(
    file,
    "Its first page could not be drawn.",
    "a sound PDF file",
    "a damaged one, or pictures that cannot be read",
  );
}

function refused(file: string, what: string, expected: string, received: string): Outcome<never> {
  const message = `${what} Open it in a program that shows PDFs and save the page as PNG.`;
  const issue: Issue = {
    code: "underlay-refused",
    severity: "error",
    message,
    expected,
    received,
    where: { file },
  };
  return { ok: false, issues: [issue] };
}
