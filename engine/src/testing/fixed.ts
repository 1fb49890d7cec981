/** Boxes fixed to walls, carried by others or hung, put together by hand for tests of their rules: no derivation has a part in them. */
import type { Arrangement, Block, Mounted, Standing } from "../arrange/model.ts";
import type { Piece } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import type { RuleId } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { arrangeSnags } from "../arrange/rules.ts";
import { arranged, type RoomWish } from "./arranged.ts";

type Pair = readonly [number, number];

export interface FixedWish {
  readonly name: string;
  /** Index of the wall. */
  readonly wall: number;
  readonly along: number;
  readonly low: number;
  /** Width along the wall, depth out from it, height. */
  readonly size: readonly [number, number, number];
}

export interface BoxWish {
  readonly name: string;
  /** Middle in room axes. */
  readonly at: Pair;
  readonly size: readonly [number, number, number];
  readonly low?: number;
  readonly layer?: Piece["layer"];
  /** Name of the box it stands on. */
  readonly on?: string;
  /** Further boxes of it: middle, size and underside in room axes. */
  readonly more?: readonly {
    readonly at: Pair;
    readonly size: readonly [number, number, number];
    readonly low: number;
  }[];
}

/** A room of `arranged` with boxes standing, hanging, carried or fixed. Ids are the names. */
export function withBoxes(
  wish: RoomWish,
  { boxes = [], fixed = [] }: { readonly boxes?: readonly BoxWish[]; readonly fixed?: readonly FixedWish[] },
): { readonly arrangement: Arrangement; readonly document: ReturnType<typeof arranged>["document"] } {
  const { document, room } = arranged(wish);
  const arrangement: Arrangement = {
    room,
    standing: boxes.map(standingBox),
    mounted: fixed.map((one) => fixedBox(room, one)),
    coverings: [],
    neighbours: [],
    routes: [],
    views: [],
    tray: [],
  };
  return { arrangement, document };
}

function pieceOf(name: string, layer: Piece["layer"]): Piece {
  return { id: `piece ${name}`, name, order: 0, layer, count: 1, sits: false };
}

function blockOf(
  [x, y]: Pair,
  [width, depth, height]: readonly [number, number, number],
  low: number,
): Block {
  const [w, d] = [width / 2, depth / 2];
  const outline = [
    { x: x - w, y: y - d },
    { x: x + w, y: y - d },
    { x: x + w, y: y + d },
    { x: x - w, y: y + d },
  ];
  return { outline, low, high: low + height };
}

function standingBox({ name, at, size, low = 0, layer = "furniture", on, more = [] }: BoxWish): Standing {
  const piece = pieceOf(name, layer);
  const blocks = [blockOf(at, size, low), ...more.map((one) => blockOf(one.at, one.size, one.low))];
  const place = { x: at[0], y: at[1], turn: 0 };
  const up = on === undefined ? low : 0;
  const standing = {
    placement: { id: name, piece: piece.id, room: "room", number: 1, ...place, up, ...(on ? { on } : {}) },
    piece,
    name,
    blocks,
    outline: [blocks[0]!.outline],
    height: Math.max(...blocks.map(({ high }) => high)),
    low,
    front: { x: 0, y: -1 },
    stand: place,
    ...(on ? { on } : {}),
  };
  return standing;
}

function fixedBox(room: TrueRoom, { name, wall: index, along, low, size }: FixedWish): Mounted {
  const wall = room.walls[index]!;
  const [a, b] = [room.corners[index]!, room.corners[(index + 1) % room.corners.length]!];
  const [width, depth, height] = size;
  const [ux, uy] = [(b.x - a.x) / wall.length, (b.y - a.y) / wall.length];
  // A clockwise room lies to the right of its walls.
  const at = (s: number, into: number) => ({ x: a.x + ux * s + uy * into, y: a.y + uy * s - ux * into });
  const [left, right] = [along - width / 2, along + width / 2];
  const outline = [at(left, depth), at(right, depth), at(right, 0), at(left, 0)];
  const piece = pieceOf(name, "fitting");
  return {
    mount: {
      id: name,
      piece: piece.id,
      room: "room",
      number: 1,
      from: wall.from,
      to: wall.to,
      datum: wall.from,
      offset: along,
      up: low,
    },
    piece,
    name,
    wall: wall.id,
    along,
    width,
    depth,
    low,
    high: low + height,
    blocks: [{ outline, low, high: low + height }],
    outline: [outline],
  };
}

/** 6 m by 4 m, clockwise from the top left: K0-K1 is the top wall. */
export const ROOM: RoomWish = {
  corners: [
    [0, 0],
    [6000, 0],
    [6000, -4000],
    [0, -4000],
  ],
};

/** What is in the room. */
export interface Things {
  readonly boxes?: readonly BoxWish[];
  readonly fixed?: readonly FixedWish[];
}

/** What one rule says of such a room, which is `ROOM` and entered but for what is wished. */
export function snagsOf(
  rule: RuleId,
  things: Things,
  { entered = true, ...wish }: Partial<RoomWish> & { readonly entered?: boolean } = {},
): readonly Snag[] {
  const { arrangement, document } = withBoxes({ ...ROOM, ...wish }, things);
  const room = { ...arrangement.room, room: { ...arrangement.room.room, entered } };
  return arrangeSnags([{ ...arrangement, room }], document).filter((snag) => snag.rule === rule);
}
