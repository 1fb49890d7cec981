/** What is wrong, risky or unknown about putting the show up: the hours, the crew, the time it takes, the marks. */
import type { Arrangement } from "../arrange/model.ts";
import { showOf, SHOW_ID, type ShowDocument } from "../document/tables.ts";
import { figureOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { printMinutes } from "../units/minutes.ts";
import { dayWords } from "./clock.ts";
import type { Installing, Mark, SetOut, Task } from "./model.ts";
import { crossingAt } from "./set-out.ts";
import { accessOf, endOfDay, momentOf, type Access, type ShiftFault } from "./shifts.ts";

/** The snags of the install stage. A show with nothing to put up and no hours said has none. */
export function installSnags(
  installing: Installing,
  arrangements: readonly Arrangement[],
  document: ShowDocument,
): readonly Snag[] {
  const access = accessOf(document);
  return [
    ...noAccess(installing, document),
    ...zoneUnknown(access, document),
    ...access.faults.map(faultSnag),
    ...crewTooSmall(installing),
    ...tooLong(installing),
    ...opensBeforeDone(installing, document, access),
    ...installing.setOuts.flatMap((setOut) => crossFlat(setOut, arrangements)),
  ];
}

function noAccess({ tasks }: Installing, document: ShowDocument): readonly Snag[] {
  if (tasks.length === 0 || Object.keys(document.shifts).length > 0) return [];
  return [
    {
      rule: "no-access",
      level: "mind",
      sentence: "Nobody has said yet when the venue lets you in, so the work has no hours.",
      things: [SHOW_ID],
      mend: "Ask the venue for days and hours, and say who comes.",
    },
  ];
}

function zoneUnknown({ zoneKnown }: Access, document: ShowDocument): readonly Snag[] {
  if (zoneKnown || Object.keys(document.shifts).length === 0) return [];
  const { zone } = showOf(document);
  const why =
    zone === "" ? "Nobody has said in which time zone the venue is" : `No time zone is called “${zone}”`;
  return [
    {
      rule: "zone-unknown",
      level: "mind",
      sentence: `${why}; its hours are taken as UTC in calendars.`,
      things: [SHOW_ID],
      mend: "Name the zone by its region and city, like America/Chicago.",
    },
  ];
}

/** "9:00 to 21:00 on Thursday 4 March 2027", as it was said. */
function shiftWords({ start, end }: ShiftFault["shift"]): string {
  const [startDay = "", startClock = ""] = start.split("T");
  const [endDay = "", endClock = ""] = end.split("T");
  const until = endDay === startDay ? endClock : `${endClock} on ${dayWords(endDay)}`;
  return `${dayWords(startDay)}, ${startClock} to ${until}`;
}

function faultSnag(fault: ShiftFault): Snag {
  const { shift } = fault;
  if (fault.kind === "no crew")
    return {
      rule: "no-crew",
      level: "stop",
      sentence: `Nobody comes to the shift of ${shiftWords(shift)}.`,
      things: [shift.id],
      measured: shift.people,
      wanted: figureOf("no-crew", "people", ""),
      mend: "Say how many people come, or take the shift out.",
    };
  if (fault.kind === "never opens")
    return {
      rule: "shift-never-opens",
      level: "stop",
      sentence: `The shift of ${shiftWords(shift)} ends before it begins.`,
      things: [shift.id],
      measured: fault.minutes,
      wanted: figureOf("shift-never-opens", "shortest", ""),
      mend: "Past midnight the end is on the next day.",
    };
  return {
    rule: "shifts-overlap",
    level: "stop",
    sentence: `The shift of ${shiftWords(shift)} begins while another still runs; ${printMinutes(fault.minutes)} of it are not counted.`,
    things: [shift.id, fault.with.id],
    measured: fault.minutes,
    wanted: figureOf("shifts-overlap", "shared", ""),
    mend: "Let one begin when the other ends, or make them one with more people.",
  };
}

/** One snag for the task that takes the most people more than ever come together. */
function crewTooSmall({ tasks, shifts }: Installing): readonly Snag[] {
  if (shifts.length === 0) return [];
  const most = Math.max(...shifts.map(({ shift }) => shift.people));
  const large = tasks.filter(({ people }) => people > most);
  const worst = large.toSorted((a, b) => b.people - a.people)[0];
  if (!worst) return [];
  const others = large.length === 1 ? "" : `, and ${large.length - 1} more tasks take more than come`;
  return [
    {
      rule: "crew-too-small",
      level: "stop",
      sentence: `“${worst.name}” takes ${worst.people} people${others}; at most ${most} come at once.`,
      things: thingsOf(large),
      room: worst.room,
      measured: most,
      wanted: worst.people,
      mend: "Bring one more, or say your own rate with fewer people.",
    },
  ];
}

function tooLong({ lacking, tasks, unplaced, shifts }: Installing): readonly Snag[] {
  if (!lacking) return [];
  const late = new Set(unplaced);
  const out = tasks.filter(({ id }) => late.has(id));
  const names = out.slice(0, 2).map(({ name }) => `“${name}”`);
  const more = out.length > 2 ? ` and ${out.length - 2} more` : "";
  return [
    {
      rule: "job-longer-than-access",
      level: "stop",
      sentence: `The work takes ${printMinutes(lacking.needed)} of the hours given, and there are ${printMinutes(lacking.given)}: no time for ${names.join(", ")}${more}.`,
      things: [...thingsOf(out), ...shifts.map(({ shift }) => shift.id)],
      measured: lacking.needed,
      wanted: lacking.given,
      mend: "Ask for more hours, bring more people, or leave something out.",
    },
  ];
}

/** Records of tasks, the first of each, each once. */
function thingsOf(tasks: readonly Task[]): readonly string[] {
  return [...new Set(tasks.flatMap(({ because }) => because.slice(0, 1)))];
}

/** The work ends with its last task; where not all of it finds a time, with the last shift. */
function opensBeforeDone(
  { times, unplaced, end, shifts }: Installing,
  document: ShowDocument,
  { zone }: Access,
): readonly Snag[] {
  const { opens } = showOf(document);
  const [first, last] = [shifts[0], shifts.at(-1)];
  if (opens === undefined || !first || !last) return [];
  const done = unplaced.length > 0 || times.length === 0 ? last.to : end;
  const until = (endOfDay(opens, zone) - momentOf(first.startsAt)) / 60_000;
  if (done <= until) return [];
  return [
    {
      rule: "opens-before-done",
      level: "stop",
      sentence: `The doors open on ${dayWords(opens)}, and the work is not done by the end of that day.`,
      things: [SHOW_ID, ...shifts.filter(({ to }) => to > until).map(({ shift }) => shift.id)],
      measured: done,
      wanted: until,
      mend: "Ask for earlier hours, or look at the day of opening again.",
    },
  ];
}

/** One snag a room: the worst crossing, how many are flat, and the corner a third tape would help from. */
function crossFlat(
  { marks, names, room, from }: SetOut,
  arrangements: readonly Arrangement[],
): readonly Snag[] {
  const wanted = figureOf("tapes-cross-flat", "crossing", "");
  const flat = marks.filter(({ crossing }) => crossing < wanted).toSorted((a, b) => a.crossing - b.crossing);
  const worst = flat[0];
  if (!worst) return [];
  const others = flat.length === 1 ? "" : `, and so do ${flat.length - 1} more marks of ${marks.length}`;
  const third = thirdCorner(
    worst,
    from,
    arrangements.find((one) => one.room.room.id === room),
  );
  return [
    {
      rule: "tapes-cross-flat",
      level: "mind",
      sentence: `Tapes from ${names[0]} and ${names[1]} cross flat at mark ${worst.number} (${worst.name})${others}.`,
      things: [...new Set(flat.map(({ record }) => record))],
      room,
      at: worst.at,
      measured: worst.crossing,
      wanted,
      mend: third === undefined ? "Check it by a third length." : `Check with a third tape from ${third}.`,
    },
  ];
}

/** The corner whose arc crosses one of the two best at the mark. */
function thirdCorner(
  mark: Mark,
  from: SetOut["from"],
  arrangement: Arrangement | undefined,
): string | undefined {
  const corners = arrangement?.room.corners ?? [];
  const held = corners.filter(({ id }) => from.includes(id));
  const free = corners.filter(({ id }) => !from.includes(id));
  const crossing = (corner: (typeof corners)[number]): number =>
    Math.max(...held.map((other) => crossingAt(mark.at, corner, other)));
  return free.toSorted((a, b) => crossing(b) - crossing(a))[0]?.name;
}
