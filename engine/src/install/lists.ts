/** The install as files beside the book: the schedule and the marks as lists, shifts and tasks as calendar events. */
import { showOf, type ShowDocument } from "../document/tables.ts";
import type { CalendarEvent, ListFile } from "../sheet/lists.ts";
import { printLength } from "../units/length.ts";
import { venueClock } from "./clock.ts";
import type { Installing, Task } from "./model.ts";

/** The schedule, one row a task (no times where none are found), and the marks of every room. */
export function installLists(installing: Installing, document: ShowDocument): readonly ListFile[] {
  return [scheduleList(installing, document), setOutList(installing, document)];
}

function scheduleList(installing: Installing, document: ShowDocument): ListFile {
  const clock = venueClock(installing, document);
  const times = new Map(installing.times.map((time) => [time.task, time]));
  const names = new Map(installing.tasks.map(({ id, name }) => [id, name]));
  const at = (minute: number | undefined): string => {
    if (minute === undefined || !clock) return "";
    const { date, clock: hour } = clock(minute);
    return `${date} ${hour}`;
  };
  return {
    name: "schedule",
    columns: [
      "room",
      "work",
      "task",
      "start (venue's clock)",
      "end (venue's clock)",
      "length (min)",
      "people",
      "work (person-min)",
      "why",
      "rate is",
      "after",
    ],
    rows: installing.tasks.map((task) => [
      document.rooms[task.room]?.name ?? task.room,
      task.work,
      task.name,
      at(times.get(task.id)?.start),
      at(times.get(task.id)?.end),
      task.minutes,
      task.people,
      task.minutes * task.people,
      task.why,
      task.own ? "own" : "from memory",
      task.after.map((wait) => names.get(wait.task) ?? wait.task).join("; "),
    ]),
  };
}

function setOutList({ setOuts }: Installing, document: ShowDocument): ListFile {
  const { units } = showOf(document);
  return {
    name: "set-out",
    columns: [
      "room",
      "mark",
      "name",
      "first corner",
      "from first corner (mm)",
      "from first corner",
      "second corner",
      "from second corner (mm)",
      "from second corner",
      "arcs cross (deg)",
    ],
    rows: setOuts.flatMap(({ room, names, marks }) =>
      marks.map(({ number, name, tapes, crossing }) => [
        document.rooms[room]?.name ?? room,
        number,
        name,
        names[0],
        Number(tapes[0].toFixed(1)),
        printLength(tapes[0], units),
        names[1],
        Number(tapes[1].toFixed(1)),
        printLength(tapes[1], units),
        Number(crossing.toFixed(1)),
      ]),
    ),
  };
}

/** Every shift, and every stretch of every task that found a time. Uids stay while task and shift stay. */
export function installEvents(installing: Installing, document: ShowDocument): readonly CalendarEvent[] {
  const clock = venueClock(installing, document);
  if (!clock) return [];
  const tasks = new Map(installing.tasks.map((task) => [task.id, task]));
  const show = showOf(document).name;
  const shifts = installing.shifts.map(({ shift, startsAt, endsAt }): CalendarEvent => ({
    uid: `shift~${shift.id}`,
    start: startsAt,
    end: endsAt,
    summary: `${show}: install`,
    description: shift.people === 1 ? "1 person" : `${shift.people} people`,
  }));
  const worked = installing.times.flatMap(({ task: id, spans }) => {
    const task = tasks.get(id);
    if (!task) return [];
    return spans.map((span, index): CalendarEvent => ({
      uid: index === 0 ? id.replaceAll(" ", "-") : `${id.replaceAll(" ", "-")}~${index + 1}`,
      start: clock(span.from).instant,
      end: clock(span.to).instant,
      summary: index === 0 ? task.name : `${task.name} (goes on)`,
      description: eventWords(task, document),
    }));
  });
  return [...shifts, ...worked];
}

function eventWords(task: Task, document: ShowDocument): string {
  const people = task.people === 1 ? "1 person" : `${task.people} people`;
  const room = document.rooms[task.room]?.name ?? "";
  return [room, people, task.own ? task.why : `${task.why}, from memory`]
    .filter((text) => text !== "")
    .join("\n");
}
