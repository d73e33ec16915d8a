/** Kept equal to package.json by a test; reading the file would cost every start. */
export const VERSION = "0.1.0";
