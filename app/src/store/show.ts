/**
 * The open show, as screens see it: the document, what the engine derived from it, the undo list's labels
 * and how it is kept. Two shows can be opened: the finished example, fresh in memory each time so that it
 * cannot be spoiled, and the person's own, kept in the browser and shared by its tabs.
 */
import {
  SHOW_ID,
  type Change,
  type FieldEdit,
  type Problem,
  type Sheet,
  type ShowDocument,
  type TableName,
} from "@cornerwise/engine";
import { create } from "zustand";
import type {
  DraggedPlacement,
  MadeFile,
  Preview,
  PrintAsk,
  Printed,
  PagedStage,
  ReadLine,
  Rippled,
  Shown,
  Space,
} from "../worker/messages.ts";
import { Engine } from "./engine.ts";
import { keep, type Keeping, type KeptState } from "./keeping.ts";
import { LiveShow, type News, type Outcome } from "./live.ts";
import { Replica } from "./replica.ts";
import { useSession } from "./session.ts";
import { joinTabs, tabNumber } from "./tabs.ts";
import { openUndo, type UndoKeeping } from "./undo-keeping.ts";
import { NOTHING_DONE } from "./undo.ts";

export type Which = "example" | "mine";

export type Kept =
  | { readonly kind: "example" }
  | { readonly kind: "empty" }
  | { readonly kind: "keeping" }
  | { readonly kind: "kept"; readonly since: Date }
  /** The browser would not write; nothing said is lost while the tab is open. */
  | { readonly kind: "refused"; readonly reason: string };

export interface ShowState {
  /** Which show is open; undefined before the first `open`. */
  readonly which: Which | undefined;
  /** Whether its document is there. False while it is being read from storage. */
  readonly ready: boolean;
  /** Whether the person's own show has been started: false means it is still empty. */
  readonly started: boolean;
  readonly document: ShowDocument;
  /** Goes up by one with every change, own or another's. */
  readonly revision: number;
  /** What the engine made of the document; lags a few milliseconds behind, see `derivedRevision`. */
  readonly derived: Shown | undefined;
  readonly derivedRevision: number;
  /** What the last change touched; undefined before any, and once it is put away. */
  readonly rippled: Rippled | undefined;
  /** While a piece is dragged: the latest answer to `preview`. */
  readonly preview: Preview | undefined;
  /** "Move Bench 2": what undo would take back; undefined where it can do nothing. */
  readonly undoLabel: string | undefined;
  readonly redoLabel: string | undefined;
  /** What the last undo or redo left alone, because another had written there since. */
  readonly skipped: readonly FieldEdit[];
  readonly kept: Kept;
  /** How far a long change is, 0 to 1; undefined while none is under way. */
  readonly progress: number | undefined;
  /** The engine's last bug, in its own words; the document is untouched. */
  readonly fault: string | undefined;
}

const NOTHING = new Replica().document;

const CLOSED: ShowState = {
  which: undefined,
  ready: false,
  started: false,
  document: NOTHING,
  revision: 0,
  derived: undefined,
  derivedRevision: -1,
  rippled: undefined,
  preview: undefined,
  undoLabel: undefined,
  redoLabel: undefined,
  skipped: [],
  kept: { kind: "empty" },
  progress: undefined,
  fault: undefined,
};

/** The open show. Read it in a screen with a selector: `useShow((show) => show.derived)`. */
export const useShow = create<ShowState>(() => CLOSED);

interface Opened {
  readonly live: LiveShow;
  /** Resolves when everything said so far is written on this device. */
  settled(): Promise<void>;
  close(): void;
}

const MINE = "cornerwise-mine";

let opened: Opened | undefined;
let opening = 0;
let started: Engine | undefined;

/** The engine worker, started on first use. */
function engine(): Engine {
  return (started ??= new Engine(
    {
      derived: (derivedRevision, derived) => {
        // A derivation of the show that was open before is of no use to the one that is open now.
        if (derivedRevision >= useShow.getState().derivedRevision)
          useShow.setState({ derivedRevision, derived, progress: undefined });
      },
      preview: (answer) => {
        if (dragged === answer.placement.id) useShow.setState({ preview: answer });
      },
      progress: (progress) => useShow.setState({ progress }),
      rippled: (rippled) => {
        if (rippled.revision === useShow.getState().derivedRevision) useShow.setState({ rippled });
      },
      fault: (fault) => useShow.setState({ fault }),
    },
    () => {
      const { ready, revision } = useShow.getState();
      return ready && opened ? { revision, document: opened.live.replica.document } : undefined;
    },
  ));
}

