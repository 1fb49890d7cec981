/**
 * A list as CSV by RFC 4180: comma, CRLF after every row, quotes where a cell needs them. It begins with a byte order
 * mark, because spreadsheets else take the file for one of an older code page and spoil primes and accents. A text
 * that a spreadsheet would take for a formula (it begins with = + - @, a tab or a line end) gets an apostrophe before
 * it: a name must never run. Numbers stay numbers, minus sign and all.
 */
import Papa from "papaparse";
import type { ListFile } from "../sheet/lists.ts";

/** What a spreadsheet might run, also in the wide signs of East Asian type. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;

/** The whole file as text, to be written as UTF-8. Rows shorter than the head are filled up with empty cells; a number that is none is an empty cell. */
export function writeCsv(list: ListFile): string {
  const rows = list.rows.map((row) => list.columns.map((_, index) => cellOf(row[index])));
  const text = Papa.unparse([[...list.columns], ...rows], { newline: "\r\n", escapeFormulae: FORMULA });
  return `\uFEFF${text}\r\n`;
}

function cellOf(cell: string | number | undefined): string | number {
  return cell === undefined || (typeof cell === "number" && !Number.isFinite(cell)) ? "" : cell;
}
