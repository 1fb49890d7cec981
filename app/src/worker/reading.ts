/** Files and typed lines that people hand over, read against the document as it stands. */
import { decodeUtf8, readShow, readTape, type ShowDocument } from "@cornerwise/engine";
import type { Questions, ReadFile, ReadLine } from "./messages.ts";

/**
 * A show file (JSON) is read all or nothing; anything else is taken for a tape sheet and read leniently onto
 * the document. Without a single good line there is no document in the answer.
 */
export function readFile(bytes: Uint8Array, document: ShowDocument): ReadFile {
  const decoded = decodeUtf8(bytes);
  if (!decoded.ok) return { problems: [decoded.problem] };
  if (/^\uFEFF?\s*[{[]/.test(decoded.text)) {
    const read = readShow(decoded.text);
    return read.ok ? { document: read.document, problems: [] } : { problems: read.problems };
  }
  const { change, document: read, problems } = readTape(decoded.text, document);
  return change.edits.length > 0 ? { document: read, problems } : { problems };
}

/** Lines of the tape grammar as typed on a slip. */
export function readLine(
  { text, room, record }: Questions["read-line"]["ask"],
  document: ShowDocument,
): ReadLine {
  const label = text.trim().split("\n")[0]?.slice(0, 60) ?? "";
  const { change, problems, lines } = readTape(text, document, {
    label,
    ...(room === undefined ? {} : { room }),
    ...(record === undefined ? {} : { record }),
  });
  return { change, problems, lines };
}
