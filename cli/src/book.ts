/** `cornerwise book FILE`: the printed sheets, at true scale, as PDF or SVG. */
import {
  book,
  corrected,
  createDerive,
  officerSheets,
  otherFiles,
  planAndCutOuts,
  showOf,
  writeSvg,
  type Derived,
  type Sheet,
  type ShowDocument,
} from "@cornerwise/engine";
import { Command, Option } from "commander";
import { join } from "node:path";
import { endWith, Refusal } from "./ending.ts";
import { sheetFonts } from "./fonts.ts";
import { readInput } from "./input.ts";
import { digits, jsonText, writeBytes } from "./output.ts";
import { problemJson, snagCount, snagsJson } from "./snags.ts";
import { barFactor, printDate, today } from "./words.ts";

interface Options {
  readonly json?: true;
  readonly output?: string;
  readonly paper?: "letter" | "a4";
  readonly onePage?: true;
  readonly fireOfficer?: true;
  readonly files?: string;
  readonly barAcross?: string;
  readonly barDown?: string;
  readonly date: string;
}

/** The verb, ready to be added to the program. */
export function bookVerb(): Command {
  return new Command("book")
    .description(
      "write everything as one book of printed sheets, and the other files beside it; or one page of it",
    )
    .argument("<file>", "a show file or a tape sheet; - for standard input")
    .option("--json", "print JSON for machines: the sheets and their known lengths")
    .option(
      "-o, --output <file>",
      "name.pdf; name.svg (several pages are numbered); or a folder of SVG pages",
    )
    .addOption(
      new Option("--paper <paper>", "letter for a show in feet and inches, else a4").choices([
        "letter",
        "a4",
      ]),
    )
    .option("--one-page", "plan and cut-outs, one page, instead of the book")
    .option("--fire-officer", "the page for the fire officer alone, instead of the book")
    .option("--files <folder>", "also write the other files there: DXF, SVG, CSV and the calendar")
    .option("--bar-across <length>", "what the 2 in bar measured across, to correct this print")
    .option("--bar-down <length>", "what the 2 in bar measured down")
    .option("--date <date>", "the date on every sheet, as 2026-11-25", today())
    .action(writeBook);
}

async function writeBook(file: string, options: Options): Promise<void> {
  if (options.output === undefined && options.json === undefined && options.files === undefined)
    throw new Refusal(
      "book needs -o: name.pdf, name.svg, or a folder for SVG pages; or --files and a folder.",
    );
  if (options.onePage && options.fireOfficer)
    throw new Refusal("--one-page and --fire-officer are two different pages: ask for one of them.");
  const date = printDate(options.date);
  const { document, problems } = readInput(file);
  const derived = document === undefined ? undefined : createDerive()(document);
  const sheets = document && derived ? sheetsOf(document, derived, { ...options, date }) : [];
  const printed =
    document && options.output !== undefined ? await writeSheets(sheets, document, options) : [];
  const beside =
    document && derived && options.files !== undefined
      ? await writeBeside(derived, document, { ...options, date, folder: options.files })
      : [];
  const files = [...printed, ...beside];
  const snags = derived?.snags ?? [];
  if (options.json)
    process.stdout.write(
      jsonText({
        sheets: sheets.map(sheetJson),
        files,
        snags: snagsJson(snags, document),
        problems: problems.map(problemJson),
      }),
    );
  else if (derived) process.stdout.write(`${files.map((name) => `${name}\n`).join("")}${snagCount(snags)}\n`);
  endWith(snags, problems);
}

function sheetsOf(document: ShowDocument, derived: Derived, options: Options): readonly Sheet[] {
  const show = showOf(document);
  const feet = show.units === "ft-in" || show.units === "in";
  const paper = options.paper ?? (feet ? "letter" : "a4");
  const stamp = { show: show.name, date: options.date, state: show.state };
  const correction = {
    across: barFactor(options.barAcross, show.units),
    down: barFactor(options.barDown, show.units),
  };
  if (options.onePage)
    return derived.arrangements.map((arrangement) => {
      const page = planAndCutOuts(arrangement, document, { paper, stamp, correction });
      if (page.leftOut.length > 0)
        process.stderr.write(`No room on the page for: ${page.leftOut.join(", ")}\n`);
      return page.sheet;
    });
  const sheets = (options.fireOfficer ? officerSheets : book)(derived, document, { paper, stamp });
  return sheets.map((sheet) => corrected(sheet, correction));
}