/**
 * Opens a show, closing the one that was open; resolves when it is there. Opening the one that is open
 * already changes nothing. A show that cannot be opened says so in `fault`.
 */
export function open(which: Which): Promise<void> {
  if (useShow.getState().which !== which) going = openAnew(which);
  return going;
}

let going: Promise<void> = Promise.resolve();

async function openAnew(which: Which): Promise<void> {
  const turn = ++opening;
  close();
  useShow.setState({ ...CLOSED, revision: useShow.getState().revision, which });
  const next = await opener(which).catch((reason: unknown) => {
    if (turn === opening) useShow.setState({ fault: String(reason) });
  });
  if (next === undefined) return;
  if (turn !== opening) return next.close();
  opened = next;
  next.live.subscribe(hear);
  const document = next.live.getDocument();
  const revision = useShow.getState().revision + 1;
  useShow.setState({ ready: true, document, revision, started: hasBegun(document), ...labels(next.live) });
  engine().open(revision, document);
}

function opener(which: Which): Promise<Opened> {
  return which === "example" ? openedExample() : openedMine();
}

/** Opens the finished example as it came, whatever was tried on it before. */
export async function resetExample(): Promise<void> {
  useShow.setState({ which: undefined });
  await open("example");
}

/** Makes the open show into this one, as one change that can be undone. */
export async function replaceFromFile(document: ShowDocument, label: string): Promise<void> {
  await long((live, progress) => live.replace(document, label, progress));
}

/** One's own change; in the document on return, unless it is very large. */
export async function perform(change: Change): Promise<void> {
  await long((live, progress) => live.perform(change, progress));
}

/** Takes one's own newest change back. */
export async function undo(): Promise<Outcome | undefined> {
  return outcome(await long((live, progress) => live.undo(progress)));
}

/** Does again what was taken back last. */
export async function redo(): Promise<Outcome | undefined> {
  return outcome(await long((live, progress) => live.redo(progress)));
}

let dragged: string | undefined;

/** Asks what a dragged piece's place would mean; the answer comes as `preview` in the state. */
export function preview(placement: DraggedPlacement): void {
  dragged = placement.id;
  engine().preview(placement);
}

/** The drag is over, dropped or given up. */
export function endPreview(): void {
  dragged = undefined;
  useShow.setState({ preview: undefined });
}

/**
 * Reads a show file or a tape sheet. A show file that can be read whole replaces the open show; a tape sheet
 * adds what can be read of it. Every problem comes back, and where nothing could be read nothing changes.
 */
export async function readFile(file: File): Promise<readonly Problem[]> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const { document, problems } = await engine().ask("read-file", { bytes, name: file.name });
  if (document !== undefined) await replaceFromFile(document, `Open ${file.name}`);
  return problems;
}

/** Reads typed lines against the open show; nothing is changed until the change is performed. */
export function readLine(text: string, room?: string, record?: RecordName): Promise<ReadLine> {
  return engine().ask("read-line", {
    text,
    ...(room === undefined ? {} : { room }),
    ...(record === undefined ? {} : { record }),
  });
}

/** A record by its table and id. */
export interface RecordName {
  readonly table: TableName;
  readonly id: string;
}

/** The open show as a file to keep. */
export function writeFile(): Promise<MadeFile> {
  return engine().ask("write-file", {});
}

/** The open show as a tape sheet. */
export function writeTape(): Promise<MadeFile> {
  return engine().ask("write-tape", {});
}

/** The pages of a later stage for one room, as the engine has them now. */
export async function pagesOf(stage: PagedStage, room: string): Promise<readonly Sheet[]> {
  return (await engine().ask("pages", { stage, room })).sheets;
}

/** A room in three dimensions, and where it is looked at from. */
export function spaceOf(room: string): Promise<Space> {
  return engine().ask("space", { room });
}

/** A record as the lines of the tape sheet that say it; empty where it is gone. */
export async function recordLines(table: TableName, id: string): Promise<string> {
  return (await engine().ask("record-lines", { table, id })).text;
}

/** Puts the note of what the last change touched away. */
export function putRippleAway(): void {
  useShow.setState({ rippled: undefined });
}

/** Pages for the printer. The PDF writer and its fonts are loaded when first asked. */
export function print(ask: PrintAsk): Promise<Printed> {
  return engine().ask("print", ask);
}

/** Resolves when everything said so far is written on this device. */
export function settled(): Promise<void> {
  return opened?.settled() ?? Promise.resolve();
}

