/** An id unlike any other. (`crypto.randomUUID` is missing where a page came unencrypted from another machine.) */
export function freshId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) =>
    byte.toString(16).padStart(2, "0"),
  ).join("");
}
