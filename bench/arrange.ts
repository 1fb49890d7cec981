/**
 * Arranging, timed: dragging one of 60 pieces in a room of twelve corners, the same with 400, and ten thousand
 * pieces once. Values and bounds are milliseconds for a drag (bound: what a hand does not feel) and for ten
 * thousand pieces. Beside it, in the same run, jsts is asked one part of the same question: the free floor of the
 * room for a disc as wide as a way must be (obstacles grown by half of it, united, taken from the room); `ratio`
 * is our whole frame over that.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import UnaryUnionOp from "jsts/org/locationtech/jts/operation/union/UnaryUnionOp.js";
import { createArrange } from "../engine/src/arrange/derive.ts";
import type { Arrangement } from "../engine/src/arrange/model.ts";
import { arrangeSnags } from "../engine/src/arrange/rules.ts";
import { readShow } from "../engine/src/document/file.ts";
import type { ShowDocument } from "../engine/src/document/tables.ts";
import { measureRooms } from "../engine/src/measure/derive.ts";
import type { TrueRoom } from "../engine/src/measure/model.ts";
import type { Point } from "../engine/src/plane/point.ts";
import { arranged, type Pair, type PieceWish } from "../engine/src/testing/arranged.ts";
import { randomStream } from "../engine/src/testing/rooms.ts";
import type { BenchInput, BenchResult } from "./result.ts";

/** Frames of a drag that are timed, and those before them that let the machine warm up. */
const FRAMES = 300;
const WARM_UP = 100;
/** A hand does not feel less than this a frame, ms: asked of 60 pieces. Ten thousand are answered within ten seconds. */
const FRAME_BOUND = 8;
const TEN_SECONDS = 10_000;
/** 36 in, mm. */
const CLEAR = 914.4;

interface Instance {
  readonly name: string;
  readonly document: ShowDocument;
  readonly rooms: readonly TrueRoom[];
}

/** Runs the benchmark; a file or folder of shows is dragged in place of the benchmark's own rooms. */
export function run({ input, plans }: BenchInput): readonly BenchResult[] {
  if (input !== undefined) return filesOf(input).flatMap((path) => dragged(readInstance(path), plans));
  return [
    ...dragged({ name: "60 pieces, 12 corners", ...hall(60, 1000) }, plans, FRAME_BOUND),
    ...dragged({ name: "400 pieces, 12 corners", ...hall(400, 2400) }, plans),
    once({ name: "10000 pieces, 12 corners", ...hall(10_000, 12_000) }, plans),
  ];
}

function filesOf(input: string): readonly string[] {
  if (!statSync(input).isDirectory()) return [input];
  return readdirSync(input)
    .filter((name) => name.endsWith(".json"))
    .toSorted()
    .map((name) => join(input, name));
}

function readInstance(path: string): Instance {
  const read = readShow(readFileSync(path, "utf8"));
  if (!read.ok) throw new RangeError(`${path} is no show that can be read`);
  return { name: path, document: read.document, rooms: measureRooms(read.document) };
}

/** A hall of twelve corners, twelve by nine units, two doors, and pieces scattered over it without a right angle. */
export function hall(
  count: number,
  unit: number,
): { readonly document: ShowDocument; readonly rooms: readonly TrueRoom[] } {
  const shape: readonly Pair[] = [
    [0, 0],
    [7, 0.1],
    [7.2, 1],
    [9, 1.1],
    [9.1, 0.1],
    [12, 0],
    [12.1, -5],
    [10.9, -5.1],
    [11, -9],
    [4, -9.1],
    [3.9, -8],
    [0.1, -8.1],
  ];
  const random = randomStream(60);
  const corners = shape.map(([x, y]): Pair => [x * unit, y * unit]);
  const columns = Math.ceil(Math.sqrt(count * 1.6));
  const rows = Math.ceil(count / columns);
  const pieces = Array.from({ length: count }, (_, k): PieceWish => {
    const x = (0.8 + (10 * ((k % columns) + 0.5 + 0.5 * (random() - 0.5))) / columns) * unit;
    const y = -(1.5 + (6.2 * (Math.floor(k / columns) + 0.5 + 0.5 * (random() - 0.5))) / rows) * unit;
    const size = [300 + 500 * random(), 250 + 250 * random(), 900] as const;
    return { name: `Piece ${k}`, size, round: k % 4 === 0, at: [[x, y, Math.floor(random() * 360)]] };
  });
  const doors = [
    { wall: 0, offset: unit, width: 950, clear: 900 },
    { wall: 8, offset: 2 * unit, width: 950, clear: 900 },
  ];
  const { document, room } = arranged({ corners, pieces, doors, baseDepth: 19 });
  return { document, rooms: [room] };
}

