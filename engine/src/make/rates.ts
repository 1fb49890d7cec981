/**
 * How long each kind of work takes. A person's own figure, from her log, stands before any of ours; ours are from
 * memory and say so, and a sheet never prints them as more than that. Minutes for one, with the people said.
 */
import type { Rate, ShowDocument } from "../document/tables.ts";
import type { Work } from "../document/works.ts";

/** Minutes for one of a work, with so many people at it. */
export interface WorkRate {
  readonly minutes: number;
  readonly people: number;
}

/** Every figure here is from memory, no source: to be replaced by the person's own as soon as she has logged some. */
export const RATES: { readonly [W in Work]: WorkRate } = {
  "cut strip": { minutes: 5, people: 1 },
  "cut stick": { minutes: 6, people: 1 },
  "cut panel": { minutes: 10, people: 1 },
  /** A piece nobody has timed: half a day. */
  "make piece": { minutes: 240, people: 1 },
  receive: { minutes: 60, people: 2 },
  protect: { minutes: 45, people: 2 },
  record: { minutes: 30, people: 1 },
  "set out": { minutes: 3, people: 2 },
  batten: { minutes: 15, people: 2 },
  /** Two people, 20 to 30 minutes a strip. */
  strip: { minutes: 25, people: 2 },
  /** 5 minutes a foot and 15 a corner, half of it by two, over lengths of six feet. */
  trim: { minutes: 25, people: 2 },
  floor: { minutes: 15, people: 1 },
  furniture: { minutes: 20, people: 2 },
  hung: { minutes: 45, people: 2 },
  accessory: { minutes: 10, people: 1 },
  fitting: { minutes: 10, people: 1 },
  /** A chore says its own minutes; this stands for one that could not. */
  chore: { minutes: 30, people: 1 },
  clean: { minutes: 90, people: 2 },
  "sign off": { minutes: 45, people: 1 },
};

/** The rate of a work: the person's own where she has one (`own`, with its record), else ours from memory. */
export function rateOf(
  work: Work,
  document: Pick<ShowDocument, "rates">,
): WorkRate & { readonly own: boolean; readonly record?: string } {
  const own = ownRate(work, document);
  if (own === undefined) return { ...RATES[work], own: false };
  return { minutes: own.minutes, people: own.people, own: true, record: own.id };
}

/** Of two figures for one work the first by id: which does not matter, that it stays the same does. */
function ownRate(work: Work, { rates }: Pick<ShowDocument, "rates">): Rate | undefined {
  const said = Object.values(rates).filter((rate) => rate.work === work);
  return said.toSorted((a, b) => (a.id < b.id ? -1 : 1))[0];
}
