/**
 * Filling sheets room by room: the smallest free rectangle is taken up, and the part that lies best in it is sought,
 * rather than a room for the next part. A part that fills a side exactly goes before any other, which is
 * what finds layouts without waste. Where nothing fits, the rectangle is waste.
 */
import type { Laid, Placed, Shop } from "./sheets-fill.ts";

interface Room {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly depth: number;
}

/** Fills `most` sheets one after the other from the given kinds (one entry a part); `draw` gives numbers from 0 to 1 that vary the choice. */
export function roomByRoom(shop: Shop, parts: readonly number[], most: number, draw: () => number): Laid {
  const rest = parts.toSorted((a, b) => a - b);
  const sheets: Placed[][] = [];
  let steps = 0;
  while (sheets.length < most && rest.length > 0) {
    const sheet: Placed[] = [];
    const rooms: Room[] = [{ x: 0, y: 0, width: shop.width, depth: shop.depth }];
    for (let room = rooms.pop(); room && rest.length > 0; room = rooms.pop()) {
      steps += rest.length;
      const chosen = bestPart(shop, rest, room, draw);
      if (!chosen) continue;
      rest.splice(chosen.at, 1);
      sheet.push({ kind: chosen.kind, x: room.x, y: room.y, width: chosen.width, depth: chosen.depth });
      rooms.push(...remains(room, chosen, draw() < 0.5));
      rooms.sort((a, b) => b.width * b.depth - a.width * a.depth);
    }
    sheets.push(sheet);
  }
  return { sheets, rest, steps };
}

interface Chosen {
  readonly at: number;
  readonly kind: number;
  readonly width: number;
  readonly depth: number;
}

function bestPart(
  { kinds, turning }: Shop,
  rest: readonly number[],
  room: Room,
  draw: () => number,
): Chosen | undefined {
  let best: Chosen | undefined;
  let most = -1;
  const tried = (at: number, width: number, depth: number): void => {
    if (width > room.width || depth > room.depth) return;
    const exact = (width === room.width ? 1 : 0) + (depth === room.depth ? 1 : 0);
    const score = exact + ((width * depth) / (room.width * room.depth)) * (0.2 + 0.8 * draw());
    if (score > most) [best, most] = [{ at, kind: rest[at]!, width, depth }, score];
  };
  rest.forEach((kind, at) => {
    // Equal parts lie next to each other and need looking at once.
    if (at > 0 && rest[at - 1] === kind) return;
    const { width, depth } = kinds[kind]!;
    tried(at, width, depth);
    if (turning && width !== depth) tried(at, depth, width);
  });
  return best;
}

/** What a cut along the top of the part (`across`), or up its side, leaves of its room. */
function remains({ x, y, width, depth }: Room, part: Chosen, across: boolean): Room[] {
  const [right, above] = [width - part.width, depth - part.depth];
  const top = { x, y: y + part.depth, width: across ? width : part.width, depth: above };
  const side = { x: x + part.width, y, width: right, depth: across ? part.depth : depth };
  return [top, side].filter((room) => room.width > 0 && room.depth > 0);
}
