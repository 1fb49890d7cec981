/**
 * How many people a room takes with the work in it, for the talk with the fire officer: the floor less what stands
 * on it, shared out at so much a person. Source: occupant load factors of the International Building Code.
 */
import type { TrueRoom } from "../measure/model.ts";
import { shared, type Rings } from "../plane/clip.ts";
import { boundsOf, ringArea, type Bounds } from "../plane/outline.ts";
import { eachNearPair } from "../plane/pairs.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { opening, type Judging } from "./judging.ts";
import type { Arrangement } from "./model.ts";

/** The floor nothing stands on, mm²: less what stands on it and the coverings nobody walks on, neighbours' works too. */
export function netFloor(arrangement: Arrangement): number {
  const { room } = arrangement;
  if (room.corners.length < 3) return 0;
  const all = takenBy(arrangement);
  const together = new Set<number>();
  eachNearPair(
    all.map(({ bounds }) => bounds),
    0,
    (i, j) => {
      together.add(i).add(j);
      return true;
    },
  );
  const apart = all.filter((_, index) => !together.has(index));
  const rings = [...together].flatMap((index) => all[index]!.rings);
  const taken = apart.reduce((sum, one) => sum + within(one, room), insideArea(rings, room));
  return Math.max(0, Math.abs(ringArea(room.corners)) - taken);
}

/** Something that takes floor, by the value it comes from. */
interface Taken {
  readonly from: object;
  readonly rings: Rings;
  readonly bounds: Bounds;
}

function takenBy({ room, standing, coverings, neighbours }: Arrangement): readonly Taken[] {
  const feet = standing.map((one) => ({
    from: one,
    rings: one.blocks.filter(({ low }) => low <= TOUCH).map(({ outline }) => outline),
  }));
  const shut = coverings.filter(({ covering }) => !covering.walkable);
  const built = room.fixtures.filter(({ low, footprint }) => low <= TOUCH && footprint.length > 2);
  return [
    ...feet.filter(({ rings }) => rings.length > 0),
    ...[...shut, ...neighbours].map((one) => ({ from: one, rings: [one.outline] })),
    ...built.map((one) => ({ from: one, rings: [one.footprint] })),
  ].map((one) => ({ ...one, bounds: boundsOf(one.rings.flat()) }));
}

const areas = new WeakMap<object, { readonly room: TrueRoom; readonly area: number }>();

/** What one thing takes of a room's floor by itself; worked out once while neither changes. */
function within({ from, rings }: Taken, room: TrueRoom): number {
  const known = areas.get(from);
  if (known?.room === room) return known.area;
  const area = insideArea(rings, room);
  areas.set(from, { room, area });
  return area;
}

function insideArea(rings: Rings, { corners }: TrueRoom): number {
  if (rings.length === 0) return 0;
  return shared(rings, [corners]).reduce((sum, ring) => sum + ringArea(ring), 0);
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
