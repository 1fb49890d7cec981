/** The install on paper: where things stand by two tapes, the days as a chart, and a call sheet for every shift. */
import type { Arrangement } from "../arrange/model.ts";
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { InstallWork } from "../document/works.ts";
import type { Paper } from "../sheet/papers.ts";
import type { Leaf } from "../sheet/stamp.ts";
import { tableSheets } from "../sheet/tables.ts";
import { figureOf } from "../snags/catalogue.ts";
import { SURE } from "../tolerances.ts";
import { printAngle, printDoubt } from "../units/figures.ts";
import { printLength } from "../units/length.ts";
import { printMinutes } from "../units/minutes.ts";
import { chartLeaves } from "./chart.ts";
import { venueClock, zoneWords, type VenueTime } from "./clock.ts";
import type { Installing, OpenShift, SetOut, Task } from "./model.ts";
import { setOutPlan } from "./set-out-plan.ts";

/** What the pages of the install are made from. */
export interface InstallWish {
  readonly installing: Installing;
  readonly arrangements: readonly Arrangement[];
  readonly document: ShowDocument;
  readonly paper: Paper;
}

/** For each room with marks its plan at true scale with the marks numbered, and the table of tape lengths. */
export function setOutLeaves(wish: InstallWish): readonly Leaf[] {
  return wish.installing.setOuts.flatMap((setOut) => {
    const arrangement = wish.arrangements.find((one) => one.room.room.id === setOut.room);
    if (!arrangement) return [];
    return [setOutPlan(wish, arrangement, setOut), ...tapeLeaves(wish, arrangement, setOut)];
  });
}

function tapeLeaves(wish: InstallWish, arrangement: Arrangement, setOut: SetOut): readonly Leaf[] {
  const { units } = showOf(wish.document);
  const [first, second] = setOut.names;
  const flat = figureOf("tapes-cross-flat", "crossing", "");
  return tableSheets({
    id: `tapes.${setOut.room}`,
    title: `${arrangement.room.room.name}: marks by two tapes`,
    lead: `One tape is held at corner ${first}, the other at corner ${second}, both at the floor; the mark is where they cross, inside the room. Number it on the floor. What hangs has its mark below its middle. Arcs that cross under ${printAngle(flat)} want a third length.`,
    paper: wish.paper,
    columns: [
      { head: "No.", share: 0.8, face: "mono", align: "end" },
      { head: "Mark", share: 5 },
      { head: `From ${first}`, share: 2.2, face: "mono", align: "end" },
      { head: `From ${second}`, share: 2.2, face: "mono", align: "end" },
      { head: "Tapes are", share: 2.2 },
      { head: "Arcs cross at", share: 1.8, face: "mono", align: "end" },
      { head: "Done", share: 1 },
    ],
    rows: setOut.marks.map((mark) => [
      `${mark.number}`,
      mark.name,
      printLength(mark.tapes[0], units),
      printLength(mark.tapes[1], units),
      printDoubt(Math.max(...mark.doubts) * SURE, units),
      `${printAngle(mark.crossing)}${mark.crossing < flat ? " flat" : ""}`,
      "",
    ]),
    records: setOut.marks.map(({ record }) => record),
    empty: "There is nothing to mark.",
  });
}

/** The days as a chart; where no hours are said, the tasks as a list. */
export function scheduleLeaves(wish: InstallWish): readonly Leaf[] {
  const clock = venueClock(wish.installing, wish.document);
  return clock && wish.installing.tasks.length > 0
    ? chartLeaves({ ...wish, clock, lead: endWords(wish, clock) })
    : untimedLeaves(wish);
}

/** When it is done and how sure that is. */
function endWords({ installing, document }: InstallWish, clock: (minutes: number) => VenueTime): string {
  const { end, bound, unplaced, times, minutes } = installing;
  const work = `${installing.tasks.length} tasks, ${printMinutes(minutes)} of work by one person. Hours are by ${zoneWords(document)}.`;
  if (times.length === 0) return `No task finds a time. ${work}`;
  const done = clock(end);
  const least = clock(bound);
  const sure =
    end <= bound
      ? "proven, it cannot end sooner"
      : `no plan can end before ${least.clock}${least.date === done.date ? "" : ` on ${least.day}`}`;
  if (unplaced.length === 0) return `Ends ${done.clock} on ${done.day} (${sure}). ${work}`;
  return `${unplaced.length} of the tasks find no time; the others end ${done.clock} on ${done.day}. ${work}`;
}

function untimedLeaves({ installing, arrangements, paper }: InstallWish): readonly Leaf[] {
  const rooms = new Map(arrangements.map(({ room }) => [room.room.id, room.room.name]));
  return tableSheets({
    id: "schedule",
    title: "Schedule",
    lead: `No hours are said yet, so these tasks have no times. ${printMinutes(installing.minutes)} of work by one person.`,
    paper,
    columns: [
      { head: "Room", share: 2 },
      { head: "What", share: 5 },
      { head: "How long", share: 1.6, face: "mono", align: "end" },
      { head: "People", share: 1, face: "mono", align: "end" },
      { head: "Why", share: 4 },
    ],
    rows: installing.tasks.map((task) => [
      rooms.get(task.room) ?? "",
      task.name,
      printMinutes(task.minutes),
      `${task.people}`,
      whyWords(task),
    ]),
    records: installing.tasks.map(({ because }) => because[0]),
    empty: "There is nothing to put up yet.",
  });
}

