/** Reads what a command is given: a show file or a tape sheet, from a file or from standard input. */
import { readFileSync } from "node:fs";
import {
  decodeUtf8,
  emptyDocument,
  printProblem,
  readShow,
  readTape,
  type Problem,
  type ShowDocument,
} from "@cornerwise/engine";
import { Refusal } from "./ending.ts";

/** What was read. `document` is absent where nothing could be. */
export interface Input {
  readonly document?: ShowDocument;
  readonly problems: readonly Problem[];
}

/** Larger than any show: 10,000 pieces write about 8 MB. Bytes. */
const LARGEST = 100_000_000;

/**
 * Reads FILE, or standard input for `-`. A text that begins with `{` is a show file, read all or nothing;
 * anything else is a tape sheet, whose unreadable lines are reported and the rest is read. Problems go to
 * stderr, one a line. Throws a Refusal where there is no such file.
 */
export function readInput(file: string): Input {
  const input = read(file);
  for (const problem of input.problems) process.stderr.write(`${printProblem(problem)}\n`);
  return input;
}

function read(file: string): Input {
  const decoded = decodeUtf8(bytesOf(file));
  if (!decoded.ok) return { problems: [decoded.problem] };
  if (/^\s*\{/.test(decoded.text) || file.toLowerCase().endsWith(".json")) {
    const show = readShow(decoded.text);
    return show.ok ? { document: show.document, problems: [] } : { problems: show.problems };
  }
  const { document, problems } = readTape(decoded.text, emptyDocument());
  return { document, problems };
}

function bytesOf(file: string): Uint8Array {
  try {
    const bytes = readFileSync(file === "-" ? 0 : file);
    if (bytes.length > LARGEST) throw new Refusal(`${file} is larger than any show: ${bytes.length} bytes.`);
    return bytes;
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${file} could not be read: ${whyNot(error)}`);
  }
}

/** The system's reason in plain words. */
export function whyNot(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const known: { readonly [code: string]: string } = {
    ENOENT: "there is nothing at that place.",
    EISDIR: "it is a folder.",
    EACCES: "this account may not.",
    EPERM: "this account may not.",
    ENOTDIR: "part of its path is a file.",
    ENOSPC: "the disk is full.",
    EAGAIN: "nothing was handed to it.",
  };
  return known[code] ?? (error instanceof Error ? error.message : String(error));
}
