/** What the document says of one room, gathered for its adjustment. */
import {
  listed,
  showOf,
  type Corner,
  type Reading,
  type Room,
  type ShowDocument,
} from "../document/tables.ts";
import { cornerHeights, type CornerHeight } from "./heights.ts";
import { networkOf, tieOf, type Network, type Tie } from "./network.ts";

/** What the document says of one room. */
export interface Said {
  readonly document: ShowDocument;
  readonly room: Room;
  readonly corners: readonly Corner[];
  readonly names: ReadonlyMap<string, string>;
  readonly readings: readonly Reading[];
  /** Readings that tie the plan, beside the network's ties and in their order. */
  readonly planned: readonly Reading[];
  readonly network: Network;
  readonly heights: readonly CornerHeight[];
  readonly baseDepth: number;
}

/** Everything the document says of a room. Readings whose corners are not in the room tie nothing. */
export function gather(document: ShowDocument, room: Room): Said {
  const corners = listed(document.corners).filter((corner) => corner.room === room.id);
  const readings = listed(document.readings).filter((reading) => reading.room === room.id);
  const indexOf = new Map(corners.map(({ id }, index) => [id, index]));
  const tied = readings.flatMap((reading) => {
    const tie = tieOf(reading, indexOf);
    return tie ? [{ reading, tie }] : [];
  });
  // Sums depend on order in their last digits; the order of corners is the room's own, the order of notes is not.
  tied.sort((a, b) => compareTies(a.tie, b.tie));
  const trims = Object.values(document.trims).filter((trim) => trim.room === room.id && trim.kind === "base");
  return {
    document,
    room,
    corners,
    readings,
    names: new Map(corners.map(({ id, name }) => [id, name])),
    planned: tied.map(({ reading }) => reading),
    network: networkOf(
      room,
      corners,
      tied.map(({ tie }) => tie),
    ),
    heights: cornerHeights(corners, readings, showOf(document).units),
    baseDepth: Math.max(0, ...trims.map(({ depth }) => depth)),
  };
}

function compareTies(a: Tie, b: Tie): number {
  const [p, q] = [rankOf(a), rankOf(b)];
  return p[0] - q[0] || p[1] - q[1] || p[2] - q[2] || a.value - b.value || a.sigma - b.sigma;
}

function rankOf(tie: Tie): readonly [number, number, number] {
  if (tie.kind === "distance") return [0, tie.a, tie.b];
  return [1, tie.kind === "angle" ? tie.at : tie.coordinate, 0];
}
