/** What is under the hand just now on this device: what is touched, dragged or open. Never kept. */
import type { Placement, TableName } from "@cornerwise/engine";
import { create } from "zustand";

export type Touched =
  | { readonly kind: "corner"; readonly room: string; readonly id: string }
  | { readonly kind: "wall"; readonly room: string; readonly id: string }
  /** Two corners: a distance is being measured. */
  | { readonly kind: "pair"; readonly room: string; readonly from: string; readonly to: string }
  | { readonly kind: "placement"; readonly id: string }
  /** A record on one of a later stage's pages. */
  | { readonly kind: "record"; readonly table: TableName; readonly id: string }
  /** A snag's slip, by its place in the list. */
  | { readonly kind: "snag"; readonly index: number };

export type Sheetlet = "my-room" | "print" | "notes" | "add-piece" | "house-rules";

/** A placement under the finger, not yet dropped. */
export type Drag = Pick<Placement, "id" | "x" | "y" | "turn"> & { readonly holds?: string };

interface DeskState {
  readonly touched: Touched | undefined;
  readonly sheetlet: Sheetlet | undefined;
  readonly drag: Drag | undefined;
  /** A short word for the eye and the screen reader: "Undone: Move Bench 2". */
  readonly said: string;
  /** Screen pixels to one mm of paper, as the sheet lies just now. */
  readonly zoom: number;
  /** Which room lies on the table, by its place in the list. */
  readonly roomIndex: number;
}

export const useDeskState = create<DeskState>(() => ({
  touched: undefined,
  sheetlet: undefined,
  drag: undefined,
  said: "",
  zoom: 3,
  roomIndex: 0,
}));

/** Touches a thing, or nothing. */
export function touch(touched: Touched | undefined): void {
  useDeskState.setState({ touched });
}

/** What is touched just now, for a hand that does not draw by it. */
export function touchedNow(): Touched | undefined {
  return useDeskState.getState().touched;
}

/** Lays a paper over the table, or puts it away. */
export function openSheetlet(sheetlet: Sheetlet | undefined): void {
  useDeskState.setState({ sheetlet });
}

/** Holds a piece under the finger, or lets it go. */
export function dragTo(drag: Drag | undefined): void {
  useDeskState.setState({ drag });
}

export function dragNow(): Drag | undefined {
  return useDeskState.getState().drag;
}

/** Says a short word to the eye and the screen reader. */
export function say(said: string): void {
  useDeskState.setState({ said });
}

/** How near the sheet lies, px to the mm of paper. */
export function zoomTo(zoom: number): void {
  useDeskState.setState({ zoom });
}

/** Lays another room on the table. */
export function lookAtRoom(roomIndex: number): void {
  useDeskState.setState({ roomIndex });
}

let toTakeUp: string | undefined;

/** Touches a piece that is about to appear and gives it the keyboard as soon as it does. */
export function takeUp(id: string): void {
  toTakeUp = id;
  touch({ kind: "placement", id });
}

/** Whether a piece that has just appeared is the one to give the keyboard to; asks once. */
export function isTakenUp(id: string): boolean {
  if (toTakeUp !== id) return false;
  toTakeUp = undefined;
  return true;
}
