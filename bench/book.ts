/**
 * The book: from a tape sheet or a show file to the bytes of its PDF in one process. `value` is its pages and
 * `seconds` all of it: reading, measuring, arranging, drawing, writing. `ratio` is the writing of the book's pages
 * over pdfkit by itself writing as many pages with the same texts in the same type and no lines, in the same run.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import PdfFile from "pdfkit";
import { cornerwise } from "../cli/src/testing/run.ts";
import { book } from "../engine/src/book/book.ts";
import { createArrange } from "../engine/src/arrange/derive.ts";
import { roomSheet } from "../engine/src/arrange/sheet.ts";
import { createDerive } from "../engine/src/derive.ts";
import { readShow } from "../engine/src/document/file.ts";
import { printProblem } from "../engine/src/document/problem.ts";
import { emptyDocument, showOf, type ShowDocument } from "../engine/src/document/tables.ts";
import type { Sheet } from "../engine/src/sheet/vocabulary.ts";
import { readTape } from "../engine/src/tape/read.ts";
import { sheetFonts } from "../engine/src/testing/sheet-fonts.ts";
import { writePdf } from "../engine/src/write/pdf.ts";
import { hall } from "./arrange.ts";
import type { BenchInput, BenchResult } from "./result.ts";

const CREATED = "2026-11-25";

export interface BookResult extends BenchResult {
  readonly pdf_bytes: number;
  readonly write_ms: number;
  readonly library_ms: number;
}

/** One file, every file of a folder in the order of its names, or Night Ferry's tape sheet. */
export async function run({ input, plans }: BenchInput): Promise<readonly BenchResult[]> {
  const own = fileURLToPath(new URL("../cases/night-ferry.tape.txt", import.meta.url));
  const results: BookResult[] = [];
  for (const path of input === undefined ? [own] : filesOf(input))
    results.push(await measured(path, input === undefined ? "night-ferry.tape.txt" : path, plans));
  if (input !== undefined) return results;
  return [...results, await cold(own), ...ROOM_SHEETS.map(roomSheetOf)];
}

/** Seconds the command may take from nothing to a written book with its other files, and what it may hold meanwhile. */
const COLD_SECONDS = 5;
const COLD_MB = 400;

export interface ColdResult extends BenchResult {
  readonly peak_mb: number;
  readonly peak_mb_bound: number;
}

/** The command itself, in a process of its own: what a person waits for. `value` and `bound` are seconds. */
async function cold(file: string): Promise<ColdResult> {
  const folder = mkdtempSync(join(tmpdir(), "cornerwise-"));
  try {
    const start = performance.now();
    const words = ["book", file, "-o", join(folder, "book.pdf"), "--files", join(folder, "files")];
    const { code, err, peak } = await cornerwise([...words, "--date", CREATED]);
    const seconds = (performance.now() - start) / 1000;
    if (code > 1) throw new Error(`the command ended with ${code}: ${err}`);
    return {
      instance: "the command, cold: PDF and other files, seconds",
      value: seconds,
      bound: COLD_SECONDS,
      seconds,
      peak_mb: peak,
      peak_mb_bound: COLD_MB,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Pieces in a hall of twelve corners, the unit it is built on, runs, and what must not be exceeded (ms). */
const ROOM_SHEETS = [
  { count: 60, unit: 1000, runs: 120, most: 8 },
  { count: 400, unit: 2400, runs: 15, most: null },
  { count: 10_000, unit: 12_000, runs: 3, most: 2000 },
] as const;

/** The sheet of the screen, which the app asks for after every change: its median in ms. */
function roomSheetOf({ count, unit, runs, most }: (typeof ROOM_SHEETS)[number]): BenchResult {
  const { document, rooms } = hall(count, unit);
  const [arrangement] = createArrange()(document, rooms);
  if (!arrangement) throw new Error(`a hall of ${count} pieces has no arrangement`);
  let items = 0;
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    items = roomSheet(arrangement, document).items.length;
    return performance.now() - start;
  });
  const median = times.toSorted((a, b) => a - b)[Math.floor(runs / 2)] ?? 0;
  return {
    instance: `sheet of ${count} pieces, 12 corners: median, ms (${items} items)`,
    value: median,
    bound: most,
    seconds: median / 1000,
  };
}

async function measured(path: string, instance: string, plans: boolean): Promise<BookResult> {
  const fonts = sheetFonts();
  const start = performance.now();
  const document = readDocument(path);
  const derived = createDerive()(document);
  const show = showOf(document);
  const sheets = book(derived, document, {
    stamp: { show: show.name, date: CREATED, state: show.state },
  });
  const drawn = performance.now();
  const bytes = await writePdf(sheets, { fonts, title: show.name, created: CREATED });
  const written = performance.now();
  await plainText(sheets, fonts.sans);
  const library = performance.now() - written;
  return {
    instance,
    value: sheets.length,
    bound: null,
    seconds: (written - start) / 1000,
    ratio: (written - drawn) / library,
    write_ms: written - drawn,
    library_ms: library,
    pdf_bytes: bytes.length,
    ...(plans
      ? {
          plan: sheets.map(({ id, title, width, height, known }) => ({
            id,
            title,
            width_mm: width,
            height_mm: height,
            known,
          })),
        }
      : {}),
  };
}

/** The same texts, page for page, by the library alone. */
function plainText(sheets: readonly Sheet[], font: Uint8Array): Promise<number> {
  const pdf = new PdfFile({ autoFirstPage: false, font: null as unknown as string });
  const done = new Promise<number>((resolve) => {
    let bytes = 0;
    pdf.on("data", (part: Uint8Array) => (bytes += part.length));
    pdf.on("end", () => resolve(bytes));
  });
  pdf.registerFont("sans", font.slice().buffer);
  for (const sheet of sheets) {
    pdf.addPage({ size: [sheet.width, sheet.height], margin: 0 });
    pdf.font("sans").fontSize(8);
    for (const item of sheet.items)
      if (item.kind === "lettering") pdf.text(item.text, item.at.x, item.at.y, { lineBreak: false });
  }
  pdf.end();
  return done;
}

function filesOf(input: string): readonly string[] {
  if (!statSync(input).isDirectory()) return [input];
  return readdirSync(input)
    .filter((name) => /\.(?:json|txt)$/.test(name))
    .toSorted()
    .map((name) => join(input, name));
}

function readDocument(path: string): ShowDocument {
  const text = readFileSync(path, "utf8");
  const read = text.trimStart().startsWith("{") ? readShow(text) : undefined;
  if (read) {
    if (read.ok) return read.document;
    throw new Error(read.problems.map((problem) => `${path}: ${printProblem(problem)}`).join("\n"));
  }
  const { document, problems } = readTape(text, emptyDocument());
  if (problems.length > 0)
    throw new Error(problems.map((problem) => `${path}: ${printProblem(problem)}`).join("\n"));
  return document;
}
