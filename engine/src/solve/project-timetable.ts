/**
 * Who is free when. The clock is cut into stretches on which nothing changes; each knows the shift it lies in and
 * the hands still free of each kind. A task put down runs through every shift that has hands enough for it, from
 * its start until its minutes are done, and passes over the others:
 *
 *     shifts    |--- 3 people ---|     |- 1 -|    |--- 3 people ---|
 *     task of 2       ============                ====
 *
 * So a start says the whole of a task's spans, a later start never means an earlier end, and a task that would
 * find its hands taken in a shift it must go on in cannot begin before that shift.
 */
import type { Core } from "./project-core.ts";

/** Of the shift no stretch outside the shifts lies in, and of the hands free there: fewer than nobody. */
const CLOSED = -1;

export class Timetable {
  /** End of the task `earliest` last found a place for. */
  end = Infinity;
  readonly #core: Core;
  /** Stretch i runs from #times[i] to #times[i + 1]; the last is closed and has no end. */
  readonly #times: Float64Array;
  readonly #shift: Int32Array;
  readonly #free: Float64Array;
  /** `#has[shift * kinds + kind]` hands. */
  readonly #has: Float64Array;
  /** Tasks alike in minutes, hands and rest: what one found no place in holds none for the other. */
  readonly #likes: Int32Array;
  /** For each such likeness a stretch of time, from and to, that no start lies in; never more hands come free in it. */
  readonly #vainFrom: Float64Array;
  readonly #vainTo: Float64Array;
  readonly #freshTimes: Float64Array;
  readonly #freshShift: Int32Array;
  readonly #freshFree: Float64Array;
  #length = 0;

  constructor(core: Core) {
    this.#core = core;
    const stretches = stretchesOf(core);
    this.#has = Float64Array.from(core.shifts.flatMap(({ has }) => has));
    this.#likes = likenesses(core);
    this.#vainFrom = new Float64Array(core.count);
    this.#vainTo = new Float64Array(core.count);
    this.#freshTimes = Float64Array.from(stretches, ({ from }) => from);
    this.#freshShift = Int32Array.from(stretches, ({ shift }) => shift);
    this.#freshFree = Float64Array.from(stretches.flatMap(({ has }) => has));
    // Each task adds a cut at its start and one at its end, no more.
    const room = stretches.length + 2 * core.count + 2;
    this.#times = new Float64Array(room);
    this.#shift = new Int32Array(room);
    this.#free = new Float64Array(room * core.kinds);
    this.clear();
  }

  /** Nobody has anything to do. */
  clear(): void {
    this.#times.set(this.#freshTimes);
    this.#shift.set(this.#freshShift);
    this.#free.set(this.#freshFree);
    this.#length = this.#freshTimes.length;
    this.#forget();
  }

