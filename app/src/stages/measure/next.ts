/** Which reading the entry slip asks for next: the walls in order, then a diagonal, then heights. */
import type { Reading, TrueRoom } from "@cornerwise/engine";

export interface Wanted {
  readonly kind: "distance" | "height";
  readonly from: string;
  readonly to?: string;
  /** The line it begins: "A to C". */
  readonly ask: string;
}

function told(readings: readonly Reading[], wanted: Wanted): boolean {
  return readings.some(
    (reading) =>
      reading.kind === wanted.kind &&
      reading.instrument !== "guess" &&
      ((reading.from === wanted.from && (wanted.to === undefined || reading.to === wanted.to)) ||
        (reading.to === wanted.from && reading.from === wanted.to)),
  );
}

/** Everything that would be asked of a room, in walking order. */
export function wantedReadings(room: TrueRoom): readonly Wanted[] {
  const corners = room.corners;
  const walls = room.walls
    .filter((wall) => !wall.open)
    .map((wall): Wanted => ({
      kind: "distance",
      from: wall.from,
      to: wall.to,
      ask: wall.name.replace("-", " to "),
    }));
  const diagonals = corners.flatMap((to, index): Wanted[] => {
    const from = corners[0];
    return from && index >= 2 && index <= corners.length - 2
      ? [{ kind: "distance", from: from.id, to: to.id, ask: `${from.name} to ${to.name}` }]
      : [];
  });
  const [, second, , fourth] = corners;
  const cross: readonly Wanted[] =
    corners.length === 4 && second && fourth
      ? [{ kind: "distance", from: second.id, to: fourth.id, ask: `${second.name} to ${fourth.name}` }]
      : [];
  const open = room.walls.some((wall) => wall.open);
  const heights = corners.map((corner): Wanted => ({
    kind: "height",
    from: corner.id,
    ask: `height ${corner.name}`,
  }));
  return [...walls, ...(open ? [] : [...diagonals, ...cross]), ...heights];
}

/** The first reading nobody has taken yet; undefined when all are in. */
export function nextReading(room: TrueRoom): Wanted | undefined {
  const readings = room.readings.map((result) => result.reading);
  return wantedReadings(room).find((wanted) => !told(readings, wanted));
}
