/**
 * What goes beside the book for those who cut, count and plan with programs of their own: drawings at full size,
 * lists for a spreadsheet, the hours for a calendar. Data only; the writers turn it into bytes.
 */
import { showOf, type ShowDocument } from "../document/tables.ts";
import { installEvents, installLists } from "../install/lists.ts";
import { makeLists } from "../make/lists.ts";
import type { CalendarEvent, ListFile } from "../sheet/lists.ts";
import type { Sheet } from "../sheet/vocabulary.ts";
import { ruleOf } from "../snags/catalogue.ts";
import { SURE } from "../tolerances.ts";
import { printLength } from "../units/length.ts";
import { book, type BookOf, type BookOptions } from "./book.ts";

/** A drawing and what its paper is multiplied by: the scale for what is drawn to be built, 1 for what is cut from the sheet itself. */
export interface DrawingFile {
  /** The file's name without its ending. */
  readonly name: string;
  readonly sheet: Sheet;
  readonly factor: number;
}

export interface OtherFiles {
  readonly drawings: readonly DrawingFile[];
  readonly lists: readonly ListFile[];
  readonly events: readonly CalendarEvent[];
}

/** Everything that goes beside the book, in the book's order. */
export function otherFiles(derived: BookOf, document: ShowDocument, options: BookOptions): OtherFiles {
  return {
    drawings: book(derived, document, options).flatMap(drawingOf),
    lists: [
      cornerList(derived, document),
      ...makeLists(derived.making, document),
      ...installLists(derived.installing, document),
      snagList(derived, document),
    ],
    events: installEvents(derived.installing, document),
  };
}

/** Sheets that are drawings, by how their ids begin, and whether they are cut as they are. */
const DRAWN: readonly { readonly begins: string; readonly cut: boolean }[] = [
  { begins: "plan.", cut: false },
  { begins: "elevations.", cut: false },
  { begins: "unfolded.", cut: false },
  { begins: "card.", cut: true },
];

function drawingOf(sheet: Sheet): readonly DrawingFile[] {
  const kind = DRAWN.find(({ begins }) => sheet.id.startsWith(begins));
  if (kind === undefined || sheet.scale === undefined) return [];
  return [{ name: fileWords(sheet.id), sheet, factor: kind.cut ? 1 : sheet.scale }];
}

/** An id as part of a file's name on any system. */
function fileWords(id: string): string {
  return id
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 80);
}

/** The true corners: what a drawing program begins with. */
function cornerList({ arrangements }: BookOf, document: ShowDocument): ListFile {
  const { units } = showOf(document);
  return {
    name: "corners",
    columns: [
      "room",
      "corner",
      "x (mm)",
      "y (mm)",
      "good to (mm)",
      "height (mm)",
      "height",
      "inside angle (degrees)",
    ],
    rows: arrangements.flatMap(({ room }) =>
      room.corners.map((corner) => [
        room.room.name,
        corner.name,
        round(corner.x),
        round(corner.y),
        round(Math.hypot(corner.sdX, corner.sdY) * SURE),
        round(corner.height),
        printLength(corner.height, units),
        Number(corner.angle.toFixed(3)),
      ]),
    ),
  };
}

function snagList({ snags }: BookOf, document: ShowDocument): ListFile {
  return {
    name: "snags",
    columns: ["level", "room", "what", "mend", "source"],
    rows: snags.map((snag) => [
      snag.level,
      document.rooms[snag.room ?? ""]?.name ?? "",
      snag.sentence,
      snag.mend ?? "",
      ruleOf(snag.rule).source,
    ]),
  };
}

/** mm to a tenth: finer than anything is cut. */
function round(mm: number): number {
  return Number(mm.toFixed(1));
}