/** How the show is kept, as the screen says it. */
export function keptWords(kept: Kept): string {
  if (kept.kind === "kept") return `kept on this device since ${whenWords(kept.since)}`;
  return KEPT_WORDS[kept.kind];
}

const KEPT_WORDS = {
  example: "example, cannot be spoiled",
  empty: "nothing to keep yet",
  keeping: "being kept on this device",
  refused: "not kept: this browser would not store it. Save a file",
} as const;

function whenWords(since: Date): string {
  const today = since.toDateString() === new Date().toDateString();
  return new Intl.DateTimeFormat(undefined, {
    timeStyle: "short",
    ...(today ? {} : { dateStyle: "medium" as const }),
  }).format(since);
}

function close(): void {
  opened?.close();
  opened = undefined;
  dragged = undefined;
}

async function openedExample(): Promise<Opened> {
  const { document, problems } = await engine().ask("read-example", {});
  if (document === undefined)
    throw new Error(`the example cannot be read: ${JSON.stringify(problems.slice(0, 3))}`);
  const replica = new Replica();
  const live = new LiveShow(replica);
  await live.replace(document, "Open the example");
  useShow.setState({ kept: { kind: "example" } });
  // Opening is nobody's change: the undo list begins empty.
  return { live: new LiveShow(replica), settled: () => Promise.resolve(), close: () => replica.close() };
}

async function openedMine(): Promise<Opened> {
  const replica = new Replica();
  const number = tabNumber();
  const keeping = await keep(replica, MINE, showKept).catch(unkept);
  const leave = joinTabs(replica, MINE);
  const list = await openUndo(MINE, await number).catch(forgetful);
  const live = new LiveShow(replica, list.state);
  live.subscribe(({ from, more }) => {
    if (from !== "own" || more) return;
    list.keep(live.getUndo());
    askToKeep();
  });
  if (useShow.getState().kept.kind !== "refused") {
    useShow.setState({ kept: keeping.since ? { kind: "kept", since: keeping.since } : { kind: "empty" } });
  }
  return {
    live,
    settled: async () => {
      await keeping.settled();
      await list.settled();
    },
    close: () => {
      leave();
      keeping.close();
      live.close();
    },
  };
}

/** A browser that lets nothing be stored: the show works, and says that it is not kept. */
function unkept(reason: unknown): Keeping {
  showKept(new Error(String(reason)));
  return {
    since: undefined,
    settled: () => Promise.reject(new Error(String(reason))),
    close: () => undefined,
  };
}

function forgetful(): UndoKeeping {
  return { state: NOTHING_DONE, keep: () => undefined, settled: () => Promise.resolve() };
}

function showKept(state: KeptState): void {
  if (useShow.getState().which !== "mine") return;
  if (state === "keeping") useShow.setState({ kept: { kind: "keeping" } });
  else if (state === "kept") useShow.setState({ kept: { kind: "kept", since: new Date() } });
  else useShow.setState({ kept: { kind: "refused", reason: state.message } });
}

/** Asks the browser once, at the first thing worth keeping, not to clear it away when space is short. */
function askToKeep(): void {
  if (useSession.getState().keepingAsked) return;
  useSession.setState({ keepingAsked: true });
  navigator.storage?.persist?.().catch(() => undefined);
}

function hear({ document, change, more }: News): void {
  const revision = useShow.getState().revision + 1;
  engine().change(change, { revision, more });
  if (more) return;
  useShow.setState({
    document,
    revision,
    started: hasBegun(document),
    ...(opened ? labels(opened.live) : {}),
  });
}

function hasBegun(document: ShowDocument): boolean {
  return document.shows[SHOW_ID] !== undefined || Object.keys(document.rooms).length > 0;
}

function labels(live: LiveShow): Pick<ShowState, "undoLabel" | "redoLabel"> {
  const { done, undone } = live.getUndo();
  return { undoLabel: done.at(-1)?.label, redoLabel: undone.at(-1)?.label };
}

function outcome(result: Outcome | undefined): Outcome | undefined {
  useShow.setState({ skipped: result?.skipped ?? [], ...(opened ? labels(opened.live) : {}) });
  return result;
}

/** Works on the open show, with the progress shown where it takes long. */
async function long<T>(work: (live: LiveShow, progress: (part: number) => void) => Promise<T>): Promise<T> {
  if (opened === undefined) throw new Error("no show is open");
  const { live } = opened;
  let shown = false;
  try {
    return await work(live, (progress) => {
      shown = true;
      useShow.setState({ progress });
    });
  } finally {
    if (shown) useShow.setState({ progress: undefined });
  }
}
