import type { Plugin } from "vite";

/** The page may run, style and fetch only what came with it, and speaks to nobody else. */
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

/** Writes the policy into every built page, so that it holds on servers that set no headers. Not in
 * development, where the bundler injects styles inline. */
export function contentSecurity(): Plugin {
  return {
    name: "content-security",
    apply: "build",
    transformIndexHtml: () => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: POLICY },
        injectTo: "head-prepend",
      },
    ],
  };
}
