/** A point or vector in the plane, millimetres, y up. */
export interface Point {
  readonly x: number;
  readonly y: number;
}
