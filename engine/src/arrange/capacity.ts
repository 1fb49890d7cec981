/**
 * How many people a room takes with the work in it, for the talk with the fire officer: the floor less what stands
 * on it, shared out at so much a person. Source: occupant load factors of the International Building Code.
 */
import type { TrueRoom } from "../measure/model.ts";
import { shared, type Rings } from "../plane/clip.ts";
import { boundsOf, inRing, ringArea, type Bounds } from "../plane/outline.ts";
import { eachNearPair } from "../plane/pairs.ts";
import type { Point } from "../plane/point.ts";
import { boundsGap } from "../plane/rounded.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { opening, type Judging } from "./judging.ts";
import type { Arrangement, Standing } from "./model.ts";

/** The floor nothing stands on, mm²: less what stands on it and the coverings nobody walks on, neighbours' works too. */
export function netFloor(arrangement: Arrangement): number {
  const { room } = arrangement;
  if (room.corners.length < 3) return 0;
  const covered = clustersOf(takenBy(arrangement)).reduce((sum, cluster) => sum + within(cluster, room), 0);
  return Math.max(0, Math.abs(ringArea(room.corners)) - covered);
}

/** Something that takes floor, by the value it comes from. */
interface Taken {
  readonly from: object;
  readonly rings: Rings;
  readonly bounds: Bounds;
}

function takenBy({ room, standing, coverings, neighbours }: Arrangement): readonly Taken[] {
  const shut = coverings.filter(({ covering }) => !covering.walkable);
  const built = room.fixtures.filter(({ low, footprint }) => low <= TOUCH && footprint.length > 2);
  return [
    ...standing.map((one) => kept(one, feetOf)),
    ...[...shut, ...neighbours].map((one) => kept(one, ({ outline }) => [outline])),
    ...built.map((one) => kept(one, ({ footprint }) => [footprint])),
  ].filter(({ rings }) => rings.length > 0);
}

function feetOf({ blocks }: Standing): Rings {
  return blocks.filter(({ low }) => low <= TOUCH).map(({ outline }) => outline);
}

const taken = new WeakMap<object, Taken>();

/** What a thing takes, worked out once for each value. */
function kept<T extends object>(from: T, ringsOf: (from: T) => Rings): Taken {
  const known = taken.get(from);
  if (known) return known;
  const rings = ringsOf(from);
  const one = { from, rings, bounds: boundsOf(rings.flat()) };
  taken.set(from, one);
  return one;
}

/** Things whose boxes touch, directly or through others, in the order they come; most are alone. */
function clustersOf(all: readonly Taken[]): readonly (readonly Taken[])[] {
  const parent = all.map((_, index) => index);
  const rootOf = (index: number): number => {
    let root = index;
    while (parent[root] !== root) root = parent[root]!;
    return root;
  };
  eachNearPair(
    all.map(({ bounds }) => bounds),
    0,
    (i, j) => {
      const [a, b] = [rootOf(i), rootOf(j)];
      parent[Math.max(a, b)] = Math.min(a, b);
      return true;
    },
  );
  const clusters = new Map<number, Taken[]>();
  for (const [index, one] of all.entries()) {
    const root = rootOf(index);
    const cluster = clusters.get(root);
    if (cluster) cluster.push(one);
    else clusters.set(root, [one]);
  }
  return [...clusters.values()];
}

interface Area {
  readonly room: TrueRoom;
  readonly cluster: readonly Taken[];
  readonly area: number;
}

const areas = new WeakMap<Taken, Area>();

/** What things that lie together take of a room's floor, by the first of them; worked out once while none changes. */
function within(cluster: readonly Taken[], room: TrueRoom): number {
  const [first] = cluster as readonly [Taken];
  const known = areas.get(first);
  const same =
    known?.room === room &&
    known.cluster.length === cluster.length &&
    cluster.every((one, index) => one === known.cluster[index]);
  if (same) return known.area;
  const rings = cluster.flatMap((one) => one.rings);
  const area = insideArea(rings, room);
  areas.set(first, { room, cluster, area });
  return area;
}

function insideArea(rings: Rings, { corners }: TrueRoom): number {
  const [only] = rings;
  // One thing clear of all walls needs no clipping, and while it is dragged it is asked of it every time.
  if (only && rings.length === 1 && isClearOfWalls(only, corners)) return Math.abs(ringArea(only));
  return shared(rings, [corners]).reduce((sum, ring) => sum + ringArea(ring), 0);
}

/** Whether a ring surely lies inside a room: no wall comes near the box round it. */
function isClearOfWalls(ring: readonly Point[], corners: readonly Point[]): boolean {
  const bounds = boundsOf(ring);
  const meets = corners.some(
    (corner, index) => boundsGap(boundsOf([corner, corners[(index + 1) % corners.length]!]), bounds) === 0,
  );
  return !meets && inRing(corners, ring[0]!);
}

/** People for so much net floor, at so much for each: whole people, never one too many. */
export function peopleOn(net: number, each: number): number {
  // Areas are sums of rounded places: an exact share must not lose its last person.
  return Math.max(0, Math.floor(net / each + 1e-6));
}

/** How many people an entered room takes, once something stands in it. */
export function capacitySnags(judging: Judging): readonly Snag[] {
  const { room, standing } = judging.arrangement;
  if (!room.room.entered || !room.settled || standing.length === 0) return [];
  const each = figureOf("capacity", "person", judging.place) * 1e6;
  const people = peopleOn(netFloor(judging.arrangement), each);
  const takes = people === 1 ? "1 person" : `${people} people`;
  return [
    {
      rule: "capacity",
      level: "know",
      sentence: `${opening(room.room.name)} takes ${takes} at once beside the work, by the floor that is left.`,
      things: [],
      room: room.room.id,
      measured: people,
      mend: "Tell the fire officer this figure and ask for the venue's own.",
    },
  ];
}
