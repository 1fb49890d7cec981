/**
 * Putting the show up: tasks in the trade's order, each citing what made it; when each is done in the hours the
 * venue gives; where things stand by two tapes. Lengths mm, minutes.
 */
import type { Shift } from "../document/tables.ts";
import type { InstallWork } from "../document/works.ts";
import type { Point } from "../plane/point.ts";

export interface Installing {
  /** In the trade's order. */
  readonly tasks: readonly Task[];
  /** The shifts in order of time, with the instants they stand for. Shifts that never open are left out. */
  readonly shifts: readonly OpenShift[];
  /** When each task that found a place is done; in order of start. */
  readonly times: readonly TaskTime[];
  /** Tasks that found no place: ids. */
  readonly unplaced: readonly string[];
  /** Minutes from the first shift's start to the end of the last task, and the least it can be. */
  readonly end: number;
  readonly bound: number;
  /** Person-minutes of all tasks. */
  readonly minutes: number;
  readonly setOuts: readonly SetOut[];
  /** Where the job does not fit: minutes of shifts it takes, the last one kept open for it, and minutes there are. */
  readonly lacking?: { readonly needed: number; readonly given: number };
}

export interface Task {
  /** `${work}~${what it is about}`: stays while what made it stays. */
  readonly id: string;
  readonly work: InstallWork;
  readonly room: string;
  /** "Hang A-B, strips 1 to 9". */
  readonly name: string;
  /** How long it takes with that many people. */
  readonly minutes: number;
  readonly people: number;
  /** The arithmetic: "9 strips at 25 min". */
  readonly why: string;
  /** Whether the rate is the person's own or the minutes were said; else the rate is ours, from memory. */
  readonly own: boolean;
  readonly after: readonly { readonly task: string; readonly lag: number; readonly why: string }[];
  /** Records that made it, most to the point first. Never empty. */
  readonly because: readonly string[];
}

export interface OpenShift {
  readonly shift: Shift;
  /** Minutes from the first shift's start. */
  readonly from: number;
  readonly to: number;
  /** RFC 3339 in UTC; local times taken as UTC where the show has no zone. */
  readonly startsAt: string;
  readonly endsAt: string;
}

export interface TaskTime {
  readonly task: string;
  /** Minutes from the first shift's start. */
  readonly start: number;
  readonly end: number;
  readonly spans: readonly { readonly from: number; readonly to: number; readonly shift: string }[];
}

/** Marks of one room, each a distance from two corners at the floor. */
export interface SetOut {
  readonly room: string;
  /** Corner ids the tapes are held at, and their names. */
  readonly from: readonly [string, string];
  readonly names: readonly [string, string];
  readonly marks: readonly Mark[];
}

export interface Mark {
  /** `${record}~${part}`. */
  readonly id: string;
  /** 1, 2, 3 … as it is written on the floor. */
  readonly number: number;
  /** "Bench 2, front left". */
  readonly name: string;
  readonly record: string;
  readonly at: Point;
  /** Tape lengths from the two corners. */
  readonly tapes: readonly [number, number];
  /** One standard deviation of each, from the room's readings. */
  readonly doubts: readonly [number, number];
  /** Angle at which the arcs cross, degrees, 0 to 90. */
  readonly crossing: number;
}
