/**
 * The days as a chart: a row for each task in the trade's order, time to the right on the venue's clock, shifts side
 * by side with the hours between them left out. A bar is work, a thin line behind it is drying.
 *
 *        Thu 4 March, 09:00 to 21:00, 3 people      Fri 5 March …
 *        09    11    13    15    17    19    21     09    11
 *   Hang ┆ ▆▆▆▆▆▆▆▆▆▆▆▆──────────────────────┆      ┆
 */
import type { Point } from "../plane/point.ts";
import { boxShape, letters, line, type Box } from "../sheet/drafting.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import { shortenedTo, textWidth, wrapped } from "../sheet/type.ts";
import type { Item } from "../sheet/vocabulary.ts";
import { printMinutes } from "../units/minutes.ts";
import type { VenueTime } from "./clock.ts";
import type { OpenShift, Task, TaskTime } from "./model.ts";
import type { InstallWish } from "./sheet.ts";

export interface ChartWish extends InstallWish {
  readonly clock: (minutes: number) => VenueTime;
  /** When it is done, and how sure that is. */
  readonly lead: string;
}

/** Paper mm: a row, its type, the columns of words, air between shifts, the least an hour may be, and between hour marks. */
const ROW = 5;
const TYPE = 2.5;
const NAMES = 76;
const LENGTHS = 30;
const BETWEEN = 10;
const HOUR = 3;
const MARKS_APART = 9;
const HEAD = 14;
const BAR = 2.8;
/** The least a shift may be across, so that its day can be read. */
const SHIFT = 26;

/** The whole chart, over as many pages as its rows and its days take. */
export function chartLeaves(wish: ChartWish): readonly Leaf[] {
  const box = leafBox(wish.paper);
  const lead = wrapped(wish.lead, "sans", 2.9, box.right - box.left);
  const top = box.top + 12 + lead.length * 4.1 + HEAD;
  const perPage = Math.max(1, Math.floor((box.bottom - top) / ROW));
  const pages = pagesOfShifts(wish.installing.shifts, box).flatMap((shifts, part, all) => {
    const rows = all.length === 1 ? wish.installing.tasks : touching(wish, shifts, part);
    const count = Math.max(1, Math.ceil(rows.length / perPage));
    return Array.from({ length: count }, (_, page) => ({
      shifts,
      rows: rows.slice(page * perPage, (page + 1) * perPage),
    }));
  });
  return pages.map(({ shifts, rows }, index): Leaf => {
    const scale = timeScale(shifts, { left: box.left + NAMES + LENGTHS, right: box.right - 4 });
    const title = index === 0 ? "Schedule" : "Schedule (continued)";
    return {
      id: index === 0 ? "schedule" : `schedule.${index + 1}`,
      title: "Schedule",
      paper: wish.paper,
      items: [
        titleOf(title, box),
        ...lead.map((row, at) => letters({ x: box.left, y: box.top + 12 + at * 4.1 }, row, 2.9)),
        ...shifts.flatMap((shift) =>
          headItems(wish, { shift, shifts, scale, top, bottom: top + rows.length * ROW }),
        ),
        ...rows.flatMap((task, at) =>
          rowItems(wish, { task, shifts, scale, left: box.left, y: top + at * ROW }),
        ),
      ],
      known: [],
      frames: [],
    };
  });
}

/** Shifts a page: as many as leave an hour its least width. */
function pagesOfShifts(shifts: readonly OpenShift[], box: Box): readonly (readonly OpenShift[])[] {
  const room = box.right - box.left - NAMES - LENGTHS;
  const pages: OpenShift[][] = [];
  let used = Infinity;
  for (const shift of shifts) {
    const width = Math.max(SHIFT, ((shift.to - shift.from) / 60) * HOUR + BETWEEN);
    if (used + width > room) {
      pages.push([]);
      used = 0;
    }
    pages.at(-1)?.push(shift);
    used += width;
  }
  return pages;
}

/** Tasks worked in these shifts; those without a time stand on the first page. */
function touching({ installing }: ChartWish, shifts: readonly OpenShift[], part: number): readonly Task[] {
  const here = new Set(shifts.map(({ shift }) => shift.id));
  const worked = new Set(
    installing.times
      .filter(({ spans }) => spans.some(({ shift }) => here.has(shift)))
      .map(({ task }) => task),
  );
  const unplaced = new Set(installing.unplaced);
  return installing.tasks.filter(({ id }) => worked.has(id) || (part === 0 && unplaced.has(id)));
}

interface TimeScale {
  /** Where a minute lies across the page; one between two shifts lies in the air between them. */
  readonly at: (minute: number) => number;
  /** Minutes to a mm. */
  readonly each: number;
}

function timeScale(
  shifts: readonly OpenShift[],
  { left, right }: { readonly left: number; readonly right: number },
): TimeScale {
  const total = shifts.reduce((sum, { from, to }) => sum + to - from, 0);
  const each = total / Math.max(1, right - left - BETWEEN * (shifts.length - 1));
  const at = (minute: number): number => {
    let x = left;
    for (const [index, { from, to }] of shifts.entries()) {
      if (minute <= from) return x;
      if (minute <= to) return x + (minute - from) / each;
      x += (to - from) / each;
      const next = shifts[index + 1];
      if (!next) return x;
      if (minute < next.from) return x + (BETWEEN * (minute - to)) / (next.from - to);
      x += BETWEEN;
    }
    return x;
  };
  return { at, each };
}

interface HeadWish {
  readonly shift: OpenShift;
  readonly shifts: readonly OpenShift[];
  readonly scale: TimeScale;
  readonly top: number;
  readonly bottom: number;
}

