/** Which records a page shows, where, and what each is called: for the finger, the keyboard and the screen reader. */
import {
  type Item,
  type Point,
  type Sheet,
  type ShowDocument,
  TABLE_NAMES,
  type TableName,
} from "@cornerwise/engine";
import type { PaperArea } from "../../sheet/view.ts";

export interface RecordOnPage {
  readonly table: TableName;
  readonly id: string;
  readonly name: string;
  readonly area: PaperArea;
}

/** Every record a page shows that is still there, in the order it is drawn; those of the same record together. */
export function recordsOn(sheet: Sheet, document: ShowDocument): readonly RecordOnPage[] {
  const areas = new Map<string, PaperArea>();
  for (const item of sheet.items) {
    if (item.record === undefined) continue;
    const area = areaOfItem(item);
    const before = areas.get(item.record);
    areas.set(item.record, before === undefined ? area : joined(before, area));
  }
  return [...areas].flatMap(([id, area]) => {
    const table = tableOf(document, id);
    return table === undefined ? [] : [{ table, id, name: nameOf(document, table, id), area }];
  });
}

/** What lies under a point of the paper: the smallest record whose items are there. */
export function recordAt(
  sheet: Sheet,
  records: readonly RecordOnPage[],
  paper: Point,
): RecordOnPage | undefined {
  const near = 1.2;
  const hit = new Set(
    sheet.items
      .filter((item) => item.record !== undefined && holds(areaOfItem(item), paper, near))
      .map((item) => item.record),
  );
  const size = ({ area }: RecordOnPage) => (area.right - area.left) * (area.bottom - area.top);
  return records.filter(({ id }) => hit.has(id)).toSorted((a, b) => size(a) - size(b))[0];
}

/** The table that holds a record; ids are said once in a show. */
export function tableOf(document: ShowDocument, id: string): TableName | undefined {
  return TABLE_NAMES.find((table) => document[table][id] !== undefined);
}

/** What a record is called on a list. */
export function nameOf(document: ShowDocument, table: TableName, id: string): string {
  const record = (document[table][id] ?? {}) as {
    readonly name?: string;
    readonly piece?: string;
    readonly kind?: string;
    readonly text?: string;
    readonly work?: string;
    readonly start?: string;
  };
  if (record.name !== undefined) return record.name;
  if (record.piece !== undefined) return document.pieces[record.piece]?.name ?? id;
  if (record.text !== undefined) return record.text.slice(0, 60);
  if (record.work !== undefined) return `Rate for ${record.work}`;
  if (record.start !== undefined) return `Shift ${record.start.replace("T", " ")}`;
  if (table === "walls") return `Wall ${sideName(document, id)}`;
  return record.kind === undefined ? WORDS[table] : `${WORDS[table]} ${record.kind}`;
}

/** "A-B" for a wall's record. */
function sideName(document: ShowDocument, id: string): string {
  const side = document.walls[id];
  const name = (corner: string | undefined) => document.corners[corner ?? ""]?.name ?? "?";
  return `${name(side?.from)}-${name(side?.to)}`;
}

const WORDS: { readonly [T in TableName]: string } = {
  shows: "The show",
  rooms: "Room",
  corners: "Corner",
  walls: "Wall",
  readings: "Reading",
  openings: "Opening",
  fixtures: "Thing to keep clear",
  pieces: "Piece",
  solids: "Solid",
  parts: "Length of a frame",
  placements: "Copy",
  mounts: "Copy on a wall",
  stocks: "Material",
  coverings: "Floor covering",
  wallCoverings: "Wall covering",
  trims: "Trim",
  neighbours: "Neighbour's work",
  shifts: "Shift",
  rates: "Rate",
  chores: "Chore",
  questions: "Question",
  notes: "Note",
  jottings: "Private note",
};

/** The paper an item takes; of letters about so much. */
export function areaOfItem(item: Item): PaperArea {
  if (item.kind === "stroke") return around(item.points);
  if (item.kind === "lettering") {
    const wide = item.text.length * item.size * 0.6;
    const left = item.at.x - (item.align === "end" ? wide : item.align === "middle" ? wide / 2 : 0);
    return { left, right: left + wide, top: item.at.y - item.size, bottom: item.at.y + item.size * 0.3 };
  }
  const { centre, radius } = item;
  return {
    left: centre.x - radius,
    right: centre.x + radius,
    top: centre.y - radius,
    bottom: centre.y + radius,
  };
}

function around(points: readonly Point[]): PaperArea {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { x, y } of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { left, right, top, bottom };
}

/** The smallest area that holds both. */
export function joined(a: PaperArea, b: PaperArea): PaperArea {
  return {
    left: Math.min(a.left, b.left),
    right: Math.max(a.right, b.right),
    top: Math.min(a.top, b.top),
    bottom: Math.max(a.bottom, b.bottom),
  };
}

function holds(area: PaperArea, { x, y }: Point, near: number): boolean {
  return x >= area.left - near && x <= area.right + near && y >= area.top - near && y <= area.bottom + near;
}
