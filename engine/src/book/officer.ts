/**
 * The page for the fire officer alone: one room on one page. The plan with its ways out, how much of each wall is
 * covered and how it is held, what the materials' papers say, how many people, what is kept clear, and what is
 * still to be decided. It states and asks; the officer decides.
 */
import { listed, showOf, type ShowDocument } from "../document/tables.ts";
import type { CoverShare, Making } from "../make/model.ts";
import { letters, line, type Box } from "../sheet/drafting.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import { wrapped } from "../sheet/type.ts";
import type { Item } from "../sheet/vocabulary.ts";
import { ruleOf, type RuleId } from "../snags/catalogue.ts";
import { printArea } from "../units/figures.ts";
import { printLength } from "../units/length.ts";
import type { Arrangement } from "../arrange/model.ts";
import { planOn, type BookWish } from "./drawings.ts";

/** Rules a fire officer asks about, in the order they are asked. */
const ASKED: readonly string[] = [
  "narrow-route",
  "door-clear-width",
  "door-swing",
  "keep-clear-covered",
  "sprinkler-clearance",
  "wall-cover-share",
  "flame-untested",
  "covering-round",
  "capacity",
];

const TYPE = 2.7;
const LEADING = 3.9;

/** One leaf; words that find no room are counted at its foot and stand in the book. */
export function officerLeaf(wish: BookWish, arrangement: Arrangement): Leaf {
  const { paper } = wish;
  const { room } = arrangement.room;
  const box = leafBox(paper);
  const title = `${room.name}: for the fire officer`;
  const middle = box.left + (box.right - box.left) * 0.47;
  const plan =
    arrangement.room.walls.length === 0
      ? undefined
      : planOn(wish, arrangement, { ...box, top: box.top + 8, right: middle }, false);
  const words = set(paragraphs(wish, arrangement), { ...box, left: middle + 5, top: box.top + 10 });
  return {
    id: `officer.${room.id}`,
    title,
    paper,
    ...(plan ? { scale: plan.squares.scale, scaleSentence: plan.squares.sentence } : {}),
    items: [titleOf(title, box), ...(plan?.items ?? []), ...words],
    known: plan?.known ?? [],
    frames: plan ? [plan.frame] : [],
  };
}

interface Said {
  readonly head: string;
  readonly lines: readonly string[];
}

function paragraphs(wish: BookWish, arrangement: Arrangement): readonly Said[] {
  const { document, making } = wish;
  const { units } = showOf(document);
  const { room } = arrangement.room;
  return [
    {
      head: "The room",
      lines: [
        `${printArea(arrangement.room.area, units)} of floor. ${room.entered ? "Visitors go in." : "Visitors look in from outside."}`,
        ...capacity(wish, room.id),
      ],
    },
    { head: "Ways out", lines: waysOut(arrangement, document) },
    {
      head: "Walls covered",
      lines: none(
        making.shares.filter((share) => share.room === room.id).map(shareWords),
        "No wall is covered.",
      ),
    },
    { head: "Materials", lines: none(materials(making, document, room.id), "None said yet.") },
    { head: "To decide", lines: none(asked(wish, room.id), "Nothing found that stands in the way.") },
    {
      head: "",
      lines: [
        "Paper pasted to a wall and paper held loose may be judged as two things. Codes are quoted as commonly published; the authority decides which edition holds, and whether this may be built.",
      ],
    },
  ];
}

function none(lines: readonly string[], otherwise: string): readonly string[] {
  return lines.length === 0 ? [otherwise] : lines;
}

const CAPACITY: readonly string[] = ["capacity"];

function capacity({ snags }: BookWish, room: string): readonly string[] {
  return snags
    .filter((snag) => CAPACITY.includes(snag.rule) && snag.room === room)
    .map((snag) => snag.sentence);
}

function waysOut({ room }: Arrangement, document: ShowDocument): readonly string[] {
  const { units } = showOf(document);
  const doors = room.openings.filter(({ opening }) => opening.kind === "door");
  const open = room.walls.filter((wall) => wall.open);
  return none(
    [
      ...doors.map(({ opening }) => {
        const clear =
          opening.clear === undefined ? "clear width not said" : `${printLength(opening.clear, units)} clear`;
        return `${opening.name}: ${clear}${opening.opens === undefined ? "" : `, opens ${opening.opens}`}.`;
      }),
      ...open.map((wall) => `Open side ${wall.name}: ${printLength(wall.length, units)}.`),
    ],
    "No way out is drawn yet.",
  );
}

function shareWords(share: CoverShare): string {
  const held = share.pasted ? "pasted" : "held loose";
  const papers = share.flame ? "passes a flame test by its papers" : "no flame papers";
  return `${share.name}: ${Math.round(share.share * 100)} % covered, ${held}, ${papers}.`;
}

function materials(making: Making, document: ShowDocument, room: string): readonly string[] {
  const used = new Set([
    ...making.walls.filter((work) => work.room === room).map((work) => work.stock.id),
    ...making.floors.flatMap((work) => (work.room === room && work.stock ? [work.stock.id] : [])),
  ]);
  const { units } = showOf(document);
  return listed(document.stocks)
    .filter((stock) => used.has(stock.id))
    .map((stock) => {
      const thick =
        stock.thickness === 0 ? "thickness not said" : `${printLength(stock.thickness, units)} thick`;
      return `${stock.name}: ${thick}, ${stock.flame ? "passes a flame test by its papers" : "no flame papers yet"}.`;
    });
}

function asked({ snags }: BookWish, room: string): readonly string[] {
  return ASKED.filter((rule) => rule !== "capacity").flatMap((rule) =>
    snags
      .filter((snag) => snag.rule === rule && (snag.room === undefined || snag.room === room))
      .map((snag) => `${snag.sentence}${sourceWords(snag.rule)}`),
  );
}

/** Whose figure it is, where it is a published one. */
function sourceWords(rule: RuleId): string {
  const { source } = ruleOf(rule);
  return source.startsWith("common practice") ? "" : ` (${source.split(":")[0]?.split(" as ")[0]})`;
}

/** Paragraphs down a column; what does not fit is counted. */
function set(all: readonly Said[], box: Box): readonly Item[] {
  const items: Item[] = [];
  const width = box.right - box.left;
  let y = box.top;
  let left = 0;
  for (const { head, lines } of all) {
    const rows = lines.map((text) => wrapped(text, "sans", TYPE, width - 3));
    const depth = (head === "" ? 0 : LEADING + 1) + (rows[0]?.length ?? 0) * LEADING;
    if (y + depth > box.bottom) {
      left += lines.length;
      continue;
    }
    if (head !== "") {
      items.push(
        letters({ x: box.left, y }, head, 3.1, { face: "sans-bold" }),
        line(
          [
            { x: box.left, y: y + 1.2 },
            { x: box.right, y: y + 1.2 },
          ],
          "dimension",
        ),
      );
      y += LEADING + 1;
    }
    for (const row of rows) {
      if (y + row.length * LEADING > box.bottom) {
        left++;
        continue;
      }
      for (const text of row) {
        items.push(letters({ x: box.left + 3, y }, text, TYPE));
        y += LEADING;
      }
      y += 0.7;
    }
    y += 2;
  }
  if (left > 0)
    items.push(
      letters({ x: box.left, y: box.bottom }, `And ${left} more, in the book.`, TYPE, { face: "sans-bold" }),
    );
  return items;
}
