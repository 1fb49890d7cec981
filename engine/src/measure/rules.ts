/** What is wrong, risky or unknown about the true rooms. One function a rule of the catalogue; sentences in the show's units. */
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { Snag } from "../snags/snag.ts";
import { printAngle } from "../units/figures.ts";
import { printLength } from "../units/length.ts";
import { measureRoom } from "./derive.ts";
import type { ReadingResult, TrueCorner, TrueRoom } from "./model.ts";
import { sees } from "./outline.ts";
import { outsideWalls, overlaps } from "./opening-rules.ts";
import { place, type Judged } from "./judged.ts";

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
    // A room just named is no fault: what it needs next is asked for, and nothing is stopped.
    const many = room.floating.length;
    const sentence =
      many === 0
        ? `${room.room.name} has no corners yet.`
        : `${room.room.name} has ${many === 1 ? "one corner" : "two corners"} so far; three give it a shape.`;
    return [{ rule, level: "mind", sentence, things: [room.room.id], mend: "Name its corners in order." }];
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

/** Walls that cross. Where an end floats, the crossing is the drawing's and not the room's. */
function crosses({ room }: Judged): Snag[] {
  const fixed = (id: string): boolean =>
    room.corners.some((corner) => corner.id === id && !room.floating.includes(corner.name));
  const known = room.crossings.filter((pair) =>
    pair.every((wall) => fixed(room.walls[wall]!.from) && fixed(room.walls[wall]!.to)),
  );
  return known.map(([a, b]) => {
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

/** "A", "A and B", "A, B and C". */
function list(names: readonly string[], last: "and" | "or"): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} ${last} ${names.at(-1)}`;
}
