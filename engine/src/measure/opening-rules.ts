/** Openings and fixtures against their walls and against each other. */
import { listed, type Fixture, type Opening } from "../document/tables.ts";
import type { Snag } from "../snags/snag.ts";
import { SURE, TOUCH } from "../tolerances.ts";
import { printLength } from "../units/length.ts";
import { place, type Judged } from "./judged.ts";
import type { TrueWall } from "./model.ts";
import { wallOf } from "./placed.ts";

/** Every opening and fixture that does not lie within a wall of its room. */
export function outsideWalls(judged: Judged): Snag[] {
  const { room, document } = judged;
  if (room.corners.length === 0) return [];
  const said: readonly (Opening | Fixture)[] = [...listed(document.openings), ...listed(document.fixtures)];
  const mine = said.filter((one) => one.room === room.room.id);
  return mine.flatMap((one) => {
    const found = wallOf(room, one);
    if (!found) return [wallLost(one)];
    return [...beyondEnds(judged, one, found.wall), ...aboveTop(judged, one, found.wall)];
  });
}

function wallLost(one: Opening | Fixture): Snag {
  const sentence = `${titled(one)} names no wall of this room.`;
  return { rule: "opening-outside-wall", level: "stop", sentence, things: [one.id] };
}

function beyondEnds({ room, units }: Judged, one: Opening | Fixture, wall: TrueWall): Snag[] {
  const past = one.offset + one.width - wall.length;
  if (past <= TOUCH) return [];
  const at = room.corners.find(({ id }) => id === (one.datum === wall.from ? wall.to : wall.from));
  return [
    {
      rule: "opening-outside-wall",
      // A wall that may well be that long is a question, not a stop.
      level: past > TOUCH + SURE * wall.sdLength ? "stop" : "mind",
      sentence: `${titled(one)} runs ${printLength(past, units)} past the end of wall ${wall.name}.`,
      things: [one.id, wall.id],
      ...place(at),
      measured: one.offset + one.width,
      doubt: wall.sdLength,
      wanted: wall.length,
      mend: "Check its offset and width, and which corner it is taken from.",
    },
  ];
}

/** An opening that reaches above the wall at its lower end. What is said of heights only by a guess is no more than a question. */
function aboveTop({ room, units }: Judged, one: Opening | Fixture, wall: TrueWall): Snag[] {
  if (!("sill" in one)) return [];
  const [from, to] = [wall.from, wall.to].map((id) => room.corners.find((corner) => corner.id === id));
  if (!from || !to || wall.length <= 0) return [];
  const start = one.datum === wall.from ? one.offset : wall.length - one.offset - one.width;
  const ceilings = [start, start + one.width].map(
    (along) => from.height + ((to.height - from.height) * along) / wall.length,
  );
  const top = one.sill + one.height;
  const wanted = Math.min(...ceilings);
  const past = top - wanted;
  if (past <= TOUCH) return [];
  const doubt = Math.max(from.sdHeight, to.sdHeight);
  return [
    {
      rule: "opening-outside-wall",
      level: past > TOUCH + SURE * doubt ? "stop" : "mind",
      sentence: `${titled(one)} reaches ${printLength(past, units)} above wall ${wall.name}.`,
      things: [one.id, wall.id],
      ...place(from),
      measured: top,
      doubt,
      wanted,
      mend: "Check its height and sill, and the heights of both corners.",
    },
  ];
}

/** Openings of one wall that share part of it. */
export function overlaps({ room, units }: Judged): Snag[] {
  return room.openings.flatMap((one, index) =>
    room.openings.slice(index + 1).flatMap((other): Snag[] => {
      if (one.wall !== other.wall) return [];
      const [a, b] = [one.opening, other.opening];
      const across = Math.min(one.along + a.width, other.along + b.width) - Math.max(one.along, other.along);
      const upright = Math.min(a.sill + a.height, b.sill + b.height) - Math.max(a.sill, b.sill);
      if (across <= TOUCH || upright <= TOUCH) return [];
      return [
        {
          rule: "opening-outside-wall",
          level: "stop",
          sentence: `${titled(a)} and ${titled(b)} overlap by ${printLength(across, units)}.`,
          things: [a.id, b.id, one.wall],
          at: one.start,
          measured: across,
          wanted: 0,
          mend: "Check where both begin, and from which corner.",
        },
      ];
    }),
  );
}

function titled({ name }: { readonly name: string }): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}
