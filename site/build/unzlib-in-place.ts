import { unzlibSync } from "fflate";

/** `unzlib` of fflate without its worker. */
export function unzlib(data: Uint8Array, done: (error: Error | null, bytes: Uint8Array) => void): void {
  let bytes: Uint8Array;
  try {
    bytes = unzlibSync(data);
  } catch (error) {
    done(error as Error, new Uint8Array());
    return;
  }
  done(null, bytes);
}
