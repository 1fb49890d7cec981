/**
 * Type on sheets: how wide a line is, how it wraps, and which characters the faces hold. Widths come from a
 * table generated from the font files that go into the PDFs, so that the layout needs no font and no screen.
 * Kerning is left out: it draws a line together by a percent or so, never apart.
 */
import { listed, showOf, type ShowDocument, type TableName } from "../document/tables.ts";
import type { Snag } from "../snags/snag.ts";
import { FACE_WIDTHS } from "./font-widths.generated.ts";
import type { Face } from "./vocabulary.ts";

/** What is printed for a character that no face holds: the standard's replacement sign, a lozenge in the mono face. */
export const SUBSTITUTES: { readonly [F in Face]: string } = {
  sans: "\uFFFD",
  "sans-bold": "\uFFFD",
  mono: "\u25CA",
};

/** Joiners and variation signs have no look of their own. */
const UNSEEN = /\u200B|\u200C|\u200D|\uFEFF|[\uFE00-\uFE0F]/u;

const tables = new Map<Face, ReadonlyMap<number, number>>();

/** Advance widths of a face by code point, in ems. */
function widthsOf(face: Face): ReadonlyMap<number, number> {
  const known = tables.get(face);
  if (known) return known;
  const { runs, unitsPerEm } = FACE_WIDTHS[face];
  const widths = new Map<number, number>();
  for (const run of runs.split("\n")) {
    const [start = "", ...entries] = run.split(" ");
    let point = Number.parseInt(start, 36);
    for (const entry of entries) {
      const [width = "", times = "1"] = entry.split("*");
      for (let left = Number.parseInt(times, 36); left > 0; left -= 1) {
        widths.set(point, Number.parseInt(width, 36) / unitsPerEm);
        point += 1;
      }
    }
  }
  tables.set(face, widths);
  return widths;
}

/** Width of a line of text in mm at a type size in mm. A character outside the face counts as its substitute. */
export function textWidth(text: string, face: Face, size: number): number {
  const held = emsOf[face];
  const known = held.get(text);
  if (known !== undefined) return known * size;
  const ems = countEms(text, face);
  if (held.size >= MOST_HELD) held.clear();
  if (text.length <= LONGEST_HELD) held.set(text, ems);
  return ems * size;
}

/** Widths already counted: labels are tried at dozens of places. Small, and emptied when it is full. */
const emsOf: { readonly [F in Face]: Map<string, number> } = {
  sans: new Map(),
  "sans-bold": new Map(),
  mono: new Map(),
};
const MOST_HELD = 4000;
const LONGEST_HELD = 60;

function countEms(text: string, face: Face): number {
  const widths = widthsOf(face);
  const missing = widths.get(SUBSTITUTES[face].codePointAt(0) ?? 0) ?? 1;
  let ems = 0;
  for (const sign of text) {
    const width = widths.get(sign.codePointAt(0) ?? 0);
    if (width !== undefined) ems += width;
    else if (!UNSEEN.test(sign)) ems += missing;
  }
  return ems;
}

/** The characters of a text that a face cannot print, each once, in order. */
export function missingGlyphs(text: string, face: Face = "sans"): readonly string[] {
  const widths = widthsOf(face);
  const missing = new Set<string>();
  for (const sign of text) if (!UNSEEN.test(sign) && !widths.has(sign.codePointAt(0) ?? 0)) missing.add(sign);
  return [...missing];
}

/** The text as a face can print it: unseen signs dropped, missing ones replaced by the visible substitute. */
export function printable(text: string, face: Face): string {
  const widths = widthsOf(face);
  let out = "";
  for (const sign of text) {
    if (widths.has(sign.codePointAt(0) ?? 0)) out += sign;
    else if (!UNSEEN.test(sign)) out += SUBSTITUTES[face];
  }
  return out;
}

/** The text cut with an ellipsis so that it is at most `width` mm wide; whole where it fits. */
export function shortenedTo(text: string, face: Face, size: number, width: number): string {
  if (textWidth(text, face, size) <= width) return text;
  const signs = Array.from(text.slice(0, Math.ceil(width / size) * 8));
  while (signs.length > 0 && textWidth(`${signs.join("")}…`, face, size) > width) signs.pop();
  return signs.length > 0 ? `${signs.join("").trimEnd()}…` : "";
}

/** A space where a line may break: not inside a length, as in 3' 8 1/2" or 2400 mm. */
const BREAK = / (?<!\d['\u2032] )(?!\d+\/\d|(?:mm|cm|m|in|ft|%)(?![\p{L}\d]))/u;

/** Lines no wider than `width` mm, broken at spaces yet not inside a length, a word longer than a line broken where it must. */
export function wrapped(text: string, face: Face, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const paragraph of text.split("\n")) {
    let line = "";
    for (const word of paragraph.split(BREAK).flatMap((long) => brokenWord(long, face, size, width))) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (line !== "" && textWidth(longer, face, size) > width) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    lines.push(line);
  }
  return lines;
}

function brokenWord(word: string, face: Face, size: number, width: number): readonly string[] {
  if (textWidth(word, face, size) <= width) return [word];
  if (word.includes(" ")) return word.split(" ").flatMap((part) => brokenWord(part, face, size, width));
  const parts: string[] = [];
  let part = "";
  for (const sign of word) {
    if (part !== "" && textWidth(part + sign, face, size) > width) {
      parts.push(part);
      part = "";
    }
    part += sign;
  }
  return [...parts, part];
}

/** The tables whose records have names that stand on sheets. */
const NAMED = [
  "rooms",
  "corners",
  "openings",
  "fixtures",
  "pieces",
  "stocks",
  "coverings",
  "wallCoverings",
  "chores",
  "neighbours",
] as const satisfies readonly TableName[];

/** A snag for each name on the sheets that the faces cannot print whole; equal names are said once. */
export function fontSnags(document: ShowDocument): readonly Snag[] {
  const seen = new Set<string>();
  const snags: Snag[] = [];
  const look = (id: string, name: string, room?: string): void => {
    const missing = missingGlyphs(name);
    if (missing.length === 0 || seen.has(name)) return;
    seen.add(name);
    snags.push({
      rule: "font-missing",
      level: "mind",
      sentence: `“${name}” has signs the sheet's type does not hold: ${missing.slice(0, 6).join(" ")}${missing.length > 6 ? " …" : ""}`,
      things: [id],
      ...(room === undefined ? {} : { room }),
      mend: "Write the name in Latin, Greek or Cyrillic letters for the printed sheets.",
    });
  };
  const show = showOf(document);
  look(show.id, show.name);
  look(show.id, show.state);
  for (const table of NAMED)
    for (const record of listed<NamedRecord>(document[table])) look(record.id, record.name, record.room);
  for (const question of listed(document.questions)) look(question.id, question.text);
  return snags;
}

interface NamedRecord {
  readonly id: string;
  readonly order: number;
  readonly name: string;
  readonly room?: string;
}
