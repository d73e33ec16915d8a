/** Bodies as closed meshes: watertight, turned outward, of the volume their profile encloses. */
import { describe, expect, it } from "vitest";
import { rotationOf, UPRIGHT } from "../../src/geometry/frame.ts";
import type { Body } from "../../src/luminaire/body.ts";
import { bodyMesh } from "../../src/luminaire/body-mesh.ts";
import { type BodyProfile, NAMED_BODY_PROFILES } from "../../src/luminaire/body-profiles.ts";
import { lowestPoint } from "../../src/luminaire/extent.ts";
import { halfProfile } from "../../src/luminaire/half-profile.ts";
import { planExtents, widthAlong } from "../../src/luminaire/plan-extent.ts";
import { type LuminousOpening, POINT_OPENING } from "../../src/photometry/luminous-opening.ts";
import { enclosedVolume, openEdges } from "../support/closed-surfaces.ts";
import { lambertian } from "../support/tiny-scene.ts";

const D = 0.3;
const H = 0.22;

function body(profile: BodyProfile, more: Partial<Body> = {}): Body {
  return { profile, diameter: D, height: H, offset: 0, reflectance: 0.5, transmittance: 0, ...more };
}

/** π Σ h (r₀² + r₀ r₁ + r₁²)/3: the solid of frustums between the profile's points. */
function volumeOfRevolution(points: readonly (readonly [number, number])[]): number {
  let volume = 0;
  for (let i = 1; i < points.length; i++) {
    const [r0, z0] = points[i - 1];
    const [r1, z1] = points[i];
    volume += (Math.PI * (z1 - z0) * (r0 * r0 + r0 * r1 + r1 * r1)) / 3;
  }
  return volume;
}

describe("a body's mesh", () => {
  it.each(NAMED_BODY_PROFILES)("%s is watertight and turned outward", (profile) => {
    const mesh = bodyMesh(body(profile), POINT_OPENING);
    expect(openEdges(mesh)).toBe(0);
    expect(enclosedVolume(mesh)).toBeGreaterThan(0);
  });

  it("encloses the volume of its profile", () => {
    let worst = 0;
    for (const profile of NAMED_BODY_PROFILES) {
      const b = body(profile);
      const volume = enclosedVolume(bodyMesh(b, POINT_OPENING));
      const exact = profile === "box" ? D * D * H : volumeOfRevolution(halfProfile(b, POINT_OPENING));
      worst = Math.max(worst, Math.abs(volume / exact - 1));
    }
    expect(worst).toBeLessThan(1e-12);
    console.log(`worst error of a body's volume against its profile: ${worst.toExponential(1)}`);
  });

  it("comes near the smooth form it stands for", () => {
    const volume = (profile: BodyProfile, height = H) =>
      enclosedVolume(bodyMesh(body(profile, { height }), POINT_OPENING));
    const R = D / 2;
    // Chords of eight steps lie inside the curve: about 1.3 % of a sphere's volume.
    expect(volume("globe", D) / ((4 / 3) * Math.PI * R ** 3)).toBeGreaterThan(0.96);
    expect(volume("dome") / ((2 / 3) * Math.PI * R * R * H)).toBeGreaterThan(0.98);
    expect(volume("bowl") / ((2 / 3) * Math.PI * R * R * H)).toBeGreaterThan(0.98);
    expect(volume("drum")).toBeCloseTo(Math.PI * R * R * H, 12);
    expect(volume("cone")).toBeCloseTo((Math.PI * H * R * R * (1 + 0.15 + 0.0225)) / 3, 12);
  });

  it("opens downward with its rim level with the opening's lowest point, or sits about the centre", () => {
    const opening: LuminousOpening = { shape: "cylinder", length: 0.1, width: 0.1, height: 0.06 };
    const span = (profile: BodyProfile, more: Partial<Body> = {}) => {
      const { positions } = bodyMesh(body(profile, more), opening);
      const z = [...positions].filter((_, i) => i % 3 === 2);
      return [Math.min(...z), Math.max(...z)].map((c) => Number(c.toFixed(12)));
    };
    expect(span("dome")).toEqual([-0.03, -0.03 + H]);
    expect(span("drum", { offset: 0.05 })).toEqual([0.02, 0.02 + H]);
    expect(span("globe")).toEqual([-H / 2, H / 2]);
    expect(span("bowl", { offset: -0.1 })).toEqual(
      [-0.1 - H / 2, -0.1 + H / 2].map((c) => Number(c.toFixed(12))),
    );
    expect(span("box")).toEqual([-H / 2, H / 2]);
  });

  it("follows a drawn profile", () => {
    const outline = [
      [0.1, -0.05],
      [0.15, 0],
      [0.05, 0.1],
      [0, 0.12],
    ] as const;
    const mesh = bodyMesh(body("profile", { outline }), POINT_OPENING);
    expect(openEdges(mesh)).toBe(0);
    expect(enclosedVolume(mesh)).toBeCloseTo(volumeOfRevolution(outline), 12);
  });
});

describe("a luminaire's reach", () => {
  const luminaire = (opening: LuminousOpening, b?: Body) => ({
    ...lambertian("x", 100, "A"),
    emission: { kind: "opening", opening } as const,
    ...(b === undefined ? {} : { body: b }),
  });
  const upright = rotationOf(UPRIGHT);
  const tilted = rotationOf({ turn: 0.3, tilt: 0.5, spin: 0.2 });

  it("down: body and opening together, under tilt", () => {
    expect(lowestPoint(luminaire(POINT_OPENING), tilted)).toBeCloseTo(0, 15);
    const disc: LuminousOpening = { shape: "disc", length: 0.4, width: 0.4, height: 0 };
    expect(lowestPoint(luminaire(disc), upright)).toBeCloseTo(0, 15);
    expect(lowestPoint(luminaire(disc), tilted)).toBeCloseTo(-0.2 * Math.sin(0.5), 12);
    const ball: LuminousOpening = { shape: "ellipsoid", length: 0.3, width: 0.3, height: 0.3 };
    expect(lowestPoint(luminaire(ball), tilted)).toBeCloseTo(-0.15, 12);
    // a body above its point leaves the lowest point above the photometric centre
    expect(lowestPoint(luminaire(POINT_OPENING, body("globe", { offset: 0.2 })), upright)).toBeCloseTo(
      0.09,
      12,
    );
  });

  it("across: the wider of body and opening in the row's direction", () => {
    const strip = luminaire({ shape: "rectangle", length: 1.2, width: 0.05, height: 0 });
    expect(planExtents(strip)).toEqual([1.2, expect.closeTo(0.05, 12)]);
    expect(widthAlong(strip, Math.PI / 2)).toBeCloseTo(0.05, 12);
    expect(widthAlong(luminaire(POINT_OPENING, body("dome")), 1)).toBe(D);
    expect(widthAlong(luminaire(POINT_OPENING), 1)).toBe(0);
  });
});
