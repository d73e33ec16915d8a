/**
 * Bodies that come and go, as one calculation needs them, with their memory: a body that moves costs what touches it. Unused parts are
 * kept for as many calculations as the engine keeps its own.
 *
 * | kept                                     | depends on                                                   |
 * | parts and pieces                         | the body in its place                                        |
 * | what it hides of the room, and sees of it | room, body                                                   |
 * | what two bodies see of each other        | room, both, the bodies that can stand between                |
 * | direct light on a body                   | luminaire in its place, body, all that can stand between     |
 */

import { type Observer, throwIfCancelled } from "../../diagnostics/cancelled.ts";
import { contentKey } from "../../numerics/content-key.ts";
import { RecentCache } from "../../numerics/recent-cache.ts";
import type { Scene } from "../../scene/scene.ts";
import type { KeyedLuminaire } from "../keyed-luminaire.ts";
import { Penumbra } from "../visibility/penumbra.ts";
import type { MovingBody, Surroundings } from "../visibility/surroundings.ts";
import { standingBlockers } from "../visibility/surroundings.ts";
import { directOnBody } from "./body-direct.ts";
import {
  type BodySight,
  bodyRows,
  bodySight,
  type HiddenPairs,
  hiddenPairs,
  type JoinedExchange,
  joinedExchange,
  nodesBox,
  type PartExchange,
  partExchange,
  screensOfBody,
} from "./body-exchange.ts";
import { type BodySolid, exchangeBody } from "./body-solid.ts";
import type { RoomExchange } from "./room-exchange.ts";
import { SceneSight } from "./scene-sight.ts";
import { Screens, screensOf } from "./screens.ts";

/** One body in one room. */
interface PlacedBody {
  readonly key: string;
  readonly passes: number;
  readonly solid: BodySolid;
  readonly screens: Screens;
}

/** The bodies of one calculation. */
export interface Bodies {
  readonly keys: readonly string[];
  readonly solids: readonly BodySolid[];
  readonly screens: readonly Screens[];
  /** Screens of all bodies. */
  readonly together: Screens;
  readonly sight: SceneSight;
}

export class BodiesStage {
  readonly #placed: RecentCache<PlacedBody>;
  readonly #rows: RecentCache<Float64Array>;
  readonly #hidden: RecentCache<HiddenPairs>;
  readonly #sights: RecentCache<BodySight>;
  readonly #direct: RecentCache<Float64Array>;
  /** Of the last bodies: reflectances change without them. */
  #parts: { readonly key: string; readonly value: PartExchange } | undefined;
  #joined: { readonly key: string; readonly value: JoinedExchange } | undefined;

  constructor(keep: number) {
    this.#placed = new RecentCache(keep);
    this.#rows = new RecentCache(keep);
    this.#hidden = new RecentCache(keep);
    this.#sights = new RecentCache(keep);
    this.#direct = new RecentCache(keep);
  }

