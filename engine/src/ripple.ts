/**
 * What a change touched: everything made, cut, marked, done or snagged before it and after it, compared by what a
 * person would read. A room is adjusted as a whole, so one new reading moves every corner by some hundredths; a
 * strip whose printed figures stay the same was not touched.
 */
import type { Derived } from "./derive.ts";
import type { Units } from "./document/tables.ts";
import type { CutPart, FloorPanel, Making, Run, Strip, TrimRun } from "./make/model.ts";
import type { CardModel, CardPart } from "./model/model.ts";
import type { Installing } from "./install/model.ts";
import { printAngle } from "./units/figures.ts";
import { printLength } from "./units/length.ts";

/** The kinds of derived things, in the order of the job. */
export const RIPPLE_KINDS = [
  "wall",
  "strip",
  "trim",
  "cut",
  "panel",
  "bought",
  "card",
  "task",
  "mark",
  "snag",
] as const;
export type RippleKind = (typeof RIPPLE_KINDS)[number];

/** One derived thing as a person reads it. */
export interface Told {
  readonly kind: RippleKind;
  /** Unique in its kind; stays while what made it stays. */
  readonly id: string;
  readonly name: string;
  /** Every figure of it, printed. */
  readonly says: string;
  /** Records that call for it. */
  readonly because: readonly string[];
}

export interface Touch {
  readonly kind: RippleKind;
  readonly id: string;
  readonly name: string;
  readonly what: "new" | "changed" | "gone";
  readonly before?: string;
  readonly after?: string;
}

/** Everything derived from a show, told in the show's units. Ids are unique in their kind. */
export function told(derived: Derived, units: Units): readonly Told[] {
  const tell = { units, length: (mm: number) => printLength(mm, units) };
  return [
    ...derived.rooms.flatMap((room) =>
      room.walls.map((wall): Told => ({
        kind: "wall",
        id: wall.id,
        name: `Wall ${wall.name}`,
        says: tell.length(wall.length),
        because: [room.room.id],
      })),
    ),
    ...toldMaking(derived.making, tell),
    ...derived.models.flatMap((model) => toldModel(model, tell)),
    ...toldInstalling(derived.installing, tell),
    ...numbered(
      derived.snags.map((snag) => ({
        kind: "snag" as const,
        id: [snag.rule, ...(snag.room === undefined ? [] : [snag.room]), ...snag.things].join("~"),
        name: snag.sentence,
        says: `${snag.level}: ${snag.sentence}`,
        because: snag.things,
      })),
    ),
  ];
}

/** What differs between two derivations, in the order of the job; told in the units of the later. */
export function ripple(before: Derived, after: Derived, units: Units): readonly Touch[] {
  if (before === after) return [];
  const was = new Map(told(before, units).map((one) => [`${one.kind} ${one.id}`, one]));
  const is = new Map(told(after, units).map((one) => [`${one.kind} ${one.id}`, one]));
  const [lost, found] = unlike(
    [...was].filter(([key]) => !is.has(key)).map(([, one]) => one),
    [...is].filter(([key]) => !was.has(key)).map(([, one]) => one),
  );
  const changed = [...is].flatMap(([key, one]): Touch[] => {
    const old = was.get(key);
    if (old === undefined || (old.says === one.says && old.name === one.name)) return [];
    return [{ ...named(one), what: "changed", before: old.says, after: one.says }];
  });
  return [
    ...lost.map((one): Touch => ({ ...named(one), what: "gone", before: one.says })),
    ...found.map((one): Touch => ({ ...named(one), what: "new", after: one.says })),
    ...changed,
  ].toSorted((a, b) => RIPPLE_KINDS.indexOf(a.kind) - RIPPLE_KINDS.indexOf(b.kind));
}

/**
 * What went and what came, less the snags that read the same before and after, one for one. A snag has no record of its
 * own: its id names what it is about, and "and 21 more" may be about others while it says the same.
 */
function unlike(lost: readonly Told[], found: readonly Told[]): readonly [readonly Told[], readonly Told[]] {
  const came = [...found];
  const went = lost.filter(({ kind, says }) => {
    const same = kind === "snag" ? came.findIndex((one) => one.kind === kind && one.says === says) : -1;
    if (same < 0) return true;
    came.splice(same, 1);
    return false;
  });
  return [went, came];
}

function named({ kind, id, name }: Told): Pick<Touch, "kind" | "id" | "name"> {
  return { kind, id, name };
}

interface Tell {
  readonly units: Units;
  readonly length: (mm: number) => string;
}

