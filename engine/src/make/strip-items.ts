/** Strips on paper: their seams and numbers, on an elevation or wherever a wall is laid. */
import { facingWall, type FacingWall, type Rectangle } from "../measure/facing.ts";
import type { TrueRoom } from "../measure/model.ts";
import { onPaper } from "../measure/frame.ts";
import { SIGN_RADIUS } from "../measure/signs.ts";
import type { Point } from "../plane/point.ts";
import { CAP_HEIGHT, letters, line, shape } from "../sheet/drafting.ts";
import { textWidth } from "../sheet/type.ts";
import type { Frame, Item } from "../sheet/vocabulary.ts";
import { CLOSE_TO_WALL } from "../tolerances.ts";
import type { Strip, WallWork } from "./model.ts";

/** The strips of the wall a frame shows; nothing where it shows none of this room's walls. */
export function stripItems(works: readonly WallWork[], frame: Frame, room: TrueRoom): readonly Item[] {
  const facing = facingWall(room, frame.wall ?? "");
  if (!facing) return [];
  const on = {
    at: (x: number, y: number): Point => onPaper(frame, { x, y }),
    scale: frame.scale,
    length: facing.length,
    inTheWay: inTheWayOf(room, facing, frame.scale),
  };
  return works
    .filter((work) => work.wall === frame.wall && work.room === room.room.id)
    .flatMap((work) => stripsOnWall(work, on));
}

export interface OnWall {
  /** Paper point of a place on the wall. */
  readonly at: (x: number, y: number) => Point;
  readonly scale: number;
  /** Of the wall, mm. */
  readonly length: number;
  /** What numbers keep clear of, on the wall, mm. */
  readonly inTheWay: readonly Rectangle[];
}

/** Openings with their casing, and the venue's things with their signs, on a wall drawn at a scale. */
export function inTheWayOf(room: TrueRoom, facing: FacingWall, scale: number): readonly Rectangle[] {
  const wall = facing.line.wall.id;
  const openings = room.openings.filter((one) => one.wall === wall);
  const fixtures = room.fixtures.filter((one) => one.wall === wall && one.fixture.out < CLOSE_TO_WALL);
  const sign = (SIGN_RADIUS + 0.4) * scale;
  return [
    ...openings.map(({ along, opening: { width, sill, height, casing = 0 } }) =>
      rectangle(facing, { from: along, to: along + width, low: sill, high: sill + height }, casing),
    ),
    ...fixtures.map(({ along, fixture, low, high }) =>
      rectangle(facing, { from: along, to: along + fixture.width, low, high }, sign),
    ),
  ];
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
}

function rectangle(facing: FacingWall, { from, to, low, high }: Stretch, by: number): Rectangle {
  const [a, b] = [facing.x(from), facing.x(to)];
  return { left: Math.min(a, b) - by, right: Math.max(a, b) + by, low: low - by, high: high + by };
}

/**
 * Seams, a light hatch over what is covered, and the number of each strip where there is room for it, clear of
 * openings and things.
 */
export function stripsOnWall(work: WallWork, on: OnWall): readonly Item[] {
  const faces = work.strips.flatMap((strip) => faceOf(work, strip, on));
  return [...faces, ...work.strips.flatMap((strip) => numberOf(work, strip, on))];
}

/**
 * Hatches by how a covering is held, so that what is pasted and what hangs loose differ in black alone. None runs
 * upright, as seams do.
 */
const HATCH = {
  pasted: { turn: 60, apart: 2.6 },
  battens: { turn: 0, apart: 2.6 },
  magnets: { turn: 135, apart: 2.6 },
  pins: { turn: 30, apart: 2.6 },
  panels: { turn: 105, apart: 2.6 },
} as const;

function faceOf({ covering }: WallWork, strip: Strip, on: OnWall): readonly Item[] {
  const { at, scale } = on;
  const [left, right] = seenOf(strip, on);
  if (right <= left) return [];
  const shown = { record: covering.id, part: strip.id, ink: "card-edge" } as const;
  const ring = [
    at(left, strip.low),
    at(right, strip.low),
    at(right, strip.highRight),
    at(left, strip.highLeft),
  ];
  const face = shape(ring, "cut", { ...shown, fill: { ink: "card", hatch: HATCH[covering.fixing] } });
  const edge = left + covering.lap;
  if (left <= 0 || covering.lap / scale <= 0.2 || edge >= right) return [face];
  return [face, line([at(edge, strip.low), at(edge, topOf(strip, edge))], "fold", shown)];
}

/** What of a strip lies on the wall itself. */
function seenOf(strip: Strip, { length }: OnWall): readonly [number, number] {
  return [Math.max(0, strip.left), Math.min(length, strip.right)];
}

/** Tops were taken where the strip is seen, from its left to its right. */
function topOf({ left, right, highLeft, highRight }: Strip, x: number): number {
  const part = right > left ? Math.min(1, Math.max(0, (x - left) / (right - left))) : 0;
  return highLeft + (highRight - highLeft) * part;
}

const TYPE = 2.4;

/** Heights above a strip's foot at which its number may stand, best first: knee high, then where eyes are, mm. */
const HEIGHTS = [600, 750, 450, 1500, 1700, 1300, 1900, 2100, 2300, 2500, 2700, 300];

/** Parts of its width at which it may stand. */
const PARTS = [0.5, 0.3, 0.7, 0.15, 0.85];

function numberOf({ covering }: WallWork, strip: Strip, on: OnWall): readonly Item[] {
  const text = `${strip.number}`;
  const half = { x: textWidth(text, "sans-bold", TYPE) / 2 + 0.5, y: TYPE * 0.55 };
  const place = placeOf(strip, on, { x: half.x * on.scale, y: half.y * on.scale });
  if (!place) return [];
  const { x, y } = on.at(place.x, place.y);
  const plate = [
    { x: x - half.x, y: y - half.y },
    { x: x + half.x, y: y - half.y },
    { x: x + half.x, y: y + half.y },
    { x: x - half.x, y: y + half.y },
  ];
  return [
    // A bit of bare paper, so that hatch does not run through the number.
    shape(plate, "grid", { ink: "sheet", fill: { ink: "sheet" } }),
    letters({ x, y: y + (TYPE * CAP_HEIGHT) / 2 }, text, TYPE, {
      record: covering.id,
      part: strip.id,
      align: "middle",
      face: "sans-bold",
    }),
  ];
}

/** The first place within the strip where its number's plate touches neither an edge nor a thing; none where there is none. */
function placeOf(strip: Strip, on: OnWall, half: Point): Point | undefined {
  const [left, right] = seenOf(strip, on);
  const top = Math.min(strip.highLeft, strip.highRight);
  const middle = (top - strip.low) / 2;
  // The middle of a low strip is as good as any height.
  const heights = middle < 600 ? [middle, ...HEIGHTS] : HEIGHTS;
  const places = heights.flatMap((height) =>
    PARTS.map((part) => ({ x: left + (right - left) * part, y: strip.low + height })),
  );
  return places.find(
    ({ x, y }) =>
      x - half.x >= left &&
      x + half.x <= right &&
      y - half.y >= strip.low &&
      y + half.y <= top &&
      !on.inTheWay.some(
        (thing) =>
          x - half.x < thing.right &&
          x + half.x > thing.left &&
          y - half.y < thing.high &&
          y + half.y > thing.low,
      ),
  );
}