  get bytes(): number {
    let bytes = 0;
    for (const rows of this.#rows.values()) bytes += rows.byteLength;
    for (const { i, j, share } of this.#hidden.values())
      bytes += i.byteLength + j.byteLength + share.byteLength;
    for (const {
      hidden: { patch, share },
      factor,
    } of this.#sights.values())
      bytes += patch.byteLength + share.byteLength + factor.byteLength;
    return bytes;
  }

  /** One calculation is over. */
  turn(): void {
    for (const cache of [this.#placed, this.#rows, this.#hidden, this.#sights, this.#direct]) cache.turn();
  }

  bodies(scene: Scene, room: RoomExchange, surroundings: Surroundings): Bodies {
    const placed = surroundings.bodies.map((body) => this.#place(scene, room, body));
    const solids = placed.map(({ solid }) => solid);
    return {
      keys: placed.map(({ key }) => key),
      solids,
      screens: placed.map(({ screens }) => screens),
      together: new Screens(
        room.gather.patches,
        placed.flatMap(({ solid, passes }) => solid.pieces.map((piece) => ({ solid: piece, passes }))),
      ),
      sight: new SceneSight(screensOf(standingBlockers(scene)), placed),
    };
  }

  #place(scene: Scene, { gather, key: roomKey }: RoomExchange, body: MovingBody): PlacedBody {
    const { blocker, reflectance } = body;
    const { owner } = blocker;
    const hung = owner === undefined ? undefined : scene.layers[owner[0]]?.luminaires[owner[1]];
    const own = hung?.luminaire.body;
    const key = contentKey(
      roomKey,
      body.key,
      own?.lining ?? -1,
      own?.transmittance ?? -1,
      own?.seeThrough ?? -1,
    );
    return this.#placed.get(key, () => {
      const solid = exchangeBody(blocker, reflectance, hung);
      const passes = blocker.transmittance;
      return { key, passes, solid, screens: screensOfBody(gather.patches, solid, passes) };
    });
  }

  /** What each body hides of the exchange between patches. */
  #hiddenPairs(
    { exchange, gather }: RoomExchange,
    { keys, solids, screens }: Bodies,
    observer?: Observer,
  ): HiddenPairs[] {
    return keys.map((key, b) => {
      observer?.progress?.("light between bodies", b / keys.length);
      return this.#hidden.get(key, () =>
        hiddenPairs(gather, exchange.factors, solids[b], screens[b], observer),
      );
    });
  }

  /** What all parts see of the room and of one another. */
  exchange(room: RoomExchange, bodies: Bodies, observer?: Observer): PartExchange {
    const key = contentKey(room.key, ...bodies.keys);
    if (this.#parts?.key !== key) this.#parts = { key, value: this.#exchange(room, bodies, observer) };
    return this.#parts.value;
  }

  /** Patches and parts together. */
  joined(room: RoomExchange, bodies: Bodies, observer?: Observer): JoinedExchange {
    const key = contentKey(room.key, ...bodies.keys);
    if (this.#joined?.key !== key) {
      const { exchange, gather } = room;
      const hidden = this.#hiddenPairs(room, bodies, observer);
      const parts = this.exchange(room, bodies, observer);
      const value = joinedExchange(exchange, gather, bodies.together, parts, hidden, observer);
      this.#joined = { key, value };
    }
    return this.#joined.value;
  }

  #exchange(
    { gather }: RoomExchange,
    { keys, solids, screens, together, sight }: Bodies,
    observer?: Observer,
  ): PartExchange {
    return partExchange(
      gather,
      together,
      solids.map((solid, a) => {
        observer?.progress?.("what bodies see of one another", a / solids.length);
        const rows = this.#rows.get(keys[a], () => bodyRows(gather, solid));
        const box = nodesBox(solid);
        const sights = solids.map((_, c) => {
          throwIfCancelled(observer);
          const candidates = sight.candidates(box, c);
          const between = sight.owners(candidates).map((owner) => `${owner < c} ${keys[owner]}`);
          return this.#sights.get(contentKey(keys[a], keys[c], `${c < a}`, ...between), () =>
            bodySight(gather, rows, solid, screens[c], sight, a, c, candidates),
          );
        });
        return { solid, rows, sights };
      }),
      observer,
    );
  }

  /** Direct light of one luminaire on the parts of every body (lm). `place` is its key in the room, `floor` as in `patch-direct.ts` (lx). */
  direct(
    { solids, keys, sight }: Bodies,
    { placed, own }: KeyedLuminaire,
    place: string,
    surroundings: Surroundings,
    floor: number,
    observer?: Observer,
  ): Float64Array[] {
    const penumbra = new Penumbra(placed, placed.source, surroundings);
    return solids.map((solid, b) => {
      // Its own body's part in its light is in its photometry.
      if (b === own) return new Float64Array(solid.parts);
      const found = surroundings.between(solid.box, penumbra.box, own);
      const inTheWay = { standing: found.standing, bodies: found.bodies.filter((body) => body !== b) };
      const between = inTheWay.bodies.map((body) => `${body < b} ${keys[body]}`);
      const covered = (x: number, y: number, z: number) =>
        inTheWay.bodies.some((body) => sight.holds(body, x, y, z, body < b));
      return this.#direct.get(contentKey(place, keys[b], surroundings.standing.count, ...between), () =>
        directOnBody(
          solid,
          placed,
          placed.source,
          penumbra,
          surroundings,
          inTheWay,
          covered,
          floor,
          observer,
        ),
      );
    });
  }
}
