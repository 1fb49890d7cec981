/**
 * What has to be made and bought: strips of wall covering, lengths of trim, panels and borders of floor coverings,
 * how they are cut from stock, what that costs and how long it takes. Lengths mm, angles degrees, money minor
 * units, time minutes. On a wall, x runs along it from its left end as seen from inside, y is the height above
 * the floor: the axes of its elevation. Every made thing has an id of its own, which stays while what made it
 * stays, and says in `because` which records call for it, most to the point first.
 */
import type { Covering, Stock, Trim, WallCovering } from "../document/tables.ts";
import type { Work } from "../document/works.ts";
import type { Point } from "../plane/point.ts";
import type { LengthPlan } from "../solve/lengths.ts";
import type { SheetPlan } from "../solve/sheets.ts";

export interface Making {
  /** One for each wall covering whose wall has a shape, in listed order. */
  readonly walls: readonly WallWork[];
  /** One for each wall that has a covering: all its coverings together. */
  readonly shares: readonly CoverShare[];
  readonly trims: readonly TrimWork[];
  readonly floors: readonly FloorWork[];
  /** Everything cut from sticks: trim, battens, parts of armatures; one list for each stock. */
  readonly cuts: readonly LengthCutting[];
  /** Everything cut from sheets; one for each stock. */
  readonly sheets: readonly SheetCutting[];
  readonly buying: readonly BuyingLine[];
  readonly hours: readonly HoursLine[];
  /** Person-minutes of all making. */
  readonly minutes: number;
  /** What the buying list comes to, minor units; `unpriced` lines of it have no price yet. */
  readonly price: number;
  readonly unpriced: number;
}

/** A wall covering on its true wall. */
export interface WallWork {
  readonly covering: WallCovering;
  readonly stock: Stock;
  /** "A-B"; the wall's id; the room's. */
  readonly name: string;
  readonly wall: string;
  readonly room: string;
  /** What is covered, before openings: left bottom, right bottom, then the top from right to left. */
  readonly outline: readonly Point[];
  /** Openings inside it, each with its corners; strips hang over them and are trimmed to the casing. */
  readonly holes: readonly { readonly opening: string; readonly outline: readonly Point[] }[];
  /** From left to right. Empty where the wall is refused, open or glass, or the lap is as wide as the roll. */
  readonly strips: readonly Strip[];
  /** Width of the first and of the last strip as hung, what is carried round a corner counted. */
  readonly ends: readonly [number, number];
  /** Rolls it takes and how many of its longest strip one gives; 0 where the roll is too short for it. */
  readonly rolls: number;
  readonly perRoll: number;
  /** Covered area with openings taken off, mm². */
  readonly area: number;
  /** Battens at its top and bottom, where it is held by battens. */
  readonly battens: readonly Run[];
}

/** One strip as it is cut and hung. */
export interface Strip {
  /** `${covering.id}~${number}`. */
  readonly id: string;
  /** 1 from the left. */
  readonly number: number;
  /** Its edges along the wall; the first may begin before 0 and the last end past the wall where they turn a corner. */
  readonly left: number;
  readonly right: number;
  /** Bottom edge, and top edges at its left and right, as hung and trimmed. */
  readonly low: number;
  readonly highLeft: number;
  readonly highRight: number;
  /** What is cut off the roll: its height, what is cut over, and up to whole repeats where it must match. */
  readonly length: number;
  /** How far down its pattern stands against the first strip's, 0 to less than a repeat. */
  readonly patternDrop: number;
  /** Openings and things of the venue's it is cut round, by record id. */
  readonly cutRound: readonly string[];
  readonly because: readonly string[];
}

export interface CoverShare {
  readonly wall: string;
  readonly name: string;
  readonly room: string;
  /** mm², openings taken off. */
  readonly wallArea: number;
  readonly covered: number;
  /** 0 to 1. */
  readonly share: number;
  /** Whether all of it is one with the wall by paste. */
  readonly pasted: boolean;
  /** Whether all of it passes a flame test by its maker's papers. */
  readonly flame: boolean;
  readonly because: readonly string[];
}

