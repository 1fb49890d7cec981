/** What the screens do to the open show, by way of the store: lines of the tape sheet and plain changes. */
import {
  apply,
  type Change,
  emptyDocument,
  listed,
  type Point,
  printProblem,
  put,
  type ShowDocument,
} from "@cornerwise/engine";
import { say } from "./desk.ts";
import {
  open,
  perform,
  readLine,
  type RecordName,
  redo,
  replaceFromFile,
  undo,
  useShow,
} from "./store/show.ts";

/** Takes lines of the tape sheet; answers with every reason why it could not, or nothing. */
export type Enter = (lines: string) => Promise<readonly string[]>;

/**
 * Reads lines for a room and does what they say; where any cannot be read nothing is done. With a record they say
 * that record anew, whatever it was called before.
 */
export function entering(room: string | undefined, record?: RecordName): Enter {
  return async (lines) => {
    const { change, problems } = await readLine(lines, room, record);
    if (problems.length > 0) return problems.map((problem) => problem.reason);
    await perform({ ...change, label: firstLine(lines) });
    return [];
  };
}

/** Reads pasted notes: what can be read is done and counted, the rest comes back with its line. */
export async function enterNotes(
  notes: string,
): Promise<{ readonly read: number; readonly problems: readonly string[] }> {
  const { change, problems, lines } = await readLine(notes);
  if (change.edits.length > 0) await perform({ ...change, label: "Read the tape sheet" });
  return { read: lines.filter((line) => line.ok).length, problems: problems.map(printProblem) };
}

/** Does a change, unless there is nothing in it. */
export function act(change: Change): void {
  if (change.edits.length > 0) void perform(change);
}

/**
 * Begins the person's own show from lines of the tape sheet. A show that stood there before can be had back
 * with undo. Answers with what could not be read; then nothing is changed.
 */
export async function begin(lines: string, sketch?: readonly Point[]): Promise<readonly string[]> {
  await open("mine");
  const before = useShow.getState();
  if (before.started) await replaceFromFile(emptyDocument(), "Clear the table");
  const { change, problems } = await readLine(lines);
  if (problems.length > 0) {
    if (before.started) await undo();
    return problems.map((problem) => problem.reason);
  }
  const edits = sketch ? hinted(apply(useShow.getState().document, change), sketch) : [];
  await perform({ label: "Start my room", edits: [...change.edits, ...edits] });
  return [];
}

/** The edits that remember where a sketch put the corners. */
function hinted(document: ShowDocument, sketch: readonly Point[]) {
  return listed(document.corners).flatMap((corner, index) => {
    const point = sketch[index];
    return point ? put(document, "corners", { ...corner, sketchX: point.x, sketchY: point.y }) : [];
  });
}

export async function undoOne(): Promise<void> {
  const label = useShow.getState().undoLabel;
  const outcome = await undo();
  if (label && outcome) say(`Undone: ${label}${kept(outcome.skipped.length)}`);
}

export async function redoOne(): Promise<void> {
  const label = useShow.getState().redoLabel;
  const outcome = await redo();
  if (label && outcome) say(`Done again: ${label}${kept(outcome.skipped.length)}`);
}

function kept(skipped: number): string {
  return skipped > 0 ? ", but what was changed elsewhere since is left as it is" : "";
}

function firstLine(lines: string): string {
  const line = lines.split("\n").find((candidate) => candidate.trim()) ?? "Enter";
  return line.length > 60 ? `${line.slice(0, 57)}...` : line;
}
