/** Lines about the days of the show: the hours the venue gives, how long work takes, and what is asked of the venue. */
import { INSTALL_WORKS, WORKS } from "../document/works.ts";
import type { InstallWork, Work } from "../document/works.ts";
import { dayAfter } from "../units/times.ts";
import { readClauses } from "./clauses.ts";
import type { Clauses } from "./clauses.ts";
import { roomOf } from "./corners.ts";
import type { Cursor } from "./cursor.ts";
import { keyOf } from "./draft.ts";
import type { Draft } from "./draft.ts";
import { slug } from "./names.ts";
import { properText } from "./show-lines.ts";

/** More people than fit a room; the schema's own limits. */
const MOST_IN_SHIFT = 1000;
const MOST_AT_WORK = 100;

/**
 * `shift 2027-03-04 9:00 to 21:00, 3 people`. Without a day of its own an end that is not after the start is on the
 * next day: a night.
 */
export function readShift(cursor: Cursor, draft: Draft): void {
  const begin = cursor.skip();
  const day = cursor.day();
  cursor.take(/t(?=\d)/iuy);
  const start = `${day}T${cursor.clock()}`;
  if (cursor.take(/to(?!\p{L})|until(?!\p{L})|-/iuy) === undefined) {
    cursor.fail("Until when? Write it like: shift 2027-03-04 9:00 to 21:00, 3 people");
  }
  const said = /^\d{4}-/.test(cursor.rest()) ? cursor.day() : undefined;
  cursor.take(/t(?=\d)/iuy);
  const clock = cursor.clock();
  const sameDay = `${day}T${clock}`;
  const end =
    said === undefined ? (sameDay > start ? sameDay : `${dayAfter(day, 1)}T${clock}`) : `${said}T${clock}`;
  const crew: Crew = {};
  readClauses(cursor, crewClauses(cursor, crew, { least: 0, most: MOST_IN_SHIFT }));
  if (crew.people === undefined) cursor.fail("How many people come? Say it like: 3 people");
  const taken = (): never => cursor.fail("There is a shift that begins then already.", begin);
  const known = draft.known("shifts", keyOf(start), taken);
  const order = known?.order ?? draft.nextOrder("shifts");
  const id = known?.id ?? draft.freshId("shifts", `shift.${start.replace(":", "")}`);
  draft.put("shifts", { id, order, start, end, people: crew.people });
}

interface Crew {
  people?: number;
  minutes?: number;
}

/** `25 min`, `2 people`, `nobody`. */
function crewClauses(
  cursor: Cursor,
  crew: Crew,
  allowed: { readonly least: number; readonly most: number },
): Clauses {
  return {
    before: {
      nobody: () => {
        if (allowed.least > 0) cursor.fail("Somebody has to do it: 1 person at least.");
        crew.people = 0;
      },
    },
    others: [
      {
        is: /\d+ ?(?:people|persons?|hands?)(?!\p{L})/iuy,
        read: () => {
          const at = cursor.skip();
          crew.people = Number(cursor.take(/\d+/y)?.[0]);
          cursor.take(/ ?\p{L}+/uy);
          if (crew.people < allowed.least) cursor.fail("Somebody has to do it: 1 person at least.", at);
          if (crew.people > allowed.most) cursor.fail(`At most ${allowed.most} people pass here.`, at);
        },
      },
      {
        is: /\d+(?:[.,]\d+)? ?(?:days?|hours?|hrs?|h|minutes?|mins?)(?!\p{L})/iuy,
        read: () => {
          crew.minutes = cursor.span();
        },
      },
    ],
  };
}

/** The longest work that stands here; fails with the works there are. */
function workAt<W extends Work>(cursor: Cursor, works: readonly W[]): W {
  const rest = cursor.rest().toLowerCase();
  const found = works
    .filter((work) => rest.startsWith(work) && !/^[\p{L}\p{N}]/u.test(rest.slice(work.length)))
    .toSorted((a, b) => b.length - a.length)[0];
  if (found === undefined) return cursor.fail(`Which work? These there are: ${works.join(", ")}.`);
  cursor.at = cursor.skip() + found.length;
  return found;
}

