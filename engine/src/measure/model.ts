/**
 * The true room: what the readings together say, with its doubt. Lengths mm, angles degrees. Axes: first
 * corner at the origin, first wall along +x, y up; a clockwise room lies at y < 0, a counterclockwise one
 * at y > 0. Deviations are relative to the first corner and the first wall (so the first corner's are 0).
 */
import type { Fixture, Opening, Reading, Room } from "../document/tables.ts";
import type { Point } from "../plane/point.ts";

export interface TrueRoom {
  readonly room: Room;
  /** In the order they are named. Fewer than three: the room has no shape yet and the lists below are empty. */
  readonly corners: readonly TrueCorner[];
  /** Side i runs from corner i to corner i + 1 (the last back to the first). */
  readonly walls: readonly TrueWall[];
  readonly readings: readonly ReadingResult[];
  readonly assumptions: readonly Assumption[];
  readonly openings: readonly TrueOpening[];
  readonly fixtures: readonly TrueFixture[];
  /** Covariance of (x1, y1, x2, y2, ...), mm², row by row, 2n by 2n. */
  readonly covariance: readonly (readonly number[])[];
  /** Whether every corner is fixed by readings and shown assumptions, and the outline is simple. */
  readonly settled: boolean;
  /** Names of corners that nothing fixes. */
  readonly floating: readonly string[];
  /** The shortest distances that would fix them, as pairs of corner ids; empty where nothing floats. */
  readonly toFix: readonly (readonly [string, string])[];
  /** Pairs of walls (by index) that meet elsewhere than at a shared corner. */
  readonly crossings: readonly (readonly [number, number])[];
  /** Another shape that fits about as well, in the same axes; not there where the readings fit one shape only. */
  readonly alternative?: readonly Point[];
  /** The floor as the corners give it, mm². */
  readonly area: number;
  readonly sdArea: number;
  readonly test: GlobalTest;
  /** Thickness of the base trim all round, 0 where there is none (mm). */
  readonly baseDepth: number;
}

export interface TrueCorner extends Point {
  readonly id: string;
  readonly name: string;
  readonly sdX: number;
  readonly sdY: number;
  /** 95 % ellipse of the free network (datum: inner constraints): half axes mm, turn of the major axis in degrees. */
  readonly ellipse: { readonly major: number; readonly minor: number; readonly turn: number };
  /** Inside angle, degrees, and its deviation. */
  readonly angle: number;
  readonly sdAngle: number;
  readonly height: number;
  readonly sdHeight: number;
  readonly heightSaid: boolean;
}

export interface TrueWall {
  /** `${from}~${to}` of corner ids, in room order. */
  readonly id: string;
  /** "A-B". */
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly open: boolean;
  /** A side of glass: a wall to walk against, looked through, and nothing hangs on it. */
  readonly glass: boolean;
  /** The venue lets nothing be put on it. */
  readonly refused: boolean;
  readonly length: number;
  readonly sdLength: number;
}

export interface ReadingResult {
  readonly reading: Reading;
  /** As the tape sheet writes it: "A to C 29' 2\"". */
  readonly text: string;
  /** mm or degrees. */
  readonly adjusted: number;
  /** Adjusted - measured. */
  readonly residual: number;
  /** A priori standard deviation. */
  readonly sigma: number;
  /** 0 to 1: how much the others control it. */
  readonly redundancy: number;
  /** residual / (sigma √redundancy); 0 where nothing controls it. */
  readonly standardised: number;
  readonly suspect: boolean;
}

export interface Assumption {
  /** Corner or wall id it speaks of. */
  readonly about: string;
  readonly sentence: string;
}

export interface GlobalTest {
  /** Distances and angles less unknowns (assumptions count as readings; heights stand apart). */
  readonly freedom: number;
  /** Sum of squared standardised misfits vᵀPv. */
  readonly sum: number;
  /** Upper critical value of chi-square; that of one degree where freedom is 0, since only lengths no room can have then misfit. */
  readonly critical: number;
  readonly passes: boolean;
  /**
   * How far from its start the walk ends when the walls are laid end to end: each as measured (mean of repeats),
   * turning at each corner by the angle measured or assumed there, and by the adjusted one where there is
   * neither. mm; not there while a side is unmeasured.
   */
  readonly closure?: number;
}

export interface TrueOpening {
  readonly opening: Opening;
  readonly wall: string;
  /** Near and far edge on the wall line, in the wall's direction. */
  readonly start: Point;
  readonly end: Point;
  /** Distance of start from the wall's first corner. */
  readonly along: number;
}

export interface TrueFixture {
  readonly fixture: Fixture;
  readonly wall: string;
  /** Footprint in room axes; one point where it has no width. */
  readonly footprint: readonly Point[];
  /** Distance of its near edge (or centre) from the wall's first corner. */
  readonly along: number;
  readonly low: number;
  readonly high: number;
}
