/**
 * Random rooms with a known true shape, for tests and benchmarks: no right angle, walls that meet only at
 * corners, three different heights, and readings enough to fix them (the walls, the diagonals of a random
 * triangulation, and some more lines of sight). Shares no code with the stages it tests. The room is star-shaped
 * about a point and its triangulation is by cutting ears, so both are simple by construction.
 */
import type { Corner, Reading, ShowDocument } from "../document/tables.ts";
import { emptyDocument } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";

export interface RandomRoom {
  /** True places in naming order: first corner at the origin, first wall along +x, clockwise, mm. */
  readonly corners: readonly Point[];
  /** One room "room" with corners "A", "B", ...; exact distances and heights. */
  readonly document: ShowDocument;
  /** One a corner, mm; three of them different at least. */
  readonly heights: readonly number[];
}

export interface RoomWish {
  readonly corners?: number;
  /** Lines measured beyond the walls and the triangulation; 2 where it is not said. */
  readonly extras?: number;
  /** How noisy the distances are, in standard deviations of a tape (1.6 mm and 0.2 mm a metre); exact where it is not said. */
  readonly noise?: number;
}

/** A stream of numbers from 0 to 1 that depends on the seed alone (mulberry32, public domain). */
export function randomStream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let word = Math.imul(state ^ (state >>> 15), state | 1);
    word ^= word + Math.imul(word ^ (word >>> 7), word | 61);
    return ((word ^ (word >>> 14)) >>> 0) / 4294967296;
  };
}