function toldMaking(making: Making, tell: Tell): readonly Told[] {
  return [
    ...making.walls.flatMap((work) =>
      work.strips.map((strip) => toldStrip(strip, `${work.name} strip ${strip.number}`, tell)),
    ),
    ...making.walls.flatMap((work) => work.battens.map((run) => toldRun(run, tell))),
    ...making.trims.flatMap((work) => work.runs.map((run) => toldTrim(run, tell))),
    ...making.cuts.flatMap((cutting) => cutting.parts.map((part) => toldCut(part, tell))),
    ...making.floors.flatMap((work) =>
      [...work.panels, ...work.border].map((panel) => toldPanel(panel, tell)),
    ),
    ...making.buying.map((line): Told => {
      const { id, stock, count, why, because } = line;
      return { kind: "bought", id, name: stock.name, says: `${count}: ${why}`, because };
    }),
  ];
}

function toldStrip(strip: Strip, name: string, { length }: Tell): Told {
  const { id, because, left, right, low, highLeft, highRight, patternDrop, cutRound } = strip;
  const says = [
    `${length(strip.length)} long`,
    `from ${length(left)} to ${length(right)}`,
    `low ${length(low)}, high ${length(highLeft)} and ${length(highRight)}`,
    ...(patternDrop === 0 ? [] : [`pattern ${length(patternDrop)} down`]),
    ...(cutRound.length === 0 ? [] : [`cut round ${cutRound.length}`]),
  ].join(", ");
  return { kind: "strip", id, name, says, because };
}

function toldRun(run: Run, { length }: Tell): Told {
  const { id, name, because, from, to, up } = run;
  const says = `${length(run.length)}, from ${length(from)} to ${length(to)}, up ${length(up)}`;
  return { kind: "trim", id, name, says, because };
}

function toldTrim(run: TrimRun, tell: Tell): Told {
  const plain = toldRun(run, tell);
  const ends = run.ends.map((end) =>
    end.kind === "square"
      ? "square"
      : `${end.kind} ${printAngle(end.mitre)}${end.bevel === 0 ? "" : ` and ${printAngle(end.bevel)}`}`,
  );
  return { ...plain, says: `${plain.says}, ${ends.join(" to ")}` };
}

function toldCut({ id, name, length, because }: CutPart, tell: Tell): Told {
  return { kind: "cut", id, name, says: tell.length(length), because };
}

function toldPanel({ id, name, width, depth, x, y, because }: FloorPanel, { length }: Tell): Told {
  const says = `${length(width)} x ${length(depth)} at ${length(x)}, ${length(y)}`;
  return { kind: "panel", id, name, says, because };
}

function toldModel({ scale, floor, walls }: CardModel, tell: Tell): readonly Told[] {
  return [floor, ...walls].map((part) => toldCard(part, scale, tell));
}

/** A part's corners, openings and lines, told at full size: a card nobody would cut otherwise is the same card. */
function toldCard({ id, name, outline, holes, drawn, because }: CardPart, scale: number, tell: Tell): Told {
  const ring = (points: CardPart["outline"]) =>
    points.map(({ x, y }) => `${tell.length(x * scale)}/${tell.length(y * scale)}`).join(" ");
  const says = [
    `1:${scale}`,
    ring(outline),
    ...holes.map((hole) => `open ${ring(hole.outline)}`),
    ...drawn.map((line) => `line ${ring(line.points)}`),
  ].join("; ");
  return { kind: "card", id, name, says, because };
}

function toldInstalling(installing: Installing, { length }: Tell): readonly Told[] {
  const times = new Map(installing.times.map((time) => [time.task, time]));
  const tasks = installing.tasks.map((task): Told => {
    const time = times.get(task.id);
    const when = time === undefined ? "" : `, from minute ${Math.round(time.start)}`;
    const says = `${task.people} for ${Math.round(task.minutes)} min: ${task.why}${when}`;
    return { kind: "task", id: task.id, name: task.name, says, because: task.because };
  });
  const marks = installing.setOuts.flatMap((setOut) =>
    setOut.marks.map((mark): Told => {
      const says = mark.tapes.map((tape, at) => `${setOut.names[at]} ${length(tape)}`).join(", ");
      return { kind: "mark", id: mark.id, name: mark.name, says, because: [mark.record] };
    }),
  );
  return [...tasks, ...marks];
}

/** Snags of one rule about the same things are told apart by their place among them. */
function numbered(all: readonly Told[]): readonly Told[] {
  const seen = new Map<string, number>();
  return all.map((one) => {
    const times = (seen.get(one.id) ?? 0) + 1;
    seen.set(one.id, times);
    return times === 1 ? one : { ...one, id: `${one.id}~${times}` };
  });
}
