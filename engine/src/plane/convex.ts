/**
 * A simple outline as few convex parts: ears are cut until triangles are left, then neighbours are joined again
 * wherever the joint stays convex. Sources: G. H. Meisters, Polygons have ears (1975); S. Hertel and
 * K. Mehlhorn (1983) for the joining, which leaves at most four times the fewest parts.
 */
import { counterclockwise } from "./outline.ts";
import type { Point } from "./point.ts";
import { side } from "./side.ts";

/**
 * Convex parts of a simple ring, counterclockwise, together exactly its area. A ring with no area gives none;
 * of a ring that crosses itself the parts that could be cut are given.
 */
export function convexParts(ring: readonly Point[]): readonly (readonly Point[])[] {
  const corners = withoutRepeats(counterclockwise(ring));
  if (corners.length < 3) return [];
  if (isConvex(corners)) return [corners];
  return joined(triangles(corners));
}

/** Whether a counterclockwise ring nowhere turns right and turns round only once. */
export function isConvex(ring: readonly Point[]): boolean {
  let turned = 0;
  for (let i = 0; i < ring.length; i++) {
    const [a, b, c] = [ring[i]!, ring[(i + 1) % ring.length]!, ring[(i + 2) % ring.length]!];
    if (side(a, b, c) < 0) return false;
    turned += Math.atan2(
      (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x),
      (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y),
    );
  }
  return turned < 3 * Math.PI;
}

function withoutRepeats(ring: readonly Point[]): readonly Point[] {
  return ring.filter((point, index) => {
    const before = ring[(index + ring.length - 1) % ring.length]!;
    return point.x !== before.x || point.y !== before.y;
  });
}

type Part = readonly Point[];

function triangles(ring: readonly Point[]): readonly Part[] {
  const left = [...ring];
  const cutOff: Part[] = [];
  while (left.length > 3) {
    const ear = left.findIndex((_, index) => isEar(left, index));
    if (ear < 0) return cutOff;
    const [a, b, c] = around(left, ear);
    if (side(a, b, c) > 0) cutOff.push([a, b, c]);
    left.splice(ear, 1);
  }
  const [a, b, c] = left as [Point, Point, Point];
  if (side(a, b, c) > 0) cutOff.push(left);
  return cutOff;
}

function around(ring: readonly Point[], index: number): [Point, Point, Point] {
  const count = ring.length;
  return [ring[(index + count - 1) % count]!, ring[index]!, ring[(index + 1) % count]!];
}

function isEar(ring: readonly Point[], index: number): boolean {
  const [a, b, c] = around(ring, index);
  const turn = side(a, b, c);
  if (turn < 0) return false;
  if (turn === 0) return true;
  return ring.every((point) => {
    if (samePlace(point, a) || samePlace(point, b) || samePlace(point, c)) return true;
    return side(a, b, point) < 0 || side(b, c, point) < 0 || side(c, a, point) < 0;
  });
}

function samePlace(p: Point, q: Point): boolean {
  return p.x === q.x && p.y === q.y;
}

function joined(parts: readonly Part[]): readonly Part[] {
  const list = [...parts];
  for (let i = 0; i < list.length; i++) {
    for (let j = i + 1; j < list.length; j++) {
      const both = jointOf(list[i]!, list[j]!);
      if (!both) continue;
      list[i] = both;
      list.splice(j, 1);
      // The grown part may now take neighbours that it could not before.
      j = i;
    }
  }
  return list;
}

/** Two parts that share a whole edge as one, where that one is convex. */
function jointOf(a: Part, b: Part): Part | undefined {
  for (let i = 0; i < a.length; i++) {
    const [from, to] = [a[i]!, a[(i + 1) % a.length]!];
    const j = b.findIndex((point, k) => samePlace(point, to) && samePlace(b[(k + 1) % b.length]!, from));
    if (j < 0) continue;
    const rest = Array.from({ length: b.length - 2 }, (_, k) => b[(j + 2 + k) % b.length]!);
    const both = [...a.slice(0, i + 1), ...rest, ...a.slice(i + 1)];
    return isConvex(both) ? both : undefined;
  }
  return undefined;
}
