/**
 * The card model on paper, at its true scale: a millimetre of the part is a millimetre of the sheet. Parts are laid in
 * rows; one that is larger than a sheet is split (see `tiles.ts`). What is cut is a thin line (pen "cut"), what is
 * scored a broken one (pen "fold"), what is only shown is light. Edges that meet wear the same number on both parts.
 *
 *     ┌───────────────────────────────┐
 *     │ A-B|B-C 1             D-A|A-B 4 │     ends: one number for each corner
 *     │      ┌────┐                   │
 *     │      └────┘  floor|A-B 5      │     feet: one for each wall, on the floor's edge too
 *     └───────────────────────────────┘
 *      Wall A-B   left … · right …
 */
import { showOf, type ShowDocument } from "../document/tables.ts";
import { boundsOf } from "../plane/outline.ts";
import { letters, type Box } from "../sheet/drafting.ts";
import { sideways, type Paper } from "../sheet/papers.ts";
import { setInRows } from "../sheet/rows.ts";
import { gridScale } from "../sheet/scales.ts";
import { leafBox, type Leaf } from "../sheet/stamp.ts";
import { titleOf } from "../sheet/tables.ts";
import { wrapped } from "../sheet/type.ts";
import type { Item, KnownLength } from "../sheet/vocabulary.ts";
import { CARD_SHEETS } from "../tolerances.ts";
import { edgeNames, type EdgeName } from "./edge-names.ts";
import type { CardModel, CardPart } from "./model.ts";
import { drawTile } from "./part-drawing.ts";
import type { Laid } from "./laid.ts";
import { CAPTION_DEPTH, captionOf, captionWidth } from "./part-lettering.ts";
import { sizeOf, tilesAlong, tilesOf, type Tile } from "./tiles.ts";

const GAP = 5;
const HEAD = 19;

/** A tile as it is laid: how much paper it takes, with its caption. */
interface Piece {
  readonly part: CardPart;
  readonly tile: Tile;
  readonly width: number;
  readonly height: number;
}

/** The sheets of a model, upright or sideways, whichever needs fewer. A scale that asks for very many is said, not drawn. */
export function modelLeaves(model: CardModel, document: ShowDocument, paper: Paper): readonly Leaf[] {
  const upright = orientation(model, paper);
  const across = orientation(model, sideways(paper));
  const { paper: chosen, count } = across.count < upright.count ? across : upright;
  if (count > CARD_SHEETS) return [tooMany(model, document, paper, count)];
  const layouts = [upright, across]
    .filter((one) => one.count === count)
    .map((one) => layOut(model, one.paper));
  const pages = layouts.toSorted((a, b) => a.length - b.length)[0] ?? layOut(model, chosen);
  const names = edgeNames(model);
  return pages.map((page, index) => leafOf({ model, document, names, pages }, page, index));
}

/** How many tiles all parts take on a paper. */
function orientation(model: CardModel, paper: Paper): { readonly paper: Paper; readonly count: number } {
  const room = roomFor(paper);
  const counts = [model.floor, ...model.walls].map((part) => {
    const { width, height } = sizeOfPart(part);
    return tilesAlong(width, room.width) * tilesAlong(height, room.height);
  });
  return { paper, count: counts.reduce((sum, count) => sum + count, 0) };
}

/** Free paper for one tile without its caption, mm. */
function roomFor(paper: Paper): { readonly width: number; readonly height: number } {
  const { left, right, top, bottom } = bodyOf(paper);
  return { width: right - left, height: bottom - top - CAPTION_DEPTH };
}

function bodyOf(paper: Paper): Box {
  const box = leafBox(paper);
  return { ...box, top: box.top + HEAD };
}

function sizeOfPart({ outline }: CardPart): { readonly width: number; readonly height: number } {
  const { left, right, bottom, top } = boundsOf(outline);
  return { width: right - left, height: top - bottom };
}

interface Page {
  readonly paper: Paper;
  readonly laid: readonly Laid[];
}