  /** The earliest start of a task from `from` on, its end in `end`; both infinite where it finds no time. */
  earliest(task: number, from: number): number {
    if (this.#core.minutes[task] === 0) return this.#moment(task, from);
    const like = this.#likes[task]!;
    const known = from >= this.#vainFrom[like]! && from <= this.#vainTo[like]!;
    const start = this.#scan(task, known ? this.#vainTo[like]! : from);
    if (!known) this.#vainFrom[like] = from;
    this.#vainTo[like] = start;
    return start;
  }

  #scan(task: number, from: number): number {
    const minutes = this.#core.minutes[task]!;
    const whole = this.#core.whole[task] === 1;
    let start = Infinity;
    let left = minutes;
    let within = CLOSED;
    for (let i = this.#stretchAt(from); i < this.#length - 1; i++) {
      if (whole && this.#shift[i] !== within) start = Infinity;
      if (this.#fits(task, i)) {
        const opens = Math.max(this.#times[i]!, from);
        if (start === Infinity) [start, left, within] = [opens, minutes, this.#shift[i]!];
        const room = this.#times[i + 1]! - opens;
        if (left <= room) {
          this.end = opens + left;
          return start;
        }
        left -= room;
      } else if (this.#workedIn(task, i)) start = Infinity;
    }
    this.end = Infinity;
    return Infinity;
  }

  /** Puts a task down. The answer goes to `takeUp`: which cuts were new. */
  put(task: number, start: number, end: number): number {
    if (start === end) return 0;
    const cuts = this.#cut(start) + 2 * this.#cut(end);
    this.#change(task, start, end, -1);
    return cuts;
  }

  /** Undoes the last `put` that is not undone yet. */
  takeUp(task: number, start: number, end: number, cuts: number): void {
    if (start === end) return;
    this.#forget();
    this.#change(task, start, end, 1);
    if (cuts & 2) this.#join(end);
    if (cuts & 1) this.#join(start);
  }

  /** A task of no minutes takes nobody's time: any moment of a shift with hands enough will do, its ends too. */
  #moment(task: number, from: number): number {
    let i = this.#stretchAt(from);
    this.end = Infinity;
    if (i > 0 && this.#times[i] === from && this.#workedIn(task, i - 1)) this.end = from;
    for (; this.end === Infinity && i < this.#length - 1; i++)
      if (this.#workedIn(task, i)) this.end = Math.max(this.#times[i]!, from);
    return this.end;
  }

  #fits(task: number, stretch: number): boolean {
    const { kinds, needs } = this.#core;
    for (let k = 0; k < kinds; k++)
      if (this.#free[stretch * kinds + k]! < needs[task * kinds + k]!) return false;
    return true;
  }

  /** Whether the task goes on in the shift this stretch lies in: the shift has hands enough, busy or not. */
  #workedIn(task: number, stretch: number): boolean {
    const shift = this.#shift[stretch]!;
    if (shift === CLOSED) return false;
    const { kinds, needs } = this.#core;
    for (let k = 0; k < kinds; k++)
      if (this.#has[shift * kinds + k]! < needs[task * kinds + k]!) return false;
    return true;
  }

  #forget(): void {
    this.#vainFrom.fill(Infinity);
    this.#vainTo.fill(-Infinity);
  }

  #change(task: number, start: number, end: number, sign: number): void {
    const { kinds, needs } = this.#core;
    for (let i = this.#stretchAt(start); this.#times[i]! < end; i++)
      if (this.#workedIn(task, i))
        for (let k = 0; k < kinds; k++) this.#free[i * kinds + k]! += sign * needs[task * kinds + k]!;
  }

  /** The stretch a moment lies in; the first for one before all. */
  #stretchAt(time: number): number {
    let low = 0;
    let high = this.#length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#times[middle]! <= time) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** Cuts the stretch a moment lies in; 1 where that was needed. */
  #cut(time: number): number {
    const i = this.#stretchAt(time);
    if (this.#times[i] === time) return 0;
    const { kinds } = this.#core;
    this.#times.copyWithin(i + 1, i, this.#length);
    this.#shift.copyWithin(i + 1, i, this.#length);
    this.#free.copyWithin((i + 1) * kinds, i * kinds, this.#length * kinds);
    this.#times[i + 1] = time;
    this.#length++;
    return 1;
  }

  #join(time: number): void {
    const i = this.#stretchAt(time);
    const { kinds } = this.#core;
    this.#times.copyWithin(i, i + 1, this.#length);
    this.#shift.copyWithin(i, i + 1, this.#length);
    this.#free.copyWithin(i * kinds, (i + 1) * kinds, this.#length * kinds);
    this.#length--;
  }
}

interface Stretch {
  readonly from: number;
  readonly shift: number;
  readonly has: readonly number[];
}

/** For each task the first that is its like in minutes, hands and rest; itself where it is the first. */
function likenesses({ count, kinds, minutes, needs, whole }: Core): Int32Array {
  const firsts = new Map<string, number>();
  return Int32Array.from({ length: count }, (_, task) => {
    const hands = needs.subarray(task * kinds, (task + 1) * kinds);
    const key = `${minutes[task]} ${whole[task]} ${hands.join(" ")}`;
    const first = firsts.get(key) ?? task;
    firsts.set(key, first);
    return first;
  });
}

/** The shifts, the gaps between them, and the time after the last. */
function stretchesOf({ shifts, kinds }: Core): readonly Stretch[] {
  const nobody = Array.from({ length: kinds }, () => CLOSED);
  return shifts.flatMap(({ from, to, has }, shift) => [
    { from, shift, has },
    ...(shifts[shift + 1]?.from === to ? [] : [{ from: to, shift: CLOSED, has: nobody }]),
  ]);
}
