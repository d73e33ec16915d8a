/** Entry `candlespan/pdf`: sheets as PDFs, and the files of a hand-over with what the fonts cannot write. */
export { DrawnSheets } from "./drawn-sheets.ts";
export { letteredFiles, missingLettersWords } from "./lettered-files.ts";
export { type PdfFacts, type PdfFonts, sheetsPdf } from "./sheet-pdf.ts";
