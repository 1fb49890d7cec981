/** What is wrong, risky or not known yet about the making: from what was made to snags. */
import { listed, showOf, type ShowDocument, type Stock } from "../document/tables.ts";
import type { TrueRoom } from "../measure/model.ts";
import type { RuleId } from "../snags/catalogue.ts";
import { figureOf, ruleOf } from "../snags/catalogue.ts";
import type { Snag } from "../snags/snag.ts";
import { HAIR } from "../tolerances.ts";
import { printLength } from "../units/length.ts";
import { pieceParts } from "./cutting.ts";
import { floorParts } from "./floors.ts";
import type { FloorWork, Making, TrimWork } from "./model.ts";
import { tooMany } from "./trims.ts";
import { wallSnags } from "./wall-rules.ts";

/** Every snag of the making: walls, trim, floors, parts of pieces, the buying list. */
export function makeSnags(
  making: Making,
  rooms: readonly TrueRoom[],
  document: ShowDocument,
): readonly Snag[] {
  const { units } = showOf(document);
  const judging: Judging = { document, rooms, print: (mm) => printLength(mm, units) };
  return [
    ...wallSnags(making.walls, making.shares, document),
    ...making.trims.flatMap((work) => trimSnags(judging, work)),
    ...making.floors.flatMap((work) => floorSnags(judging, work)),
    ...sheetSnags(judging, making),
    ...partSnags(judging),
    ...making.buying
      .filter(({ price }) => price === undefined)
      .map(({ stock }) =>
        snag("price-missing", [stock.id], {
          sentence: `${stock.name} has no price yet.`,
          mend: "Say what one costs.",
        }),
      ),
  ];
}

interface Judging {
  readonly document: ShowDocument;
  readonly rooms: readonly TrueRoom[];
  readonly print: (mm: number) => string;
}

type Said = Pick<Snag, "sentence" | "mend" | "room" | "measured" | "wanted">;

/** A snag of the gravest level of its rule; what is cut rests on no reading of its own. */
function snag(rule: RuleId, things: readonly string[], said: Said): Snag {
  return {
    rule,
    level: ruleOf(rule).level,
    things,
    ...said,
    ...(said.measured === undefined ? {} : { doubt: 0 }),
  };
}

function trimSnags(judging: Judging, work: TrimWork): readonly Snag[] {
  const { print } = judging;
  const { trim, stock, runs, name } = work;
  const { room } = trim;
  if (runs.length === 0) return [];
  const spring =
    trim.kind === "crown" && trim.spring === undefined
      ? [
          snag("spring-unsaid", [trim.id], {
            room,
            sentence: `The crown's spring angle is not said: the saw is set by its depth and height.`,
            mend: "Say the spring angle its maker gives, or measure it on a piece.",
          }),
        ]
      : [];
  if (stock === undefined)
    return [
      ...spring,
      snag("stock-unsaid", [trim.id], {
        room,
        sentence: `${name} has no sticks yet: ${print(work.length)} of it in ${runs.length} ${runs.length === 1 ? "run" : "runs"}.`,
        mend: "Say the length of the sticks it comes in.",
      }),
    ];
  return [...spring, ...runSnags(judging, work, stock)];
}

/** Runs that no stick gives whole: one snag for each trim, led by its longest run. */
function runSnags({ print, rooms }: Judging, { trim, runs, name }: TrimWork, stock: Stock): readonly Snag[] {
  const { room } = trim;
  const many = runs.filter(({ length }) => tooMany(length, stock));
  const long = runs.filter((run) => run.length > stock.length + HAIR && !many.includes(run));
  const [longest] = long.toSorted((a, b) => b.length - a.length);
  return [
    ...many.map((run) =>
      tooManySnag([trim.id, stock.id], room, `${run.name} would fall into too many pieces of ${stock.name}.`),
    ),
    ...(longest === undefined
      ? []
      : [
          {
            ...snag("run-scarfed", [trim.id, stock.id], {
              room,
              sentence: `${long.length === 1 ? "One run" : `${long.length} runs`} of ${name.toLowerCase()} ${long.length === 1 ? "is" : "are"} longer than a stick of ${stock.name}, ${print(stock.length)}, and joined from pieces: the longest, ${longest.name}, is ${print(longest.length)}.`,
              measured: longest.length,
              wanted: stock.length,
            }),
            // The wall it runs along was measured, and no better than this.
            doubt: rooms.flatMap(({ walls }) => walls).find(({ id }) => id === longest.wall)?.sdLength ?? 0,
          },
        ]),
  ];
}

