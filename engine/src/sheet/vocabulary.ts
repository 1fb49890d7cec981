/**
 * The vocabulary of drawings: everything that is ever drawn, on screen or on paper, is a list of these
 * items in paper millimetres, x to the right and y down from the top left of the sheet. The app draws the
 * very items that the writers write. An item that shows a record carries the record's id.
 */
import type { Point } from "../plane/point.ts";

/** Line weights in mm at print size; fold is dashed. Names are a drafter's, see `PENS`. */
export type Pen = "wall" | "outline" | "fold" | "cut" | "dimension" | "grid" | "grid-heavy" | "bar";

export const PENS: {
  readonly [P in Pen]: { readonly weight: number; readonly dash?: readonly [number, number] };
} = {
  wall: { weight: 0.7 },
  outline: { weight: 0.35 },
  fold: { weight: 0.25, dash: [2, 1.2] },
  cut: { weight: 0.25 },
  dimension: { weight: 0.18 },
  grid: { weight: 0.1 },
  "grid-heavy": { weight: 0.18 },
  bar: { weight: 0.5 },
};

/** Inks by name; the screen maps them to tokens of the day or night look, paper to `INKS`. */
export type Ink =
  | "graphite"
  | "graphite-soft"
  | "grid"
  | "grid-heavy"
  | "card"
  | "card-edge"
  | "tape"
  | "red"
  | "ochre"
  | "moss"
  | "sheet";

export const INKS: { readonly [I in Ink]: string } = {
  graphite: "#28282B",
  "graphite-soft": "#65625C",
  grid: "#C9DCE6",
  "grid-heavy": "#9DBFCF",
  card: "#D8BE98",
  "card-edge": "#9B7B4F",
  tape: "#1C66A6",
  red: "#B3261E",
  ochre: "#855400",
  moss: "#2C6B45",
  sheet: "#FCFBF7",
};

/** A fill: an ink laid thin (`tint`, 0 to 1), or a hatch of parallel lines (degrees, mm apart). */
export interface Fill {
  readonly ink: Ink;
  readonly tint?: number;
  readonly hatch?: { readonly turn: number; readonly apart: number };
}

interface Shown {
  /** Id of the record this item shows. */
  readonly record?: string;
  /** What the item is of that record, where one record has several: "swing", "front", "label". */
  readonly part?: string;
}

export interface Stroke extends Shown {
  readonly kind: "stroke";
  /** At least two points. */
  readonly points: readonly Point[];
  readonly closed?: boolean;
  readonly pen: Pen;
  readonly ink?: Ink;
  readonly fill?: Fill;
}

export interface Circle extends Shown {
  readonly kind: "circle";
  readonly centre: Point;
  readonly radius: number;
  readonly pen: Pen;
  readonly ink?: Ink;
  readonly fill?: Fill;
}

/** A circular arc from one angle to another, degrees counterclockwise from +x as seen on the sheet (y down). */
export interface Arc extends Shown {
  readonly kind: "arc";
  readonly centre: Point;
  readonly radius: number;
  readonly from: number;
  readonly to: number;
  readonly pen: Pen;
  readonly ink?: Ink;
}

export type Face = "sans" | "sans-bold" | "mono";

export interface Lettering extends Shown {
  readonly kind: "lettering";
  /** The baseline point. */
  readonly at: Point;
  readonly text: string;
  /** Type size (em) in mm. */
  readonly size: number;
  readonly face: Face;
  readonly ink?: Ink;
  readonly align?: "start" | "middle" | "end";
  /** Degrees counterclockwise as read on the sheet. */
  readonly turn?: number;
}

export type Item = Stroke | Circle | Arc | Lettering;

/** A stretch of paper that stands for a real length: what tests and people measure. */
export interface KnownLength {
  readonly name: string;
  readonly from: Point;
  readonly to: Point;
  /** Real length in mm; paper length is this over the scale. */
  readonly real: number;
  /** n of 1:n where it is not the sheet's; a check bar's is 1. */
  readonly scale?: number;
}

/**
 * Where a piece of the room lies on the sheet. For a plan, paper = origin + (x, -y) / scale with x and y in
 * room axes; for the elevation of a wall, x runs along the wall from its left end as seen from inside and y
 * is the height above the floor.
 */
export interface Frame {
  readonly room: string;
  /** Wall id for an elevation, absent for the plan. */
  readonly wall?: string;
  readonly origin: Point;
  /** n of 1:n. */
  readonly scale: number;
}

/** One page. Sizes in mm. `scale` is n of 1:n, absent where nothing is to scale. */
export interface Sheet {
  readonly id: string;
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly scale?: number;
  readonly items: readonly Item[];
  /** At least the check bars; on drawings also named dimensions. */
  readonly known: readonly KnownLength[];
  readonly frames: readonly Frame[];
}

/** What every sheet prints about itself; the caller brings the date, the engine has no clock. */
export interface Stamp {
  readonly show: string;
  /** Already formatted for the reader: "25 Nov 2026". */
  readonly date: string;
  readonly state: string;
}

/** What the 2 in bar measured on the person's printer, as a factor for the next print: wanted over measured. */
export interface PrintCorrection {
  readonly across: number;
  readonly down: number;
}

/** A printer that needs no correction. */
export const TRUE_PRINTER: PrintCorrection = { across: 1, down: 1 };