/** `rate strip 25 min, 2 people`: the person's own figure for one of a work; one person where it is not said. */
export function readRate(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const work = workAt(cursor, WORKS);
  const crew: Crew = {};
  readClauses(cursor, crewClauses(cursor, crew, { least: 1, most: MOST_AT_WORK }));
  if (crew.minutes === undefined) cursor.fail("How long does one take? Say it like: 25 min");
  const taken = (): never => cursor.fail(`There is a rate of ${work} already.`, start);
  const known = draft.known("rates", keyOf(work), taken);
  const id = known?.id ?? draft.freshId("rates", `rate.${work.replaceAll(" ", "-")}`);
  draft.put("rates", { id, work, minutes: crew.minutes, people: crew.people ?? 1 });
}

/** `chore Focus the lights after fitting, 60 min, 2 people`: work that no record calls for; one person where it is not said. */
export function readChore(cursor: Cursor, draft: Draft): void {
  const room = roomOf(cursor, draft);
  const start = cursor.skip();
  const quoted = cursor.quoted();
  const behind = cursor.rest().search(/(?:^| )after /iu);
  if (behind < 0)
    cursor.fail("After which work does it come? Say it like: chore Focus the lights after fitting, 60 min");
  const name = quoted === undefined ? cursor.nameUntil(cursor.skip() + behind) : cursor.proper(quoted, start);
  cursor.separators();
  if (!cursor.takeWord("after")) cursor.fail("After which work does it come? Say it like: after fitting");
  const after: InstallWork = workAt(cursor, INSTALL_WORKS);
  const crew: Crew = {};
  readClauses(cursor, crewClauses(cursor, crew, { least: 1, most: MOST_AT_WORK }));
  if (crew.minutes === undefined) cursor.fail("How long does it take? Say it like: 60 min");
  const taken = (): never => cursor.fail(`There is a chore ${name} already.`, start);
  const known = draft.known("chores", keyOf(room.id, name), taken);
  draft.put("chores", {
    id: known?.id ?? draft.freshId("chores", `${room.id}.chore.${slug(name, 32, "chore")}`),
    room: room.id,
    order: known?.order ?? draft.nextOrder("chores", room.id),
    name: draft.called("chores", known, name),
    after,
    minutes: crew.minutes,
    people: crew.people ?? 1,
  });
}

/** `ask May the steward stay late? answer: Yes, until ten.` Asked again without an answer, it keeps the one it has. */
export function readQuestion(cursor: Cursor, draft: Draft): void {
  const start = cursor.skip();
  const quoted = cursor.quoted();
  const rest = cursor.rest();
  const at = rest.search(/(?:^|[ ,;])answer:/iu);
  const asked = cursor.skip();
  const text = quoted ?? cursor.raw.slice(asked, at < 0 ? asked + rest.length : asked + at).trim();
  if (text === "") cursor.fail("What is asked? Write it like: ask May the steward stay late?", start);
  properText(cursor, text, start);
  cursor.at = asked + (at < 0 ? (quoted === undefined ? rest.length : 0) : at);
  cursor.separators();
  const answered = cursor.take(/answer:/iuy) !== undefined;
  const answer = answered ? properText(cursor, cursor.restAsTyped(), cursor.skip()) : undefined;
  cursor.finish();
  const taken = (): never => cursor.fail("This is asked already.", start);
  const known = draft.known("questions", keyOf("", text), taken);
  const order = known?.order ?? draft.nextOrder("questions");
  const id = known?.id ?? draft.freshId("questions", `question.${order + 1}`);
  draft.put("questions", {
    id,
    order,
    text: draft.called("questions", known === undefined ? undefined : { id, name: known.text }, text),
    answer: answer ?? known?.answer ?? "",
  });
}