function tooManySnag(things: readonly string[], room: string | undefined, sentence: string): Snag {
  return snag("too-many-to-cut", things, {
    sentence,
    ...(room === undefined ? {} : { room }),
    wanted: figureOf("too-many-to-cut", "most", ""),
    mend: "Look at its sizes and counts again.",
  });
}

function floorSnags(judging: Judging, work: FloorWork): readonly Snag[] {
  const { print } = judging;
  const { covering, room, name } = work;
  const narrow = Math.min(covering.width, covering.depth);
  if (2 * covering.border > narrow - HAIR)
    return [
      snag("border-wider-than-floor", [covering.id], {
        room,
        sentence: `The borders of ${name} take ${print(2 * covering.border)} of its ${print(narrow)}: no field is left.`,
        measured: 2 * covering.border,
        wanted: narrow,
        mend: "Make the border narrower.",
      }),
    ];
  const count = floorParts(work);
  const many =
    count > figureOf("too-many-to-cut", "most", "")
      ? [
          {
            ...tooManySnag([covering.id], room, `${name} would fall into ${count} parts.`),
            measured: count,
            doubt: 0,
          },
        ]
      : [];
  const unsaid =
    work.stock === undefined
      ? [
          snag("stock-unsaid", [covering.id], {
            room,
            sentence: `${name} has no sheets yet that its panels are cut from.`,
            mend: "Say the size of the sheets it comes in.",
          }),
        ]
      : [];
  return [...many, ...unsaid, ...edgeSnags(judging, work)];
}

function edgeSnags({ document, print }: Judging, { covering, room, name }: FloorWork): readonly Snag[] {
  const { place } = showOf(document);
  const upright = figureOf("floor-edge", "upright", place);
  const bevelled = figureOf("floor-edge", "bevelled", place);
  if (!covering.walkable || !(covering.thickness > upright + HAIR)) return [];
  const ramp = covering.thickness > bevelled + HAIR;
  return [
    snag("floor-edge", [covering.id], {
      room,
      sentence: `${name} is walked on and its edge stands ${print(covering.thickness)} high; ${print(upright)} may stay upright.`,
      measured: covering.thickness,
      wanted: upright,
      mend: ramp ? "Lead up to it with a ramp, or keep visitors off it." : "Bevel its edge, 1 up to 2 along.",
    }),
  ];
}

/** One for each covering: its largest part that no sheet gives. */
function sheetSnags({ print }: Judging, making: Making): readonly Snag[] {
  return making.floors.flatMap((work) => {
    const cutting = making.sheets.find(({ stock }) => stock.id === work.stock?.id);
    if (!cutting) return [];
    const out = new Set(cutting.plan.unplaced);
    const parts = cutting.parts.filter(({ id, because }) => out.has(id) && because[0] === work.covering.id);
    const [largest] = parts.toSorted((a, b) => b.width * b.depth - a.width * a.depth);
    if (!largest) return [];
    const { stock } = cutting;
    return [
      snag("panel-larger-than-sheet", [work.covering.id, stock.id], {
        room: work.room,
        sentence: `${parts.length} of ${work.name}, up to ${print(largest.width)} × ${print(largest.depth)}, cannot be cut from ${stock.name}, ${print(stock.width)} × ${print(stock.length)}.`,
        measured: largest.width,
        wanted: stock.width,
        mend: "Make the border narrower, or take larger sheets.",
      }),
    ];
  });
}

function partSnags({ document, print }: Judging): readonly Snag[] {
  const { untold } = pieceParts(document);
  const many = untold.map((part) => {
    const piece = document.pieces[part.piece];
    return tooManySnag(
      [part.id, part.piece],
      undefined,
      `${piece?.name ?? "A piece"} calls for too many lengths to list.`,
    );
  });
  const long = listed(document.parts).flatMap((part) => {
    const [piece, stock] = [document.pieces[part.piece], document.stocks[part.stock]];
    if (!piece || stock?.form !== "stick" || !(part.length > stock.length + HAIR)) return [];
    return [
      snag("part-longer-than-stock", [part.id, piece.id, stock.id], {
        sentence: `A length of ${piece.name} is ${print(part.length)}; a stick of ${stock.name} gives ${print(stock.length)}.`,
        measured: part.length,
        wanted: stock.length,
        mend: "Take longer sticks, or make it of two lengths.",
      }),
    ];
  });
  return [...many, ...long];
}
