/** Rooms, rolls and coverings for tests of what hangs on walls. */
import type { Stock, WallCovering } from "../document/tables.ts";
import type { WallWork } from "../make/model.ts";
import { wallWorks } from "../make/walls.ts";
import type { TrueRoom } from "../measure/model.ts";
import { handMadeRoom } from "./hand-made.ts";

export const IN = 25.4;
export const FT = 12 * IN;

/** A roll of paper 36 in by 100 ft without a pattern, or as said. */
export const roll = (said: Partial<Stock> = {}): Stock => ({
  id: "roll",
  name: "Paper",
  order: 0,
  form: "roll",
  width: 36 * IN,
  length: 100 * FT,
  thickness: 0,
  repeat: 0,
  match: "free",
  kerf: 0,
  grained: false,
  flame: true,
  ...said,
});
const lath: Stock = {
  ...roll(),
  id: "lath",
  name: "Lath",
  form: "stick",
  width: 38,
  length: 2400,
  thickness: 19,
};
/** A covering of the first wall from that roll, from the floor to the ceiling, or as said. */
export const covering = (said: Partial<WallCovering> = {}): WallCovering => ({
  id: "cover",
  room: "room",
  order: 0,
  name: "Strips",
  from: "A",
  to: "B",
  stock: "roll",
  fixing: "pasted",
  lap: 0,
  turn: 0,
  extra: 0,
  low: 0,
  ...said,
});

/** What hangs in a room of coverings from one roll. */
export const worksIn = (room: TrueRoom, coverings: readonly WallCovering[], stock: Stock = roll()) =>
  wallWorks(
    {
      wallCoverings: Object.fromEntries(coverings.map((one) => [one.id, one])),
      stocks: { roll: stock, lath },
    },
    [room],
  );

/** A plain room so long, 4 m deep and so high, clockwise. */
export const box = (length: number, height: number, depth = 4000): TrueRoom =>
  handMadeRoom({
    corners: [
      { x: 0, y: 0, height },
      { x: length, y: 0, height },
      { x: length, y: -depth, height },
      { x: 0, y: -depth, height },
    ],
  });

/** The one work of a covering of the first wall. */
export const onWall = (
  length: number,
  height: number,
  said: Partial<WallCovering>,
  stock: Partial<Stock>,
): WallWork => {
  const [work] = worksIn(box(length, height), [covering(said)], roll(stock));
  if (!work) throw new Error(`no strips on a wall of ${length}`);
  return work;
};
