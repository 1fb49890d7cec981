/**
 * How long the making takes: what is counted, times what one takes. A piece somebody timed has its own minutes;
 * everything else goes by the person's rates, or ours from memory where she has none.
 */
import { listed, type Piece, type ShowDocument } from "../document/tables.ts";
import type { MakingWork } from "../document/works.ts";
import type { HoursLine, Making } from "./model.ts";
import { rateOf } from "./rates.ts";

export type Made = Pick<Making, "walls" | "floors" | "cuts">;

/** Lines for strips, sticks and panels where there are any, then one for each piece, in listed order. */
export function hoursOf(document: Pick<ShowDocument, "rates" | "pieces">, made: Made): readonly HoursLine[] {
  const strips = made.walls.flatMap((work) => work.strips);
  const lengths = made.cuts.flatMap(({ parts }) => parts);
  const panels = made.floors.flatMap((work) => [...work.panels, ...work.border]);
  return [
    ...cutLine(document, { work: "cut strip", name: "Cut the strips", things: strips }),
    ...cutLine(document, { work: "cut stick", name: "Cut the lengths", things: lengths }),
    ...cutLine(document, { work: "cut panel", name: "Cut the floor", things: panels }),
    ...listed(document.pieces).map((piece) => pieceLine(document, piece)),
  ];
}

interface Counted {
  readonly work: MakingWork;
  readonly name: string;
  readonly things: readonly { readonly because: readonly string[] }[];
}

function cutLine(
  document: Pick<ShowDocument, "rates">,
  { work, name, things }: Counted,
): readonly HoursLine[] {
  if (things.length === 0) return [];
  const { minutes, people, own, record } = rateOf(work, document);
  const each = minutes * people;
  const because = new Set(things.flatMap((thing) => thing.because));
  if (record !== undefined) because.add(record);
  return [
    {
      id: work.replace(" ", "~"),
      work,
      name,
      count: things.length,
      each,
      minutes: each * things.length,
      own,
      because: [...because],
    },
  ];
}

function pieceLine(document: Pick<ShowDocument, "rates">, piece: Piece): HoursLine {
  const rate = rateOf("make piece", document);
  const each = piece.minutes ?? rate.minutes * rate.people;
  const timed = piece.minutes !== undefined;
  return {
    id: `make~${piece.id}`,
    work: "make piece",
    name: piece.name,
    count: piece.count,
    each,
    minutes: each * piece.count,
    own: timed || rate.own,
    because: timed || rate.record === undefined ? [piece.id] : [piece.id, rate.record],
  };
}
