/** Fifteen lamps in their shades, of every finish and every form. */
import type { PhotonShade } from "./shade-photons.ts";

const clear = { flux: 800, finish: "clear", diameter: 0.06, filament: 0.04 } as const;
const frosted = { flux: 800, finish: "frosted", diameter: 0.06 } as const;

export const SHADES: Record<string, PhotonShade> = {
  "brass dome, clear": {
    lamp: { ...clear, height: 0.0756 },
    shade: { profile: "dome", finish: "brass", diameter: 0.28, height: 0.168, topDiameter: 0.07 },
  },
  "aluminium dome, frosted": {
    lamp: { ...frosted, height: 0.09 },
    shade: { profile: "dome", finish: "aluminium", diameter: 0.35, height: 0.2, topDiameter: 0.06 },
  },
  "aluminium cone, frosted": {
    lamp: { ...frosted, height: 0.1 },
    shade: { profile: "cone", finish: "aluminium", diameter: 0.3, height: 0.24, topDiameter: 0.075 },
  },
  "aluminium cone, directional": {
    lamp: { flux: 800, finish: "directional", beam: 60, diameter: 0.06, height: 0.1 },
    shade: { profile: "cone", finish: "aluminium", diameter: 0.2, height: 0.2, topDiameter: 0.08 },
  },
  "brass bell, frosted": {
    lamp: { ...frosted, height: 0.1 },
    shade: { profile: "bell", finish: "brass", diameter: 0.3, height: 0.225, topDiameter: 0.06 },
  },
  "brass cylinder, clear": {
    lamp: { ...clear, height: 0.1 },
    shade: { profile: "cylinder", finish: "brass", diameter: 0.12, height: 0.2 },
  },
  "clear glass globe, clear": {
    lamp: { ...clear, height: 0.125 },
    shade: { profile: "globe", finish: "clear glass", diameter: 0.25, height: 0.25 },
  },
  "clear glass bowl, frosted": {
    lamp: { ...frosted, height: 0.08 },
    shade: { profile: "bowl", finish: "clear glass", diameter: 0.3, height: 0.16 },
  },
  "frosted glass globe, half-mirrored": {
    lamp: { ...frosted, finish: "half-mirrored", height: 0.125 },
    shade: { profile: "globe", finish: "frosted glass", diameter: 0.25, height: 0.25 },
  },
  "opal glass globe": {
    lamp: { ...frosted, height: 0.1 },
    shade: { profile: "globe", finish: "opal glass", diameter: 0.25, height: 0.22 },
  },
  "white disc with an opal plastic cover": {
    lamp: { ...frosted, height: 0.05 },
    shade: {
      profile: "disc",
      finish: "white",
      diameter: 0.4,
      height: 0.1,
      topDiameter: 0.12,
      bottom: "diffuser",
    },
  },
  "linen drum": {
    lamp: { ...frosted, height: 0.12 },
    shade: { profile: "drum", finish: "linen", diameter: 0.4, height: 0.25, topDiameter: 0.36 },
  },
  "paper profile": {
    lamp: { ...frosted, height: 0.12 },
    shade: {
      finish: "paper",
      profile: [
        [0.1, 0],
        [0.16, 0.1],
        [0.16, 0.16],
        [0.05, 0.24],
      ],
    },
  },
  "black tube, clear": {
    lamp: { ...clear, height: 0.12 },
    shade: { profile: "cylinder", finish: "black", diameter: 0.12, height: 0.25, top: "open" },
  },
  "dark fabric drum": {
    lamp: { ...frosted, height: 0.12 },
    shade: { profile: "drum", finish: "dark fabric", diameter: 0.35, height: 0.22, topDiameter: 0.3 },
  },
};