/** A normal deviate (Box and Muller). */
export function normalDeviate(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** The room of a seed: 3 to 12 corners unless the wish says otherwise. The same seed gives the same room for ever. */
export function randomRoom(seed: number, wish: RoomWish = {}): RandomRoom {
  const random = randomStream(seed * 7919 + 17);
  const count = wish.corners ?? 3 + Math.floor(random() * 10);
  const corners = inDatum(starShape(random, count));
  const heights = corners.map((_, corner) => 2400 + 35 * (corner % 3) + Math.round(random() * 20));
  const pairs = [
    ...wallsOf(count),
    ...triangulation(random, corners),
    ...linesOfSight(random, corners, wish.extras ?? 2),
  ];
  const distances = pairs.map(([a, b]) => ({ from: a, to: b, value: apart(corners[a]!, corners[b]!) }));
  const deviation = (value: number): number => Math.hypot(1.6, (0.2 * value) / 1000) * (wish.noise ?? 0);
  const off = distances.map((one) => ({
    ...one,
    value: one.value + deviation(one.value) * normalDeviate(random),
  }));
  return { corners, heights, document: roomDocument(count, shuffled(random, off), heights) };
}

/** A document with one room "room" of corners "A", "B", ... "Z", "A1", ... and readings in the order given, by tape. */
export function roomDocument(
  count: number,
  distances: readonly { readonly from: number; readonly to: number; readonly value: number }[],
  heights: readonly number[] = [],
): ShowDocument {
  const names = Array.from({ length: count }, (_, k) => cornerName(k));
  const corners = names.map((name, order): Corner => ({ id: name, room: "room", name, order }));
  const said = { room: "room", typed: "", instrument: "tape" } as const;
  const readings: Reading[] = distances.map(({ from, to, value }, order) => {
    return { ...said, id: `d${order}`, order, kind: "distance", from: names[from]!, to: names[to]!, value };
  });
  heights.forEach((value, corner) => {
    readings.push({
      ...said,
      id: `h${corner}`,
      order: 1000 + corner,
      kind: "height",
      from: names[corner]!,
      value,
    });
  });
  return {
    ...emptyDocument(),
    rooms: { room: { id: "room", name: "Room", order: 0, turn: "clockwise", entered: true } },
    corners: Object.fromEntries(corners.map((corner) => [corner.id, corner])),
    readings: Object.fromEntries(readings.map((reading) => [reading.id, reading])),
  };
}

/** "A" to "Z", then "A1", "B1", ... */
export function cornerName(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : `${letter}${Math.floor(index / 26)}`;
}

function starShape(random: () => number, count: number): Point[] {
  for (let attempt = 0; attempt < 100_000; attempt++) {
    const size = 2500 + 400 * count;
    const jitter = Array.from({ length: count }, () => (random() - 0.5) * 0.8);
    const points = jitter.map((shift, k) => {
      // Clockwise with y up: angles fall.
      const angle = (-(k + shift) * 2 * Math.PI) / count;
      const radius = size * (0.45 + 0.55 * random());
      return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
    });
    if (isFair(points)) return points;
  }
  throw new Error(`no fair room of ${count} corners found`);
}

/** No wall under 600 mm, no corner within 3 degrees of square or straight or sharper than 15 degrees, middle inside. */
function isFair(points: readonly Point[]): boolean {
  const size = points.length;
  return points.every((here, k) => {
    const next = points[(k + 1) % size]!;
    const previous = points[(k + size - 1) % size]!;
    const around = turnOf({ x: 0, y: 0 }, here, next);
    const inside = insideAngle(previous, here, next);
    const fromSquare = [90, 180, 270].every((square) => Math.abs(inside - square) > 3);
    return around < 0 && apart(here, next) > 600 && inside > 15 && inside < 345 && fromSquare;
  });
}

/** Inside angle of a clockwise outline (y up), degrees. */
function insideAngle(previous: Point, here: Point, next: Point): number {
  const out = Math.atan2(next.y - here.y, next.x - here.x);
  const back = Math.atan2(previous.y - here.y, previous.x - here.x);
  return (((((out - back) * 180) / Math.PI) % 360) + 360) % 360;
}

function wallsOf(count: number): [number, number][] {
  return Array.from({ length: count }, (_, k) => [k, (k + 1) % count]);
}

/** Diagonals left by cutting random ears until a triangle stands. */
export function triangulation(random: () => number, corners: readonly Point[]): [number, number][] {
  let ring = corners.map((_, k) => k);
  const diagonals: [number, number][] = [];
  while (ring.length > 3) {
    const size = ring.length;
    const ears = ring.flatMap((_, k) => {
      const [a, b, c] = [ring[(k + size - 1) % size]!, ring[k]!, ring[(k + 1) % size]!];
      const [p, q, r] = [corners[a]!, corners[b]!, corners[c]!];
      if (turnOf(p, q, r) >= 0) return [];
      const filled = ring.some(
        (other) => other !== a && other !== b && other !== c && covers(p, q, r, corners[other]!),
      );
      return filled ? [] : [{ k, a, c }];
    });
    const ear = ears[Math.floor(random() * ears.length)];
    if (!ear) throw new Error("a simple outline always has an ear");
    diagonals.push([ear.a, ear.c]);
    ring = ring.filter((_, k) => k !== ear.k);
  }
  return diagonals;
}

/** So many of the lines between corners that run inside the room, walls apart, in random order. */
export function linesOfSight(
  random: () => number,
  corners: readonly Point[],
  count: number,
): [number, number][] {
  const size = corners.length;
  const seen: [number, number][] = [];
  for (let a = 0; a < size; a++) {
    for (let b = a + 2; b < size; b++) {
      if ((b + 1) % size !== a && isInside(corners, a, b)) seen.push([a, b]);
    }
  }
  return shuffled(random, seen).slice(0, count);
}

/** Whether points a little way along the line all lie inside: coarse, but only for choosing lines. */
function isInside(corners: readonly Point[], a: number, b: number): boolean {
  const [p, q] = [corners[a]!, corners[b]!];
  return Array.from({ length: 199 }, (_, k) => (k + 1) / 200).every((share) =>
    inOutline(corners, { x: p.x + (q.x - p.x) * share, y: p.y + (q.y - p.y) * share }),
  );
}

function inOutline(corners: readonly Point[], { x, y }: Point): boolean {
  let turns = 0;
  corners.forEach((p, k) => {
    const q = corners[(k + 1) % corners.length]!;
    const left = turnOf(p, q, { x, y });
    if (p.y <= y && q.y > y && left > 0) turns++;
    if (p.y > y && q.y <= y && left < 0) turns--;
  });
  return turns !== 0;
}

function covers(p: Point, q: Point, r: Point, point: Point): boolean {
  return turnOf(p, q, point) <= 0 && turnOf(q, r, point) <= 0 && turnOf(r, p, point) <= 0;
}

function turnOf(p: Point, q: Point, r: Point): number {
  return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
}

function apart(p: Point, q: Point): number {
  return Math.hypot(p.x - q.x, p.y - q.y);
}

function inDatum(points: readonly Point[]): Point[] {
  const [first, second] = [points[0]!, points[1]!];
  const length = apart(first, second);
  const [ux, uy] = [(second.x - first.x) / length, (second.y - first.y) / length];
  return points.map(({ x, y }) => ({
    x: (x - first.x) * ux + (y - first.y) * uy,
    y: (y - first.y) * ux - (x - first.x) * uy,
  }));
}

/** The items in random order (Fisher and Yates). */
function shuffled<T>(random: () => number, items: readonly T[]): T[] {
  const order = [...items];
  for (let k = order.length - 1; k > 0; k--) {
    const other = Math.floor(random() * (k + 1));
    [order[k], order[other]] = [order[other]!, order[k]!];
  }
  return order;
}
