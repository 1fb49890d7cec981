/**
 * Pieces in the true room: where each stands, the ways between them, the neighbours' views and what still waits.
 * Pure; kept by the identity of records, so that one moved piece works out only what it has a part in.
 */
import { listed, showOf, type Place, type ShowDocument } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import { circle, inRing, placed, rectangle } from "../plane/outline.ts";
import { figureOf } from "../snags/catalogue.ts";
import { CHORD_ERROR, CROWDED, WIDE_ENOUGH } from "../tolerances.ts";
import { createGaps, type Gaps } from "./gaps.ts";
import { routesOf, worksAmong, type Routes } from "./goals.ts";
import type { Arrangement, LaidCovering, Standing, StandingNeighbour } from "./model.ts";
import {
  coveringThing,
  groundOf,
  mountThing,
  narrows,
  neighbourThing,
  pieceThing,
  type Ground,
  type Thing,
} from "./obstacles.ts";
import { createMounting } from "./mounting.ts";
import { createStand } from "./standing.ts";
import { viewsOf } from "./views.ts";

/** What stands in the rooms of a document. No memory is kept; for live work use `createArrange`. */
export function arrangeRooms(document: ShowDocument, rooms: readonly TrueRoom[]): readonly Arrangement[] {
  return createArrange()(document, rooms);
}

/** `arrangeRooms` with a memory of the last document: keep one for each live document. */
export function createArrange(): (
  document: ShowDocument,
  rooms: readonly TrueRoom[],
) => readonly Arrangement[] {
  const stand = createStand();
  const mounting = createMounting();
  const coverings = createEach(laid);
  const neighbours = createEach(standingNeighbour);
  let arrangers = new Map<string, ReturnType<typeof createArrangement>>();
  let last: { readonly key: readonly unknown[]; readonly arrangements: readonly Arrangement[] } | undefined;
  return (document, rooms) => {
    const stood = stand(document);
    const key = [stood, rooms, document.coverings, document.neighbours, showOf(document).place];
    if (last?.key.every((part, index) => part === key[index])) return last.arrangements;
    const coveringsNow = coverings(document.coverings);
    const mountedNow = mounting(document, rooms, stood);
    const neighboursNow = neighbours(document.neighbours);
    const next: typeof arrangers = new Map();
    const arrangements = rooms.map((room) => {
      const { id } = room.room;
      const arranger = arrangers.get(id) ?? createArrangement();
      next.set(id, arranger);
      return arranger({
        room,
        standing: stood.byRoom.get(id) ?? NONE,
        mounted: mountedNow.get(id) ?? [],
        coverings: coveringsNow.filter(({ covering }) => covering.room === id),
        neighbours: neighboursNow.filter(({ neighbour }) => neighbour.room === id),
        tray: stood.tray,
        place: showOf(document).place,
      });
    });
    arrangers = next;
    last = { key, arrangements };
    return arrangements;
  };
}

const NONE: readonly Standing[] = [];

type Placed = Omit<Arrangement, "routes" | "views"> & { readonly place: Place };

/** One room's arrangement, remembering its gaps. */
function createArrangement(): (from: Placed) => Arrangement {
  const gaps = createGaps();
  return (from) => {
    const { place, ...said } = from;
    const ground = groundFor(from.room);
    const things: readonly Thing[] = [...ground.things, ...worksOf(from)];
    const within = reachOf(things, place);
    const { routes, left } =
      ground.ring.length === 0 || !from.room.room.entered
        ? NO_ROUTES
        : waysIn(from, { things, ground, found: gaps(things, ground.ring, within) });
    const views = viewsOf(from.room, from.neighbours, from);
    return { ...said, routes, views, ...(left === 0 ? {} : { unjudged: left }) };
  };
}

const NO_ROUTES: Routes = { routes: [], left: 0 };

interface Found {
  readonly things: readonly Thing[];
  readonly ground: Ground;
  readonly found: Gaps | undefined;
}

function waysIn({ room, place }: Placed, { things, ground: { entries }, found }: Found): Routes {
  if (found) return routesOf({ room, things, gaps: found, entries, place });
  return { routes: [], left: entries.length === 0 ? 0 : worksAmong(things).length };
}

/** Up to three people abreast; in a crowded room only what the place asks, and a little. */
function reachOf(things: readonly Thing[], place: Place): number {
  const count = things.reduce((sum, thing) => sum + thing.obstacles.length, 0);
  return count > CROWDED ? figureOf("narrow-route", "clear", place) * 1.05 : WIDE_ENOUGH;
}

const grounds = new WeakMap<TrueRoom, Ground>();

/** The venue's obstacles of a room, worked out once for each room value. */
export function groundFor(room: TrueRoom): Ground {
  const known = grounds.get(room) ?? groundOf(room);
  grounds.set(room, known);
  return known;
}

const things = new WeakMap<object, Thing>();

/** A thing's obstacles, worked out once for each value. */
function kept<T extends object>(value: T, make: (value: T) => Thing): Thing {
  const known = things.get(value) ?? make(value);
  things.set(value, known);
  return known;
}

/** Coverings nobody walks on, neighbours, pieces and what narrows the way from a wall, as obstacles. */
export function worksOf({
  room,
  standing,
  mounted,
  coverings,
  neighbours,
}: Pick<Arrangement, "room" | "standing" | "mounted" | "coverings" | "neighbours">): readonly Thing[] {
  const byId = new Map(standing.map((one) => [one.placement.id, one]));
  return [
    ...coverings.filter(({ covering }) => !covering.walkable).map((one) => kept(one, coveringThing)),
    ...standing.filter((one) => !liesWithin(one, byId.get(one.on ?? ""))).map((one) => kept(one, pieceThing)),
    ...mounted.filter(narrows).map((one) => kept(one, () => mountThing(one, wallIndex(room, one.wall)))),
    ...neighbours.map((one) => kept(one, neighbourThing)),
  ];
}

function wallIndex({ walls }: TrueRoom, id: string): number {
  return walls.findIndex((wall) => wall.id === id);
}

/** Whether a copy lies on another without standing out over it: then it narrows no way that the other does not. */
function liesWithin({ outline }: Standing, host: Standing | undefined): boolean {
  if (!host) return false;
  const blocks = host.blocks.map((block) => block.outline);
  return outline.every((ring) => ring.every((point) => blocks.some((block) => inRing(block, point))));
}

function laid(covering: LaidCovering["covering"]): LaidCovering {
  const { width, depth, border } = covering;
  const field = border > 0 && 2 * border < Math.min(width, depth);
  return {
    covering,
    outline: placed(rectangle(width, depth), covering),
    field: field ? placed(rectangle(width - 2 * border, depth - 2 * border), covering) : [],
  };
}

function standingNeighbour(neighbour: StandingNeighbour["neighbour"]): StandingNeighbour {
  const { round, x, y, width, depth } = neighbour;
  return {
    neighbour,
    outline: round ? circle({ x, y }, width / 2, CHORD_ERROR) : placed(rectangle(width, depth), neighbour),
  };
}

/** Makes something of every record of a table, keeping what was made of records that are the very same. */
function createEach<R extends { readonly id: string; readonly order?: number }, Made>(
  make: (record: R) => Made,
): (table: { readonly [id: string]: R & { readonly order: number } }) => readonly Made[] {
  const made = new WeakMap<R, Made>();
  return (table) =>
    listed(table).map((record) => {
      const known = made.get(record) ?? make(record);
      made.set(record, known);
      return known;
    });
}
