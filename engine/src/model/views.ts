/**
 * Where a room is looked at from. Eye heights above the floor, common practice, from memory: standing 62 in, seated
 * 48 in, a child 42 in. A room that is entered is seen from each of its doors and open sides; one that is not, from outside, two steps
 * before each side of glass and each open side.
 */
import type { Arrangement } from "../arrange/model.ts";
import type { ShowDocument } from "../document/tables.ts";
import { alongWall, wallLines } from "../measure/frame.ts";
import type { TrueRoom } from "../measure/model.ts";
import { ringArea } from "../plane/outline.ts";
import type { Point } from "../plane/point.ts";
import { LOOKING_IN } from "../tolerances.ts";
import type { ViewFrom } from "./model.ts";

const EYES = [
  { who: "standing", eye: 62 * 25.4 },
  { who: "seated", eye: 48 * 25.4 },
  { who: "a child", eye: 42 * 25.4 },
] as const;

/** The views of a room, doors in listed order; none for a room without a shape or a way to see into it. */
export function viewsFrom({ room }: Arrangement, document: ShowDocument): readonly ViewFrom[] {
  const toward = centreOf(room.corners);
  if (!toward) return [];
  const entered = document.rooms[room.room.id]?.entered ?? room.room.entered;
  return entered ? fromWaysIn(room, toward) : fromOutside(room, toward);
}

/** An open side is a way in as a door is. */
function fromWaysIn(room: TrueRoom, toward: Point): readonly ViewFrom[] {
  const doors = room.openings
    .filter(({ opening }) => opening.kind === "door")
    .map(({ opening, start, end }) => ({
      name: opening.name,
      place: { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 },
    }));
  const sides = wallLines(room)
    .filter(({ wall }) => wall.open)
    .map((line) => ({
      name: `the open side ${line.wall.name}`,
      place: alongWall(line, line.wall.length / 2),
    }));
  return [...doors, ...sides].flatMap(({ name, place }) =>
    EYES.map(({ who, eye }) => view(`From ${name}, ${who}`, place, toward, eye)),
  );
}

function fromOutside(room: TrueRoom, toward: Point): readonly ViewFrom[] {
  return wallLines(room)
    .filter(({ wall }) => wall.glass || wall.open)
    .flatMap((line) => {
      const place = alongWall(line, line.wall.length / 2, LOOKING_IN);
      const way = line.wall.glass ? "Through the glass" : "Over the open side";
      return EYES.slice(0, 2).map(({ who, eye }) =>
        view(`${way} ${line.wall.name}, ${who}`, place, toward, eye),
      );
    });
}

function view(name: string, place: Point, toward: Point, eye: number): ViewFrom {
  return { name, eye: { ...place, z: eye }, toward: { ...toward, z: eye } };
}

/** Centre of gravity of the floor; undefined where it has no area. */
function centreOf(ring: readonly Point[]): Point | undefined {
  const area = ringArea(ring);
  if (ring.length < 3 || area === 0) return undefined;
  let [x, y] = [0, 0];
  ring.forEach((a, index) => {
    const b = ring[(index + 1) % ring.length]!;
    const cross = a.x * b.y - b.x * a.y;
    x += (a.x + b.x) * cross;
    y += (a.y + b.y) * cross;
  });
  return { x: x / (6 * area), y: y / (6 * area) };
}
