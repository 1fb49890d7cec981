/** What is wrong, risky or unknown about the true rooms. One function a rule of the catalogue; sentences in the show's units. */
import {
  listed,
  showOf,
  type Fixture,
  type Opening,
  type ShowDocument,
  type Units,
} from "../document/tables.ts";
import type { Point } from "../plane/point.ts";
import type { Snag } from "../snags/snag.ts";
import { SURE, TOUCH } from "../tolerances.ts";
import { printAngle } from "../units/figures.ts";
import { printLength } from "../units/length.ts";
import { measureRoom } from "./derive.ts";
import type { ReadingResult, TrueCorner, TrueRoom, TrueWall } from "./model.ts";
import { sees } from "./outline.ts";
import { wallOf } from "./placed.ts";

interface Judged {
  readonly room: TrueRoom;
  readonly document: ShowDocument;
  readonly units: Units;
}

/** Every measuring snag, room by room in the order given. */
export function measureSnags(rooms: readonly TrueRoom[], document: ShowDocument): readonly Snag[] {
  const { units } = showOf(document);
  return rooms.flatMap((room) => {
    const judged = { room, document, units };
    const found = [
      ...floats(judged),
      ...crosses(judged),
      ...suspects(judged),
      ...disagreements(judged),
      ...ambiguous(judged),
      ...squares(judged),
      ...heights(judged),
      ...outsideWalls(judged),
      ...overlaps(judged),
    ];
    return found.map((snag) => ({ ...snag, room: room.room.id }));
  });
}

function floats({ room, document }: Judged): Snag[] {
  const rule = "corner-floats";
  if (room.corners.length === 0) {
    const sentence = `${room.room.name} has no shape yet: a room needs at least three corners.`;
    return [{ rule, level: "stop", sentence, things: [room.room.id], mend: "Name its corners in order." }];
  }
  if (room.floating.length === 0) return [];
  const loose = room.corners.filter(({ name }) => room.floating.includes(name));
  const name = (id: string): string => document.corners[id]?.name ?? id;
  const readings = room.toFix.map(([a, b]) => `${name(a)} to ${name(b)}`);
  const [corner, verb] = loose.length === 1 ? ["corner", "is"] : ["corners", "are"];
  return [
    {
      rule,
      level: "stop",
      sentence: `Nothing says yet where ${corner} ${list(room.floating, "and")} ${verb}.`,
      things: loose.map(({ id }) => id),
      ...place(loose[0]),
      ...(readings.length > 0 ? { mend: `Measure ${list(readings, "and")}.` } : {}),
    },
  ];
}

function crosses({ room }: Judged): Snag[] {
  return room.crossings.map(([a, b]) => {
    const [first, second] = [room.walls[a]!, room.walls[b]!];
    return {
      rule: "room-crosses-itself",
      level: "stop",
      sentence: `Walls ${first.name} and ${second.name} cross.`,
      things: [first.id, second.id],
      ...place(room.corners[b]),
      mend: "Check the lengths of both and the order of the corners.",
    };
  });
}

/** Plan and heights are tested apart, so each has its own suspects. */
function suspects(judged: Judged): Snag[] {
  const all = judged.room.readings.filter(({ suspect }) => suspect);
  const plan = all.filter(({ reading }) => reading.kind !== "height");
  const height = all.filter(({ reading }) => reading.kind === "height");
  return [plan, height].flatMap((group) => {
    const [first, second] = group;
    if (!first) return [];
    return [second ? groupSuspect(judged, group) : oneSuspect(judged, first)];
  });
}

function oneSuspect(judged: Judged, result: ReadingResult): Snag {
  const { reading } = result;
  const others = othersSay(judged, result);
  const print = (value: number): string =>
    reading.kind === "angle" ? printAngle(value) : printLength(value, judged.units);
  const what = named(judged, result);
  const said = what.charAt(0).toUpperCase() + what.slice(1);
  return {
    rule: "reading-suspect",
    level: "mind",
    sentence: `${said} says ${print(reading.value)}; the others say ${print(others)}.`,
    things: [reading.id],
    ...place(judged.room.corners.find(({ id }) => id === reading.from)),
    measured: reading.value,
    doubt: result.sigma,
    wanted: others,
    mend: `Measure ${what} again.`,
  };
}

function groupSuspect(judged: Judged, group: readonly ReadingResult[]): Snag {
  const names = list(
    group.map((one) => named(judged, one)),
    "or",
  );
  const worst = group.reduce((a, b) => (Math.abs(b.residual) > Math.abs(a.residual) ? b : a));
  return {
    rule: "reading-suspect",
    level: "mind",
    sentence: `One of ${names} is off; the readings cannot tell which.`,
    things: group.map(({ reading }) => reading.id),
    ...place(judged.room.corners.find(({ id }) => id === worst.reading.from)),
    measured: worst.reading.value,
    doubt: worst.sigma,
    wanted: worst.adjusted,
    mend: "Measure them again, or one more distance between these corners.",
  };
}

