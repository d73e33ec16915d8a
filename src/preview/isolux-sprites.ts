/** The figures on the isolux lines, as words of constant size on the screen, each where it is in sight. */

import {
  CanvasTexture,
  LinearFilter,
  type PerspectiveCamera,
  Sprite,
  SpriteMaterial,
  type Scene as ThreeScene,
  Vector3,
} from "three";
import { DARK_INK, inkOver, LIGHT_INK, scaleSteps } from "../drawing/light-scale.ts";
import { isoluxLabels } from "./labels-in-picture.ts";
import type { LightCache } from "./light-cache.ts";

/** Height of the picture for which figures are sized (CSS pixels). */
const USUAL_HEIGHT = 720;
/** Figures keep this far apart on the screen, as shares of half that height. */
const APART = { across: 0.1, up: 0.055 };
/** A surface seen more from its side than this (cosine) has no room for figures. */
const STEEP = 0.12;
/** Half the height of a picture at 50° of field and unit distance, for which the figures are sized. */
const HALF = Math.tan((25 * Math.PI) / 180);

export class IsoluxSprites {
  readonly #world: ThreeScene;
  #labels: { readonly sprite: Sprite; readonly size: Vector3; readonly normal: Vector3 }[] = [];
  #for = "";

  constructor(world: ThreeScene) {
    this.#world = world;
  }

  /** The light has changed: figures are placed anew when they are next shown. */
  forget(): void {
    this.#for = "";
  }

  /** Shows the figures that are in sight and not one over another, on a picture of a height (CSS pixels); places them first where that has not been done. */
  show(
    cache: LightCache,
    unit: "lx" | "fc",
    camera: PerspectiveCamera,
    height: number,
    isInSight: (point: Vector3) => boolean,
  ): void {
    const read = this.#for === unit ? undefined : cache.read();
    if (read !== undefined) {
      this.drop();
      this.#for = unit;
      for (const { text, level, at, normal } of isoluxLabels(read.atlas, read.values, scaleSteps(unit))) {
        const sprite = labelSprite(text, inkOver(level));
        sprite.position.set(...at);
        this.#labels.push({ sprite, size: sprite.scale.clone(), normal: new Vector3(...normal) });
        this.#world.add(sprite);
      }
    }
    const screen = USUAL_HEIGHT / height;
    const zoom = (screen * Math.tan((camera.fov * Math.PI) / 360)) / HALF;
    const taken: Vector3[] = [];
    const eye = camera.getWorldPosition(new Vector3());
    for (const { sprite, size, normal } of this.#labels) {
      const place = sprite.position.clone().project(camera);
      const towards = eye.clone().sub(sprite.position).normalize();
      const isFree =
        normal.dot(towards) > STEEP &&
        Math.max(Math.abs(place.x), Math.abs(place.y), place.z) < 1 &&
        taken.every(
          ({ x, y }) =>
            Math.abs(x - place.x) * camera.aspect > APART.across * screen ||
            Math.abs(y - place.y) > APART.up * screen,
        );
      sprite.visible = isFree && isInSight(sprite.position);
      sprite.scale.copy(size).multiplyScalar(zoom);
      if (sprite.visible) taken.push(place);
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
function labelSprite(text: string, ink: string): Sprite {
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
  context.strokeStyle = `${ink === DARK_INK ? LIGHT_INK : DARK_INK}b8`;
  context.strokeText(text, canvas.width / 2, canvas.height / 2);
  context.fillStyle = ink;
  context.fillText(text, canvas.width / 2, canvas.height / 2);
  const map = new CanvasTexture(canvas);
  map.minFilter = LinearFilter;
  map.generateMipmaps = false;
  map.colorSpace = "";
  const sprite = new Sprite(
    new SpriteMaterial({
      map,
      sizeAttenuation: false,
      // Whether it is in sight is known before.
      depthTest: false,
      depthWrite: false,
      toneMapped: false,
    }),
  );
  // At 50° of field, a thousandth of the distance to the picture plane is about a pixel of 720.
  sprite.scale.set((canvas.width / scale) * 0.00118, (canvas.height / scale) * 0.00118, 1);
  sprite.renderOrder = 2;
  return sprite;
}
