/**
 * Shaders as they are compiled: the file named, every `#include <name>` replaced by that file, each file once.
 * Names are paths in `shaders/` without their ending; an unknown one throws.
 */

import { shaderFiles } from "./shaders.gen.ts";

export type ShaderName = keyof typeof shaderFiles;

export const SHADER_NAMES = Object.keys(shaderFiles) as readonly ShaderName[];

const INCLUDE = /^#include <([^>]+)>$/gm;

/** Text of a shader with its chunks in it. */
export function compose(name: ShaderName): string {
  const names = new Set<string>();
  const expand = (chunk: string): string => {
    if (names.has(chunk)) return "";
    names.add(chunk);
    const text = (shaderFiles as Readonly<Record<string, string>>)[chunk];
    if (text === undefined) throw new Error(`There is no shader chunk named "${chunk}".`);
    return text.replace(INCLUDE, (_, inner: string) => expand(inner));
  };
  return expand(name);
}
