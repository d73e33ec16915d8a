/** The figures on the isolux lines, as words of constant size on the screen, standing a little before their surface. */

import {
  CanvasTexture,
  LinearFilter,
  Sprite,
  SpriteMaterial,
  type Scene as ThreeScene,
  Vector3,
} from "three";
import { darkInkOver, scaleSteps } from "../scale.ts";
import { type Cut, isKept } from "./cut.ts";
import { isoluxLabels } from "./isolux-labels.ts";
import type { LightCache } from "./light-cache.ts";

/** Share of the way to the eye by which a figure stands before its surface, so as not to sink into it. */
const BEFORE = 0.05;

export class IsoluxSprites {
  readonly #world: ThreeScene;
  #labels: { readonly sprite: Sprite; readonly at: Vector3 }[] = [];
  #for = "";

  constructor(world: ThreeScene) {
    this.#world = world;
  }

  /** The light has changed: figures are placed anew when they are next shown. */
  forget(): void {
    this.#for = "";
  }

  /** Shows the figures, places them first where that has not been done. */
  show(cache: LightCache, unit: "lx" | "fc", eye: Vector3, cut: Cut | undefined): void {
    const read = this.#for === unit ? undefined : cache.read();
    if (read !== undefined) {
      this.drop();
      this.#for = unit;
      for (const { text, level, at } of isoluxLabels(read.atlas, read.values, scaleSteps(unit))) {
        const sprite = labelSprite(text, darkInkOver(level));
        this.#labels.push({ sprite, at: new Vector3(...at) });
        this.#world.add(sprite);
      }
    }
    for (const { sprite, at } of this.#labels) {
      sprite.position.copy(at).lerp(eye, BEFORE);
      sprite.visible = isKept(cut, at);
    }
  }

  hide(): void {
    for (const { sprite } of this.#labels) sprite.visible = false;
  }

  drop(): void {
    for (const { sprite } of this.#labels) {
      this.#world.remove(sprite);
      sprite.material.map?.dispose();
      sprite.material.dispose();
    }
    this.#labels = [];
    this.#for = "";
  }
}

/** A figure of constant size on the screen. */
function labelSprite(text: string, dark: boolean): Sprite {
  const scale = 3;
  const canvas = document.createElement("canvas");
  const context = canvas.getContext("2d") as CanvasRenderingContext2D;
  const font = `600 ${13 * scale}px "Source Sans 3 Variable", "Source Sans 3", system-ui, sans-serif`;
  context.font = font;
  canvas.width = Math.ceil(context.measureText(text).width) + 8 * scale;
  canvas.height = 18 * scale;
  context.font = font;
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.lineWidth = 4 * scale;
  context.lineJoin = "round";
  context.strokeStyle = dark ? "rgba(255,253,249,0.75)" : "rgba(23,21,16,0.7)";
  context.strokeText(text, canvas.width / 2, canvas.height / 2);
  context.fillStyle = dark ? "#24211c" : "#fffdf9";
  context.fillText(text, canvas.width / 2, canvas.height / 2);
  const map = new CanvasTexture(canvas);
  map.minFilter = LinearFilter;
  map.generateMipmaps = false;
  map.colorSpace = "";
  const sprite = new Sprite(
    new SpriteMaterial({
      map,
      sizeAttenuation: false,
      depthTest: true,
      depthWrite: false,
      toneMapped: false,
    }),
  );
  // At 50° of field, a thousandth of the distance to the picture plane is about a pixel of 720.
  sprite.scale.set((canvas.width / scale) * 0.00118, (canvas.height / scale) * 0.00118, 1);
  sprite.renderOrder = 2;
  return sprite;
}