/** The reading as the rest has it: adjusted afresh without it where the rest still fixes the room, else by its redundancy. */
function othersSay({ room, document }: Judged, { reading, residual, redundancy }: ReadingResult): number {
  const byShare = reading.value + residual / redundancy;
  if (reading.kind === "height") return byShare;
  const { [reading.id]: _, ...readings } = document.readings;
  const without = measureRoom({ ...document, readings }, room.room);
  if (!without.settled || without.assumptions.length > room.assumptions.length) return byShare;
  const corner = (id: string | undefined): TrueCorner | undefined =>
    without.corners.find((one) => one.id === id);
  const [from, to] = [corner(reading.from), corner(reading.to)];
  if (reading.kind === "angle") return from ? from.angle : byShare;
  return from && to ? Math.hypot(to.x - from.x, to.y - from.y) : byShare;
}

/** "A to C", "the angle at B", "the height at A". */
function named({ document }: Judged, { reading }: ReadingResult): string {
  const from = document.corners[reading.from]?.name ?? reading.from;
  if (reading.kind !== "distance") return `the ${reading.kind} at ${from}`;
  return `${from} to ${document.corners[reading.to ?? ""]?.name ?? "?"}`;
}

function disagreements({ room }: Judged): Snag[] {
  const { passes, sum, critical } = room.test;
  if (passes) return [];
  return [
    {
      rule: "readings-disagree",
      level: "mind",
      sentence: "The readings disagree by more than their tapes can be off.",
      things: [room.room.id],
      measured: sum,
      wanted: critical,
      mend: "Check each reading against the sheet, the largest residual first.",
    },
  ];
}

function ambiguous({ room }: Judged): Snag[] {
  const { alternative, corners } = room;
  if (!alternative) return [];
  let best = { gap: 0, a: 0, b: 0 };
  corners.forEach((p, a) => {
    corners.slice(a + 1).forEach((q, i) => {
      const b = a + 1 + i;
      const other = Math.hypot(alternative[a]!.x - alternative[b]!.x, alternative[a]!.y - alternative[b]!.y);
      const gap = Math.abs(Math.hypot(p.x - q.x, p.y - q.y) - other) * (sees(corners, a, b) ? 1 : 0.1);
      if (gap > best.gap) best = { gap, a, b };
    });
  });
  const [from, to] = [corners[best.a]!, corners[best.b]!];
  return [
    {
      rule: "room-ambiguous",
      level: "mind",
      sentence: "The readings fit another shape of room about as well as the one drawn.",
      things: [room.room.id, from.id, to.id],
      ...place(to),
      mend: `Measure ${from.name} to ${to.name}; that tells them apart.`,
    },
  ];
}

function squares({ room }: Judged): Snag[] {
  return room.assumptions.map(({ about, sentence }) => ({
    rule: "square-assumed",
    level: "know",
    sentence,
    things: [about],
    ...place(room.corners.find(({ id }) => id === about)),
    mend: "Measure a diagonal across it, or its angle.",
  }));
}

function heights({ room, units }: Judged): Snag[] {
  const missing = room.corners.filter(({ heightSaid }) => !heightSaid);
  const first = missing[0];
  if (!first) return [];
  const taken = printLength(first.height, units);
  const names = list(
    missing.map(({ name }) => name),
    "and",
  );
  const sentence =
    missing.length === room.corners.length
      ? `No height is measured; ${taken} is taken.`
      : `No height is measured at ${names}; ${taken}, the mean of the others, is taken.`;
  const things = missing.map(({ id }) => id);
  const mend = `Measure the height at ${names}.`;
  return [
    {
      rule: "height-missing",
      level: "mind",
      sentence,
      things,
      ...place(first),
      measured: first.height,
      doubt: first.sdHeight,
      mend,
    },
  ];
}

function outsideWalls(judged: Judged): Snag[] {
  const { room, document } = judged;
  if (room.corners.length === 0) return [];
  const said: readonly (Opening | Fixture)[] = [...listed(document.openings), ...listed(document.fixtures)];
  const mine = said.filter((one) => one.room === room.room.id);
  return mine.flatMap((one) => {
    const found = wallOf(room, one);
    if (!found) return [wallLost(one)];
    return beyondEnds(judged, one, found.wall);
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

/** Openings of one wall that share part of it. */
function overlaps({ room, units }: Judged): Snag[] {
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

function place(point: Point | undefined): { at?: Point } {
  return point ? { at: { x: point.x, y: point.y } } : {};
}

/** "A", "A and B", "A, B and C". */
function list(names: readonly string[], last: "and" | "or"): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} ${last} ${names.at(-1)}`;
}
