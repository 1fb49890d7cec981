/** The document as files to keep, named after the show. */
import { showOf, writeShow, writeTape, type ShowDocument } from "@cornerwise/engine";
import type { MadeFile } from "./messages.ts";

export function showFile(document: ShowDocument): MadeFile {
  return file(document, { ending: ".json", type: "application/json", text: writeShow(document) });
}

export function tapeFile(document: ShowDocument): MadeFile {
  return file(document, { ending: ".txt", type: "text/plain", text: writeTape(document) });
}

/** A file name from the show's name, of letters, digits and dashes. */
export function fileName(document: ShowDocument, ending: string): string {
  const plain = showOf(document)
    .name.toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  return `${plain.slice(0, 60) || "show"}${ending}`;
}

interface Text {
  readonly ending: string;
  readonly type: string;
  readonly text: string;
}

function file(document: ShowDocument, { ending, type, text }: Text): MadeFile {
  return { name: fileName(document, ending), type, bytes: new TextEncoder().encode(text) };
}