/** The tiles on pages, the tallest first, every page filled before the next. */
function layOut(model: CardModel, paper: Paper): readonly Page[] {
  const room = roomFor(paper);
  let left: readonly Piece[] = [model.floor, ...model.walls].flatMap((part) =>
    tilesOf(sizeOfPart(part), room).map((tile) => {
      const { width, height } = sizeOf(tile.window);
      return {
        part,
        tile,
        width: Math.max(width, captionWidth(part, room.width)),
        height: height + CAPTION_DEPTH,
      };
    }),
  );
  const pages: Page[] = [];
  while (left.length > 0) {
    const places = setInRows(left, [bodyOf(paper)], GAP);
    const laid = left.flatMap(({ part, tile, width }, index) => {
      const at = places[index];
      return at ? [{ part, tile, width, at }] : [];
    });
    if (laid.length === 0) throw new Error(`no tile of ${model.room} fits on ${paper.name}`);
    pages.push({ paper, laid });
    left = left.filter((_, index) => !places[index]);
  }
  return pages;
}

interface Binding {
  readonly model: CardModel;
  readonly document: ShowDocument;
  readonly names: ReadonlyMap<string, readonly EdgeName[]>;
  readonly pages: readonly Page[];
}

function leafOf({ model, document, names, pages }: Binding, { paper, laid }: Page, index: number): Leaf {
  const sheetOf = (part: CardPart, column: number, row: number): number =>
    1 +
    pages.findIndex((page) =>
      page.laid.some((one) => one.part === part && one.tile.column === column && one.tile.row === row),
    );
  const drawn = laid.map((one) =>
    drawTile(one, {
      names: names.get(one.part.id) ?? [],
      sheetOf,
      scale: model.scale,
      document,
      edges: one.part === model.floor ? model.floor.outline.length : 0,
    }),
  );
  const title = `${model.name}: card sheet ${index + 1} of ${pages.length}`;
  const box = leafBox(paper);
  return {
    id: index === 0 ? `card.${model.room}` : `card.${model.room}.${index + 1}`,
    title,
    paper,
    scale: model.scale,
    scaleSentence: sentenceOf(document),
    items: [
      titleOf(title, box),
      ...noteOf(model, laid, box),
      ...drawn.flatMap(({ items }) => items),
      ...laid.flatMap((one) => captionOf(one)),
    ],
    known: drawn.flatMap(({ known }): readonly KnownLength[] => known),
    frames: [],
  };
}

function sentenceOf(document: ShowDocument): string {
  const { gridPitch, gridSquare, units } = showOf(document);
  return gridScale(gridPitch, gridSquare, units).sentence;
}

/** How the model goes together, in two short rows at most. */
function noteOf(model: CardModel, laid: readonly Laid[], box: Box): readonly Item[] {
  const split = laid.some(({ tile }) => tile.meets.length > 0);
  const words = `Board ${Number(model.board.toFixed(2))} mm. Cut the thin lines, score the broken ones; the light ones only show. Walls stand round the edge of the floor, feet flush with its underside; edges with the same number meet.${split ? " Lay sheets over one another until their crosses meet, tape them, then cut." : ""}`;
  return wrapped(words, "sans", 2.5, box.right - box.left)
    .slice(0, 3)
    .map((row, index) =>
      letters({ x: box.left, y: box.top + 9.6 + index * 3.4 }, row, 2.5, { part: "note" }),
    );
}

function tooMany(model: CardModel, document: ShowDocument, paper: Paper, count: number): Leaf {
  const box = leafBox(paper);
  const title = `${model.name}: card model`;
  const words = `At this scale the card model would take about ${count} sheets of ${paper.name}. Let one square of the grid stand for more, or take larger paper.`;
  return {
    id: `card.${model.room}`,
    title,
    paper,
    scale: model.scale,
    scaleSentence: sentenceOf(document),
    items: [
      titleOf(title, box),
      ...wrapped(words, "sans", 3.2, Math.min(180, box.right - box.left)).map((row, index) =>
        letters({ x: box.left, y: box.top + 12 + index * 4.7 }, row, 3.2),
      ),
    ],
    known: [],
    frames: [],
  };
}