/** Writes the other files into a folder; the names of the files written. */
async function writeBeside(
  derived: Derived,
  document: ShowDocument,
  { folder, date, paper }: Options & { readonly folder: string },
): Promise<readonly string[]> {
  const { writeCalendar, writeCsv, writeDxf } = await import("@cornerwise/engine/files");
  const { name, state, units } = showOf(document);
  const feet = units === "ft-in" || units === "in";
  const files = otherFiles(derived, document, {
    paper: paper ?? (feet ? "letter" : "a4"),
    stamp: { show: name, date, state },
  });
  // Calendar files carry the moment they were made: the day asked for, so that the same day gives the same bytes.
  const stamp = new Date(`${date} UTC`).toISOString().replace(/\.\d+Z$/, "Z");
  const written: readonly (readonly [string, string])[] = [
    ...files.drawings.flatMap(
      (drawing) =>
        [
          [`${drawing.name}.dxf`, writeDxf(drawing.sheet, { factor: drawing.factor })],
          [`${drawing.name}.svg`, writeSvg(drawing.sheet)],
        ] as const,
    ),
    ...files.lists.map((list) => [`${list.name}.csv`, writeCsv(list)] as const),
    // A calendar without an event is not one: no file is written for it.
    ...(files.events.length > 0
      ? [["hours.ics", writeCalendar(files.events, { name, stamp })] as const]
      : []),
  ];
  for (const [file, text] of written) writeBytes(join(folder, file), text);
  return written.map(([file]) => join(folder, file));
}

/** Writes the sheets where `-o` says; the names of the files written. */
async function writeSheets(
  sheets: readonly Sheet[],
  document: ShowDocument,
  { output, date }: Options,
): Promise<readonly string[]> {
  if (output === undefined) return [];
  if (sheets.length === 0) throw new Refusal("There is no room to draw yet, so there is no sheet to write.");
  if (output.toLowerCase().endsWith(".pdf")) {
    // The PDF library is large: only a command that writes one waits for it.
    const { writePdf } = await import("@cornerwise/engine/pdf");
    const title = showOf(document).name;
    writeBytes(output, await writePdf(sheets, { fonts: sheetFonts(), title, created: date }));
    return [output];
  }
  const names = sheets.map((sheet, index) => svgName(output, sheet, { index, of: sheets.length }));
  for (const [index, sheet] of sheets.entries()) writeBytes(names[index] ?? output, writeSvg(sheet));
  return names;
}

function svgName(
  output: string,
  sheet: Sheet,
  page: { readonly index: number; readonly of: number },
): string {
  const number = String(page.index + 1).padStart(2, "0");
  if (!output.toLowerCase().endsWith(".svg")) return join(output, `${number}-${fileWords(sheet.title)}.svg`);
  return page.of === 1 ? output : `${output.slice(0, -".svg".length)}-${number}.svg`;
}

/** A title as part of a file's name on any system. */
function fileWords(title: string): string {
  const words = title
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-+|-+$/g, "");
  return words.slice(0, 60) || "sheet";
}

/** A sheet for machines: its size, scale and every length that can be measured on it, in paper mm from its top left. */
function sheetJson(sheet: Sheet): object {
  return {
    id: sheet.id,
    title: sheet.title,
    width_mm: digits(sheet.width),
    height_mm: digits(sheet.height),
    scale: sheet.scale ?? null,
    known: sheet.known.map(({ name, from, to, real }) => ({
      name,
      from: { x_mm: digits(from.x), y_mm: digits(from.y) },
      to: { x_mm: digits(to.x), y_mm: digits(to.y) },
      real_mm: digits(real),
    })),
  };
}
