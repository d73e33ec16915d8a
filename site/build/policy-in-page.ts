import type { Plugin } from "vite";
import { POLICY } from "../../src/cli/content-security.ts";

/** Writes the policy into every built page, so that it holds on servers that set no headers. Not in
 * development, where the bundler injects styles inline. */
export function policyInPage(): Plugin {
  return {
    name: "policy-in-page",
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
