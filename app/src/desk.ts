/** What is under the hand just now on this device: what is touched, dragged or open. Never kept. */
import type { Placement } from "@cornerwise/engine";
import { create } from "zustand";

export type Touched =
  | { readonly kind: "corner"; readonly room: string; readonly id: string }
  | { readonly kind: "wall"; readonly room: string; readonly id: string }
  /** Two corners: a distance is being measured. */
  | { readonly kind: "pair"; readonly room: string; readonly from: string; readonly to: string }
  | { readonly kind: "placement"; readonly id: string }
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
  readonly touch: (touched: Touched | undefined) => void;
  readonly open: (sheetlet: Sheetlet | undefined) => void;
  readonly dragTo: (drag: Drag | undefined) => void;
  readonly say: (said: string) => void;
}

export const useDeskState = create<DeskState>((set) => ({
  touched: undefined,
  sheetlet: undefined,
  drag: undefined,
  said: "",
  zoom: 3,
  touch: (touched) => set({ touched }),
  open: (sheetlet) => set({ sheetlet }),
  dragTo: (drag) => set({ drag }),
  say: (said) => set({ said }),
}));
