/** A browser that lacks something says what is lost, in words, and waits for nothing that never comes. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { enter, openPage, openViewer, poll, refined, troublesOf } from "../support/viewer.ts";

it("without workers the page says that no light can be computed, and keeps its study in reach", async () => {
  const viewer = await openViewer();
  const page = await viewer.browser.newPage({ viewport: { width: 1440, height: 900 } });
  const troubles = troublesOf(page);
  await page.addInitScript(() => Reflect.deleteProperty(globalThis, "Worker"));
  await page.goto(viewer.server.address);
  await page.locator(".light-state", { hasText: "this browser starts no worker" }).waitFor();
  await enter(page, "Kitchen");
  await page.getByRole("button", { name: "Study", exact: true }).click();
  await page.getByRole("dialog").waitFor();
  await viewer.close();
  expect(troubles).toEqual([]);
});

const withoutWebGL = (page: Page) =>
  page.addInitScript(() => {
    const get = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (
      this: HTMLCanvasElement,
      kind: string,
      ...rest: unknown[]
    ) {
      return kind.startsWith("webgl")
        ? null
        : (get as (...all: unknown[]) => unknown).call(this, kind, ...rest);
    } as never;
    for (const name of ["WebGLRenderingContext", "WebGL2RenderingContext", "OffscreenCanvas"])
      Reflect.deleteProperty(globalThis, name);
  });

it("without WebGL the plan stands where the room would be drawn, which is said", async () => {
  const viewer = await openPage({ isDirect: true }, withoutWebGL);
  const { page, troubles } = viewer;
  await page.getByRole("button", { name: "Room", exact: true }).click();
  await page.getByText("so the kitchen cannot be drawn in depth").waitFor();
  await page.getByRole("button", { name: "Drawings", exact: true }).click();
  await poll(() => page.locator("candlespan-plan svg text.iso").count()).toBeGreaterThan(2);
  await viewer.close();
  expect(troubles).toEqual([]);
});

it("without shared memory the light is refined all the same, after changes later, which is said", async () => {
  const viewer = await openPage({}, (page) =>
    page.addInitScript(() => {
      Reflect.deleteProperty(globalThis, "SharedArrayBuffer");
      Object.defineProperty(globalThis, "crossOriginIsolated", { value: false });
    }),
  );
  const { page, troubles } = viewer;
  await page.getByText("Without shared memory in this browser").waitFor();
  for (const clearance of ["800", "820"]) {
    await page.getByLabel("Clearance").fill(clearance);
    await page.getByLabel("Clearance").press("Enter");
  }
  await refined(page);
  await viewer.close();
  expect(troubles).toEqual([]);
});
