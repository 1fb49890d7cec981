/**
 * Copies that are put up together: one piece in one room, and so high above the floor in a stack. Things on things
 * are told apart by how many others are under them, so that a group only ever waits for groups nearer the floor,
 * even where somebody put two pieces on each other's copies.
 */
import type { Arrangement, Standing } from "../arrange/model.ts";
import type { Piece } from "../document/tables.ts";
import { hangs } from "./set-out.ts";

/** The members by key, keys in the order they first come. */
export function grouped<T>(
  members: readonly T[],
  key: (member: T) => string,
): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const member of members) {
    const name = key(member);
    const there = groups.get(name);
    if (there) there.push(member);
    else groups.set(name, [member]);
  }
  return groups;
}

export interface Group {
  readonly work: "furniture" | "hung" | "accessory";
  /** What its task is about: `${piece}@${room}`, and how deep where others are under it. No id holds an @, so no two are alike. */
  readonly about: string;
  readonly piece: Piece;
  /** 0 on the floor, else how many things are under it. */
  readonly depth: number;
  /** Placement ids by number, and what carries them. */
  readonly placements: readonly string[];
  readonly numbers: readonly number[];
  readonly on: readonly string[];
}

const ORDER = ["furniture", "hung", "accessory"] as const;

/** The groups of what stands or hangs in a room: furniture, hung, accessories from the lowest up; each in listed order. */
export function standsOf(arrangement: Arrangement): readonly Group[] {
  const depths = depthsOf(arrangement.standing);
  const room = arrangement.room.room.id;
  const keyed = grouped(arrangement.standing, (standing) => {
    const depth = depths.get(standing.placement.id) ?? 0;
    return JSON.stringify([workOf(standing), standing.piece.id, depth]);
  });
  return [...keyed.values()]
    .map((members) => groupOf(members, room, depths))
    .toSorted(
      (a, b) =>
        ORDER.indexOf(a.work) - ORDER.indexOf(b.work) ||
        a.depth - b.depth ||
        a.piece.order - b.piece.order ||
        (a.piece.id < b.piece.id ? -1 : 1),
    );
}

function groupOf(members: readonly Standing[], room: string, depths: ReadonlyMap<string, number>): Group {
  const sorted = members.toSorted(
    (a, b) => a.placement.number - b.placement.number || (a.placement.id < b.placement.id ? -1 : 1),
  );
  const first = sorted[0];
  if (!first) throw new Error(`a group of ${members.length} copies`);
  const depth = depths.get(first.placement.id) ?? 0;
  return {
    work: workOf(first),
    about: depth === 0 ? `${first.piece.id}@${room}` : `${first.piece.id}@${room}@${depth}`,
    piece: first.piece,
    depth,
    placements: sorted.map(({ placement }) => placement.id),
    numbers: sorted.map(({ placement }) => placement.number),
    // Without a depth nothing that is known carries it.
    on: depth === 0 ? [] : sorted.flatMap(({ placement }) => placement.on ?? []),
  };
}

function workOf(standing: Standing): Group["work"] {
  if (standing.placement.on !== undefined || standing.piece.layer === "accessory") return "accessory";
  return hangs(standing) ? "hung" : "furniture";
}

/** How many things are under each placement. What carries itself in a ring, and all on it, counts as on the floor. */
function depthsOf(standing: readonly Standing[]): ReadonlyMap<string, number> {
  const ids = new Set(standing.map(({ placement }) => placement.id));
  const upon = grouped(standing, ({ placement: { on } }) => (on !== undefined && ids.has(on) ? on : ""));
  const depths = new Map<string, number>();
  let layer = upon.get("") ?? [];
  for (let depth = 0; layer.length > 0; depth += 1) {
    for (const { placement } of layer) depths.set(placement.id, depth);
    layer = layer.flatMap(({ placement }) => upon.get(placement.id) ?? []);
  }
  return depths;
}

/** Tasks of what carries a group, each once. */
export function carried(group: Group, tasks: ReadonlyMap<string, string>): readonly string[] {
  return [...new Set(group.on.flatMap((id) => tasks.get(id) ?? []))];
}

export interface Fitted {
  readonly piece: Piece;
  readonly wall: string;
  readonly mounts: readonly string[];
  readonly numbers: readonly number[];
}

/** What is fixed to the walls of a room, by wall in room order and piece in listed order. */
export function fittedOf({ room, mounted }: Arrangement): readonly Fitted[] {
  const place = new Map(room.walls.map(({ id }, index) => [id, index]));
  const groups = grouped(mounted, ({ wall, piece }) => JSON.stringify([wall, piece.id]));
  return [...groups.values()]
    .flatMap((members): Fitted[] => {
      const sorted = members.toSorted(
        (a, b) => a.mount.number - b.mount.number || (a.mount.id < b.mount.id ? -1 : 1),
      );
      const first = sorted[0];
      if (!first) return [];
      return [
        {
          piece: first.piece,
          wall: first.wall,
          mounts: sorted.map(({ mount }) => mount.id),
          numbers: sorted.map(({ mount }) => mount.number),
        },
      ];
    })
    .toSorted(
      (a, b) =>
        (place.get(a.wall) ?? 0) - (place.get(b.wall) ?? 0) ||
        a.piece.order - b.piece.order ||
        (a.piece.id < b.piece.id ? -1 : 1),
    );
}
