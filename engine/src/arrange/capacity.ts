/**
 * How many people a room takes with the work in it, for the talk with the fire officer: the floor less what stands
 * on it, shared out at so much a person. Source: occupant load factors of the International Building Code.
 */
import { cut, shared } from "../plane/clip.ts";
import { ringArea } from "../plane/outline.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { TOUCH } from "../tolerances.ts";
import { opening, type Judging } from "./judging.ts";
import type { Arrangement } from "./model.ts";

/** The floor nothing stands on, mm²: less what stands on it and the coverings nobody walks on, neighbours' works too. */
export function netFloor({ room, standing, coverings, neighbours }: Arrangement): number {
  if (room.corners.length < 3) return 0;
  const taken = [
    ...standing.flatMap(({ blocks }) =>
      blocks.filter(({ low }) => low <= TOUCH).map(({ outline }) => outline),
    ),
    ...coverings.filter(({ covering }) => !covering.walkable).map(({ outline }) => outline),
    ...neighbours.map(({ outline }) => outline),
    ...room.fixtures
      .filter(({ low, footprint }) => low <= TOUCH && footprint.length > 2)
      .map(({ footprint }) => footprint),
  ];
  const floor = [room.corners];
  const left = taken.length === 0 ? shared(floor, floor) : cut(floor, taken);
  return left.reduce((sum, ring) => sum + ringArea(ring), 0);
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
