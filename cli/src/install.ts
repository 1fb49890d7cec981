/** `cornerwise install FILE`: the tasks and when each is done, and where things stand by two tapes. */
import {
  printLength,
  showOf,
  venueClock,
  type Derived,
  type SetOut,
  type ShowDocument,
  type Task,
} from "@cornerwise/engine";
import type { Command } from "commander";
import { digits, table } from "./output.ts";
import { stageVerb } from "./stage.ts";

/** The verb, ready to be added to the program. */
export function installVerb(): Command {
  return stageVerb({
    name: "install",
    description: "plan putting the show up: tasks, hours, set-out by two tapes",
    stages: ["measure", "arrange", "make", "install"],
    json: installJson,
    words: installWords,
  });
}

function installJson({ installing }: Derived): object {
  return {
    tasks: installing.tasks.map(taskJson),
    shifts: installing.shifts.map(({ shift, from, to, startsAt, endsAt }) => ({
      id: shift.id,
      from_min: digits(from),
      to_min: digits(to),
      starts_at: startsAt,
      ends_at: endsAt,
      people: shift.people,
    })),
    times: installing.times.map(({ task, start, end, spans }) => ({
      task,
      start_min: digits(start),
      end_min: digits(end),
      spans: spans.map((span) => ({
        from_min: digits(span.from),
        to_min: digits(span.to),
        shift: span.shift,
      })),
    })),
    unplaced: installing.unplaced,
    end_min: digits(installing.end),
    bound_min: digits(installing.bound),
    work_min: digits(installing.minutes),
    set_outs: installing.setOuts.map(setOutJson),
  };
}

function taskJson({ id, work, room, name, minutes, people, why, own, after, because }: Task): object {
  return {
    id,
    work,
    room,
    name,
    minutes: digits(minutes),
    people,
    why,
    own,
    after: after.map(({ task, lag }) => ({ task, lag_min: digits(lag) })),
    because,
  };
}

function setOutJson({ room, from, names, marks }: SetOut): object {
  return {
    room,
    from,
    names,
    marks: marks.map((mark) => ({
      id: mark.id,
      number: mark.number,
      name: mark.name,
      record: mark.record,
      tapes_mm: mark.tapes.map(digits),
      doubts_mm: mark.doubts.map(digits),
      crossing_deg: digits(mark.crossing),
    })),
  };
}

function installWords({ installing }: Derived, document: ShowDocument): string {
  const { units } = showOf(document);
  const clock = venueClock(installing, document);
  const times = new Map(installing.times.map((time) => [time.task, time]));
  const at = (minutes: number | undefined): string => {
    if (minutes === undefined || clock === undefined) return "";
    const { day, clock: hour } = clock(minutes);
    return `${day.slice(0, 3)} ${hour}`;
  };
  const rows = installing.tasks.map((task) => {
    const time = times.get(task.id);
    return [
      task.name,
      at(time?.start),
      at(time?.end),
      `${Math.round(task.minutes)} min`,
      `${task.people}`,
      task.why,
    ];
  });
  const marks = installing.setOuts.map(
    (setOut) =>
      `Tapes from ${setOut.names[0]} and ${setOut.names[1]}\n` +
      table(
        ["no.", "mark", setOut.names[0], setOut.names[1]],
        setOut.marks.map((mark) => [
          `${mark.number}`,
          mark.name,
          printLength(mark.tapes[0], units),
          printLength(mark.tapes[1], units),
        ]),
      ),
  );
  return [table(["task", "from", "to", "takes", "people", "why"], rows), ...marks]
    .filter((part) => part !== "")
    .join("\n");
}
