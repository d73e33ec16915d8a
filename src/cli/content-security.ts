/** What a browser may do with the viewer: run, style and fetch only what came with it, and speak to nobody. */

export const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "worker-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Headers for any server of the built site. The cross-origin pair grants shared memory, with which a running
 * calculation can be stopped; the page works without. */
export const HEADERS: Readonly<Record<string, string>> = {
  "Content-Security-Policy": `${POLICY}; frame-ancestors 'self'`,
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Embedder-Policy": "require-corp",
  "Cross-Origin-Resource-Policy": "same-origin",
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
};
