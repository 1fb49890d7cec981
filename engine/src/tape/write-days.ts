/** Lines of the show, its stocks, its days and its questions as they are written. */
import { showOf } from "../document/tables.ts";
import type { Chore, Question, Rate, Shift, Stock, Units } from "../document/tables.ts";
import { plainMoney } from "../units/money.ts";
import { dayAfter, exactSpan } from "../units/times.ts";
import { writtenName, writtenRest } from "./names.ts";
import { inRoom } from "./writing.ts";
import type { Writing } from "./writing.ts";

const UNIT_LINE: { readonly [U in Units]: string } = {
  "ft-in": "feet and inches",
  in: "inches",
  mm: "mm",
  cm: "cm",
  m: "m",
};

/** The show as a whole. */
export function showLines(writing: Writing): readonly string[] {
  const show = showOf(writing.document);
  return [
    `show ${writtenRest(show.name)}`,
    `units ${UNIT_LINE[show.units]}`,
    ...(show.place === "" ? [] : [`place ${show.place}`]),
    `state ${writtenRest(show.state)}`,
    `grid ${writing.length(show.gridPitch)} is ${writing.length(show.gridSquare)}`,
    ...(show.zone === "" ? [] : [`zone ${show.zone}`]),
    ...(show.currency === "" ? [] : [`currency ${show.currency}`]),
    ...(show.wage === 0 ? [] : [`wage ${plainMoney(show.wage, show.currency)} an hour`]),
    `board ${writing.length(show.cardThickness)} thick`,
    ...(show.opens === undefined ? [] : [`opens ${show.opens}`]),
  ];
}

export function stockLine(writing: Writing, stock: Stock): string {
  const { width, length, thickness, repeat, match, kerf, grained, flame, price } = stock;
  const name = writing.name("stocks", stock.id, () =>
    Object.values(writing.document.stocks).toSorted(byOrder),
  );
  const thick = thickness === 0 ? "" : ` x ${writing.length(thickness)} thick`;
  const pattern = [...(repeat === 0 ? [] : [`every ${writing.length(repeat)}`]), match].join(" ");
  return [
    `stock ${writtenName(name)}`,
    `${stock.form} ${writing.length(width)} x ${writing.length(length)}${thick}`,
    ...(repeat === 0 && match === "free" ? [] : [`pattern ${pattern}`]),
    ...(kerf === 0 ? [] : [`kerf ${writing.length(kerf)}`]),
    ...(grained ? ["grained"] : []),
    ...(flame ? ["passes flame test"] : []),
    ...(price === undefined ? [] : [`price ${plainMoney(price, showOf(writing.document).currency)}`]),
  ].join(", ");
}

function byOrder(a: Stock, b: Stock): number {
  return a.order - b.order || (a.id < b.id ? -1 : 1);
}

/** A shift; its end has a day of its own only where the clock alone would say another. */
export function shiftLine(shift: Shift): string {
  const [day = "", clock = ""] = shift.start.split("T");
  const [endDay = "", endClock = ""] = shift.end.split("T");
  const wouldBe = endClock > clock ? day : dayAfter(day, 1);
  const end = wouldBe === endDay ? endClock : `${endDay} ${endClock}`;
  return `shift ${day} ${clock} to ${end}, ${people(shift.people)}`;
}

function people(count: number): string {
  return count === 1 ? "1 person" : `${count} people`;
}

export function rateLine(rate: Rate): string {
  return `rate ${rate.work} ${exactSpan(rate.minutes)}, ${people(rate.people)}`;
}

export function choreLine(writing: Writing, chore: Chore): string {
  const scope = `chores ${chore.room}`;
  const name = writing.name(scope, chore.id, () => inRoom(writing.document.chores, chore.room));
  return `chore ${writtenName(name)} after ${chore.after}, ${exactSpan(chore.minutes)}, ${people(chore.people)}`;
}

export function questionLine({ text, answer }: Question): string {
  const asked = /(?:^|[ ,;])answer:/iu.test(text) ? `"${text.replaceAll('"', '""')}"` : writtenRest(text);
  return `ask ${asked}${answer === "" ? "" : ` answer: ${writtenRest(answer)}`}`;
}