/** The arithmetic, and whose figure it is. */
export function whyWords({ why, own }: Task): string {
  return own ? why : `${why}, from memory`;
}

/** One call sheet a shift: who, when, and the tasks with their times, their why and a caution. */
export function callLeaves(wish: InstallWish): readonly Leaf[] {
  const clock = venueClock(wish.installing, wish.document);
  if (!clock) return [];
  return wish.installing.shifts.flatMap((open, index) => callOf(wish, { open, index, clock }));
}

interface Call {
  readonly open: OpenShift;
  readonly index: number;
  readonly clock: (minutes: number) => VenueTime;
}

function callOf(
  { installing, arrangements, document, paper }: InstallWish,
  { open, index, clock }: Call,
): readonly Leaf[] {
  const { shift, from, to } = open;
  const [start, end] = [clock(from), clock(to)];
  const rows = rowsOf(installing, shift.id, clock);
  const many = arrangements.length > 1;
  const rooms = new Map(arrangements.map(({ room }) => [room.room.id, room.room.name]));
  const until = start.date === end.date ? end.clock : `${end.clock} on ${end.day}`;
  const people = shift.people === 1 ? "1 person" : `${shift.people} people`;
  return tableSheets({
    id: `call.${index + 1}`,
    title: `Call sheet ${index + 1} of ${installing.shifts.length}: ${start.day}`,
    lead: `${start.clock} to ${until}, ${zoneWords(document)}. ${people}. Nobody works alone aloft, and nobody at the end of a long day.`,
    paper,
    columns: [
      { head: "Time", share: 1.5, face: "mono" },
      { head: "What", share: 3.4 },
      { head: "People", share: 0.9, face: "mono", align: "end" },
      { head: "Why so long", share: 3.2 },
      { head: "Mind", share: 7.2 },
      { head: "Done", share: 0.7 },
    ],
    rows: rows.map(({ task, time, goesOn }) => [
      time,
      `${many ? `${rooms.get(task.room) ?? ""}: ` : ""}${task.name}${goesOn ? " (goes on)" : ""}`,
      `${task.people}`,
      whyWords(task),
      CAUTIONS[task.work],
      "",
    ]),
    records: rows.map(({ task }) => task.because[0]),
    empty: "Nothing is left to do in these hours.",
  });
}

interface CallRow {
  readonly task: Task;
  readonly time: string;
  readonly goesOn: boolean;
}

/** What is worked in a shift, by its start. */
function rowsOf(installing: Installing, shift: string, clock: Call["clock"]): readonly CallRow[] {
  const tasks = new Map(installing.tasks.map((task) => [task.id, task]));
  return installing.times
    .flatMap(({ task: id, spans }) => {
      const task = tasks.get(id);
      if (!task) return [];
      return spans.flatMap((span, index) =>
        span.shift === shift ? [{ task, span, goesOn: index > 0 }] : [],
      );
    })
    .toSorted((a, b) => a.span.from - b.span.from || a.span.to - b.span.to)
    .map(({ task, span, goesOn }) => ({
      task,
      time: `${clock(span.from).clock}–${clock(span.to).clock}`,
      goesOn,
    }));
}

/** A caution in a line for every kind of work. Common practice, no source; ladder figures as commonly published. */
const CAUTIONS: { readonly [W in InstallWork]: string } = {
  receive: "Weigh before you lift; clear the way first; two lift what one only just could.",
  protect: "Keep exits and the ways to them clear, also of protection that slips.",
  record: "Photograph every mark that was there before you.",
  "set out": "Dots that come off; ask which tape the floor bears.",
  batten: "Find cables and pipes before the first screw. Eyes and ears covered at the drill.",
  strip:
    "Ladder 1 out for 4 up and held. Power off and tested before paper passes an outlet; leave it open to reach.",
  trim: "Guard on the saw, dust out, eyes covered. Long lengths are carried by two.",
  floor: "Edges flat before anybody passes. Knees on a pad, knife away from the hand.",
  furniture: "Lift by two, agree who speaks, never over a person.",
  hung: "Only from points the venue has named. Nobody below, nobody alone, a second safety line.",
  accessory: "Nothing loose above head height, nothing that tips when a table is knocked.",
  fitting: "Never on or beside an alarm, an exit sign, a sprinkler or a panel. Find cables first.",
  chore: "Look at what is live, high or sharp before you begin.",
  clean: "No wet mop near paper. Count blades and tools out of the room.",
  "sign off": "Walk every exit and route with the venue; write down what is agreed.",
};
