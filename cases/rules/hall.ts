/** The plain room that rule fixtures begin with: 6 m by 5 m, square and 3 m high, measured to the hundredth of a millimetre. */

/** The show and its units, before a room is named. */
export const SHOW = `show Small show
units mm
place US
zone America/Chicago
currency USD`;

/** Four corners, four walls, both diagonals. */
export const FLOOR = `room Hall
corners A B C D
A-B 6000 mm
B-C 5000 mm
C-D 6000 mm
D-A 5000 mm
A-C 7810.25 mm
B-D 7810.25 mm`;

/** The four heights. */
export const HEIGHTS = `height A 3000 mm
height B 3000 mm
height C 3000 mm
height D 3000 mm`;

/** The show with its room, then these lines. */
export function hall(...lines: readonly string[]): string {
  return [SHOW, FLOOR, HEIGHTS, ...lines].join("\n");
}

/** The same with a stock named before the room. */
export function hallWith(stock: string, ...lines: readonly string[]): string {
  return [SHOW, stock, FLOOR, HEIGHTS, ...lines].join("\n");
}
