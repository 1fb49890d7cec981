/**
 * Pages for the printer. This part and the PDF writer behind it are large and come late, when first asked;
 * the full typefaces are fetched then too, from the app's own folder.
 */
import monoUrl from "@expo-google-fonts/ibm-plex-mono/400Regular/IBMPlexMono_400Regular.ttf?url";
import sansUrl from "@expo-google-fonts/ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf?url";
import sansBoldUrl from "@expo-google-fonts/ibm-plex-sans/600SemiBold/IBMPlexSans_600SemiBold.ttf?url";
import {
  book,
  corrected,
  officerSheets,
  otherFiles,
  planAndCutOuts,
  showOf,
  writeSvg,
  type Derived,
  type Sheet,
  type ShowDocument,
  type Stamp,
} from "@cornerwise/engine";
import { writeCalendar, writeCsv, writeDxf } from "@cornerwise/engine/files";
import { writePdf, type PdfOptions } from "@cornerwise/engine/pdf";
import type { MadeFile, PrintAsk, Printed } from "./messages.ts";
import { fileName } from "./written.ts";

type Pages = Omit<Printed, "files"> & { readonly sheets: readonly Sheet[] };

/** Throws where the room asked for has no shape yet; the screen does not offer the print then. */
export async function print(ask: PrintAsk, document: ShowDocument, derived: Derived): Promise<Printed> {
  if (ask.what === "drawings" || ask.what === "lists" || ask.what === "calendar")
    return { files: besides(ask, document, derived) };
  const { sheets, ...about } =
    ask.what === "one page" ? onePage(ask, document, derived) : bookPages(ask, document, derived);
  return {
    files: ask.as === "svg" ? svgFiles(sheets, document) : [await pdfFile(sheets, ask, document)],
    ...about,
  };
}

function stampOf(ask: PrintAsk, document: ShowDocument): Stamp {
  const show = showOf(document);
  return { show: show.name, date: ask.date, state: show.state };
}

function bookPages(ask: PrintAsk, document: ShowDocument, derived: Derived): Pages {
  const { paper, correction } = ask;
  const bind = ask.what === "book" ? book : officerSheets;
  const sheets = bind(derived, document, { paper, stamp: stampOf(ask, document) });
  return { sheets: sheets.map((sheet) => corrected(sheet, correction)) };
}

/** The files beside the book: drawings at full size, lists, the calendar. */
function besides(ask: PrintAsk, document: ShowDocument, derived: Derived): readonly MadeFile[] {
  const files = otherFiles(derived, document, { paper: ask.paper, stamp: stampOf(ask, document) });
  const made = (name: string, type: string, text: string): MadeFile => ({
    name: fileName(document, `-${name}`),
    type,
    bytes: new TextEncoder().encode(text),
  });
  if (ask.what === "lists")
    return files.lists.map((list) => made(`${list.name}.csv`, "text/csv", writeCsv(list)));
  if (ask.what === "calendar") {
    const { name } = showOf(document);
    return [made("hours.ics", "text/calendar", writeCalendar(files.events, { name, stamp: ask.created }))];
  }
  return files.drawings.map(({ name, sheet, factor }) =>
    ask.as === "svg"
      ? made(`${name}.svg`, "image/svg+xml", writeSvg(sheet))
      : made(`${name}.dxf`, "image/vnd.dxf", writeDxf(sheet, { factor })),
  );
}

function onePage(ask: PrintAsk, document: ShowDocument, { arrangements }: Derived): Pages {
  const found = arrangements.find(({ room }) => ask.room === undefined || room.room.id === ask.room);
  if (found === undefined) throw new Error(`there is no room ${ask.room ?? ""} to print`);
  const { paper, correction } = ask;
  const page = planAndCutOuts(found, document, { paper, correction, stamp: stampOf(ask, document) });
  return { sheets: [page.sheet], scale: page.scale, sentence: page.sentence, leftOut: page.leftOut };
}

function svgFiles(sheets: readonly Sheet[], document: ShowDocument): readonly MadeFile[] {
  return sheets.map((sheet, i) => ({
    name: fileName(document, sheets.length > 1 ? `-${i + 1}.svg` : ".svg"),
    type: "image/svg+xml",
    bytes: new TextEncoder().encode(writeSvg(sheet)),
  }));
}

async function pdfFile(sheets: readonly Sheet[], ask: PrintAsk, document: ShowDocument): Promise<MadeFile> {
  const title = showOf(document).name;
  const bytes = await writePdf(sheets, { fonts: await fonts(), title, created: ask.created });
  return {
    name: fileName(document, PDF_NAMES[ask.what] ?? ".pdf"),
    type: "application/pdf",
    bytes: new Uint8Array(bytes),
  };
}

const PDF_NAMES: { readonly [what: string]: string } = {
  "one page": "-plan-and-cut-outs.pdf",
  book: "-book.pdf",
  "fire officer": "-fire-officer.pdf",
};

let fetched: Promise<PdfOptions["fonts"]> | undefined;

/** Fetched once; a failed fetch is tried again at the next print. */
function fonts(): Promise<PdfOptions["fonts"]> {
  fetched ??= Promise.all([sansUrl, sansBoldUrl, monoUrl].map(bytesAt)).then(
    ([sans, sansBold, mono]) => {
      if (!sans || !sansBold || !mono) throw new Error("a typeface is missing");
      return { sans, sansBold, mono };
    },
    (reason: unknown) => {
      fetched = undefined;
      throw reason;
    },
  );
  return fetched;
}

async function bytesAt(url: string): Promise<Uint8Array> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`a typeface could not be loaded (${response.status})`);
  return new Uint8Array(await response.arrayBuffer());
}