/** Day, hours and people over a shift, and a line down for every few hours of the venue's clock. */
function headItems({ clock, paper }: ChartWish, { shift, scale, top, bottom }: HeadWish): readonly Item[] {
  const { from, to } = shift;
  // Two shifts may touch; a hair inside, each has its own edge.
  const [left, right] = [scale.at(from + 1e-6), scale.at(to)];
  const room = Math.min(right - left + BETWEEN - 1, leafBox(paper).right - left);
  const people = shift.shift.people === 1 ? "1 person" : `${shift.shift.people} people`;
  const words = [clock(from).day, `${clock(from).clock} to ${clock(to).clock}, ${people}`];
  const every = [1, 2, 3, 4, 6, 12].find((hours) => (hours * 60) / scale.each >= MARKS_APART) ?? 24;
  const first = from + ((60 - clock(from).pastHour) % 60);
  const hours = Array.from(
    { length: Math.max(0, Math.floor((to - first) / (60 * every)) + 1) },
    (_, step) => first + step * 60 * every,
  );
  const down = (x: number, pen: "outline" | "dimension"): Item =>
    line(upright(x, top - 2.4, bottom), pen, {
      part: "hour",
      ...(pen === "outline" ? {} : { ink: "grid-heavy" as const }),
    });
  return [
    ...words.map((text, row) =>
      letters(
        { x: left, y: top - HEAD + 3.2 + row * 3.6 },
        shortenedTo(text, row === 0 ? "sans-bold" : "sans", 2.5, room),
        2.5,
        {
          face: row === 0 ? "sans-bold" : "sans",
          record: shift.shift.id,
          part: "shift",
        },
      ),
    ),
    ...hours.map((minute) => down(scale.at(minute), "dimension")),
    ...hours.map((minute) =>
      letters({ x: scale.at(minute), y: top - 3.2 }, clock(minute).clock, 2.1, {
        face: "mono",
        align: "middle",
        ink: "graphite-soft",
        part: "hour",
      }),
    ),
    down(left, "outline"),
    down(right, "outline"),
  ];
}

function upright(x: number, top: number, bottom: number): readonly Point[] {
  return [
    { x, y: top },
    { x, y: bottom },
  ];
}

interface RowWish {
  readonly task: Task;
  readonly shifts: readonly OpenShift[];
  readonly scale: TimeScale;
  readonly left: number;
  readonly y: number;
}

function rowItems(wish: ChartWish, row: RowWish): readonly Item[] {
  const { installing, arrangements } = wish;
  const { task, left, y } = row;
  const record = task.because[0] ?? task.room;
  const rooms = arrangements.length > 1;
  const room = arrangements.find((one) => one.room.room.id === task.room)?.room.room.name;
  const name = rooms && room !== undefined ? `${room}: ${task.name}` : task.name;
  const time = installing.times.find((one) => one.task === task.id);
  const base = y + ROW / 2 + TYPE * 0.35;
  const length = `${printMinutes(task.minutes)} × ${task.people}`;
  const edge = left + NAMES + LENGTHS;
  return [
    letters({ x: left, y: base }, shortenedTo(name, "sans", TYPE, NAMES - 2), TYPE, { record, part: "task" }),
    letters({ x: left + NAMES + LENGTHS - 4, y: base }, length, TYPE, {
      face: "mono",
      align: "end",
      record,
      part: "length",
    }),
    line(
      [
        { x: left, y: y + ROW },
        { x: edge - 2, y: y + ROW },
      ],
      "grid",
      { ink: "graphite-soft" },
    ),
    ...(time
      ? barItems(wish, row, time)
      : [letters({ x: edge + 2, y: base }, "finds no time", TYPE, { record, part: "no time" })]),
  ];
}

/** Bars where it is worked, and the thin line of drying behind the last. */
function barItems(
  { installing }: ChartWish,
  { task, shifts, scale, y }: RowWish,
  time: TaskTime,
): readonly Item[] {
  const record = task.because[0] ?? task.room;
  const here = new Set(shifts.map(({ shift }) => shift.id));
  const middle = y + ROW / 2;
  const bars = time.spans
    .filter(({ shift }) => here.has(shift))
    .map(({ from, to }) =>
      boxShape(
        {
          left: scale.at(from + 1e-6),
          right: Math.max(scale.at(to), scale.at(from + 1e-6) + 0.4),
          top: middle - BAR / 2,
          bottom: middle + BAR / 2,
        },
        "dimension",
        { record, part: "bar", fill: { ink: "graphite" } },
      ),
    );
  const dries = Math.max(
    0,
    ...installing.tasks.flatMap(({ after }) =>
      after.filter((wait) => wait.task === task.id).map(({ lag }) => lag),
    ),
  );
  const [dryFrom, dryTo] = [scale.at(time.end), scale.at(time.end + dries)];
  if (dries === 0 || dryTo <= dryFrom) return bars;
  const words = `dries ${printMinutes(dries)}`;
  const fits = dryTo - dryFrom > textWidth(words, "sans", 2.1) + 2;
  return [
    ...bars,
    line(
      [
        { x: dryFrom, y: middle },
        { x: dryTo, y: middle },
      ],
      "dimension",
      { record, part: "drying" },
    ),
    line(upright(dryTo, middle - 1, middle + 1), "dimension", { record, part: "drying" }),
    ...(fits
      ? [
          letters({ x: dryFrom + 1.2, y: middle - 0.5 }, words, 2.1, {
            ink: "graphite-soft",
            record,
            part: "drying",
          }),
        ]
      : []),
  ];
}