/** A straight length wanted along a wall, before it is cut to what a stick can give. */
export interface Run {
  /** `${record}~${wall}~${number}`. */
  readonly id: string;
  /** "Base A-B 1". */
  readonly name: string;
  readonly wall: string;
  readonly room: string;
  /** Along the wall from its left end, and the height of its underside. */
  readonly from: number;
  readonly to: number;
  readonly up: number;
  readonly length: number;
  /** Lengths it is cut in, left to right: one, or several that meet in scarfs. */
  readonly pieces: readonly CutPart[];
  readonly because: readonly string[];
}

/** A stretch of trim with what its two ends need. */
export interface TrimRun extends Run {
  readonly ends: readonly [TrimEnd, TrimEnd];
}

export interface TrimEnd {
  /** At a corner mitred inside or outside; square where it meets a casing, an open side or a projection. */
  readonly kind: "inside" | "outside" | "square";
  /** Corner id, for a corner. */
  readonly corner?: string;
  /** Inside angle of the room there, and its deviation; 180 for a square end. */
  readonly angle: number;
  readonly sdAngle: number;
  /** Saw settings, degrees from a square cut. Bevel is 0 for a trim that stands against the wall. */
  readonly mitre: number;
  readonly bevel: number;
}

export interface TrimWork {
  readonly trim: Trim;
  readonly stock?: Stock;
  readonly name: string;
  readonly runs: readonly TrimRun[];
  /** Of all runs. */
  readonly length: number;
}

/** A floor covering as field, border and panels. Its own axes: x along its width, y along its depth, from its middle. */
export interface FloorWork {
  readonly covering: Covering;
  readonly stock?: Stock;
  readonly room: string;
  readonly name: string;
  readonly field: { readonly width: number; readonly depth: number };
  readonly columns: number;
  readonly rows: number;
  readonly panels: readonly FloorPanel[];
  readonly border: readonly FloorPanel[];
  /** Length of the seams between panels. */
  readonly seams: number;
  /** Corner to corner, to lay it square by. */
  readonly diagonal: number;
}

export interface FloorPanel {
  /** `${covering.id}~${number}`, `${covering.id}~b${number}` for a border length. */
  readonly id: string;
  /** "Floor 3", "Floor border 2". */
  readonly name: string;
  readonly number: number;
  /** Left, bottom (nearest the covering's front) corner in the covering's axes. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly depth: number;
  readonly because: readonly string[];
}

/** A length to be cut from a stick. */
export interface CutPart {
  readonly id: string;
  readonly name: string;
  readonly length: number;
  readonly because: readonly string[];
}

export interface LengthCutting {
  /** Absent where nobody said what it is cut from. */
  readonly stock?: Stock;
  readonly name: string;
  readonly parts: readonly CutPart[];
  /** Absent without a stock. */
  readonly plan?: LengthPlan;
}

/** A rectangle to be cut from a sheet. */
export interface SheetPart {
  readonly id: string;
  readonly name: string;
  readonly width: number;
  readonly depth: number;
  readonly because: readonly string[];
}

export interface SheetCutting {
  readonly stock: Stock;
  readonly parts: readonly SheetPart[];
  readonly plan: SheetPlan;
}

export interface BuyingLine {
  /** The stock's id. */
  readonly id: string;
  readonly stock: Stock;
  readonly count: number;
  /** Whether fewer cannot do (solvers' bound met; rolls: counted). */
  readonly proven: boolean;
  readonly bound: number;
  /** The arithmetic in words: "9 strips of 10' 7", 4 from a roll". */
  readonly why: string;
  /** Minor units; absent where the stock has no price. */
  readonly price?: number;
  readonly because: readonly string[];
}

export interface HoursLine {
  readonly id: string;
  readonly work: Work;
  readonly name: string;
  readonly count: number;
  /** Person-minutes of one, and of all. */
  readonly each: number;
  readonly minutes: number;
  /** Whether the rate is the person's own; else it is ours, from memory. */
  readonly own: boolean;
  readonly because: readonly string[];
}