function dragged(instance: Instance, plans: boolean, bound: number | null = null): readonly BenchResult[] {
  const { name, document, rooms } = instance;
  const arrange = createArrange();
  let arrangements = arrange(document, rooms);
  arrangeSnags(arrangements, document);
  const grip = Object.values(document.placements)[Math.floor(Object.keys(document.placements).length / 2)];
  if (!grip) return [];
  const frames: number[] = [];
  for (let frame = -WARM_UP; frame < FRAMES; frame++) {
    const there = { ...grip, x: grip.x + frame * 2.5, y: grip.y + 40 * Math.sin(frame / 9) };
    const moved = { ...document, placements: { ...document.placements, [grip.id]: there } };
    const start = performance.now();
    arrangements = arrange(moved, rooms);
    arrangeSnags(arrangements, moved);
    if (frame >= 0) frames.push(performance.now() - start);
  }
  const sorted = frames.toSorted((a, b) => a - b);
  const [median, slow] = [sorted[Math.floor(FRAMES / 2)]!, sorted[Math.floor(FRAMES * 0.95)]!];
  const theirs = libraryTime(arrangements);
  return [
    {
      instance: `${name}: median frame, ms`,
      value: median,
      bound,
      seconds: median / 1000,
      ratio: median / theirs,
      ...planOf(arrangements, plans),
    },
    { instance: `${name}: 95th percentile, ms`, value: slow, bound, seconds: slow / 1000 },
    { instance: `${name}: jsts free floor, ms`, value: theirs, bound: null, seconds: theirs / 1000 },
  ];
}

function once({ name, document, rooms }: Instance, plans: boolean): BenchResult {
  const start = performance.now();
  const arrangements = createArrange()(document, rooms);
  const snags = arrangeSnags(arrangements, document);
  const spent = performance.now() - start;
  return {
    instance: `${name}: once, ms (${snags.length} snags)`,
    value: spent,
    bound: TEN_SECONDS,
    seconds: spent / 1000,
    ...planOf(arrangements, plans),
  };
}

/** Where everything stands and what pinches each way, so that a stranger can check it. */
function planOf(arrangements: readonly Arrangement[], plans: boolean): { readonly plan?: unknown } {
  if (!plans) return {};
  return {
    plan: arrangements.map(({ room, standing, routes }) => ({
      corners_mm: room.corners.map(({ x, y }) => [x, y]),
      base_depth_mm: room.baseDepth,
      doors: room.openings.map(({ opening, start, end }) => ({ id: opening.id, start, end })),
      pieces: standing.map(({ placement, outline }) => ({ id: placement.id, outline_mm: outline })),
      routes: routes.map(({ from, to, pinch }) => ({
        from,
        to,
        width_mm: pinch?.width ?? null,
        between_mm: pinch?.at ?? null,
      })),
    })),
  };
}

/** Median of what jsts takes for the free floor, ms. */
function libraryTime(arrangements: readonly Arrangement[]): number {
  const times = Array.from({ length: 5 }, () => {
    const start = performance.now();
    for (const arrangement of arrangements) freeFloor(arrangement);
    return performance.now() - start;
  });
  return times.toSorted((a, b) => a - b)[2]!;
}

function freeFloor({ room, standing }: Arrangement): unknown {
  const factory = new GeometryFactory();
  const polygon = (ring: readonly Point[]): unknown => {
    const closed = [...ring, ring[0]!].map(({ x, y }) => new Coordinate(x, y));
    return factory.createPolygon(factory.createLinearRing(closed));
  };
  const floor = polygon(room.corners);
  const grown = standing.flatMap(({ blocks }) =>
    blocks.map(({ outline }) => BufferOp.bufferOp(polygon(outline), CLEAR / 2)),
  );
  const inner = BufferOp.bufferOp(floor, -CLEAR / 2);
  return OverlayOp.difference(inner, UnaryUnionOp.union(factory.createGeometryCollection(grown)));
}
