/**
 * Starting shapes for rooms measured by their walls alone: every corner without an angle is taken as inner
 * (90 degrees) or outer (270), all ways of choosing that turn the walk once round are tried, walls nobody
 * measured take the length that closes the walk, and the ways that close best come first. What does not close
 * is shared out along the walls as the compass rule does. Closed form, no source needed beyond plane geometry.
 */
import type { Point } from "../plane/point.ts";
import type { Network } from "./network.ts";
import { isSimple, signedArea } from "./outline.ts";
import { distinct, usualSide, type StartingShape } from "./start.ts";

/** Ways of choosing looked at before the search stops: 16 corners have 8,008. */
const WAYS = 20_000;
/** How many starting shapes are handed on. */
const KEPT = 4;

/** Starting shapes by squares, best first; none where no choice of inner and outer corners turns once round. */
export function squareShapes(network: Network): readonly StartingShape[] {
  const { size } = network;
  const said = meanAngles(network);
  const free = said.flatMap((angle, corner) => (angle === undefined ? [corner] : []));
  const sum = said.reduce<number>((total, angle) => total + (angle ?? 0), 0);
  // 90 (free - outer) + 270 outer + said = 180 (size - 2).
  const outer = (180 * (size - 2) - sum - 90 * free.length) / 180;
  const count = Math.round(outer);
  if (free.length === 0 || count < 0 || count > free.length || Math.abs(outer - count) > 0.12) return [];
  const walls = wallLengths(network);
  const usual = usualSide(network.ties);
  const found: StartingShape[] = [];
  for (const chosen of choices(free, count, WAYS)) {
    const angles = said.map((angle, corner) => angle ?? (chosen.has(corner) ? 270 : 90));
    found.push(layOut(network, angles, walls, usual));
  }
  return distinct(found.toSorted((a, b) => a.misfit - b.misfit).slice(0, 4 * KEPT)).slice(0, KEPT);
}

function meanAngles({ size, ties }: Network): (number | undefined)[] {
  return Array.from({ length: size }, (_, corner) => {
    const values = ties.flatMap((tie) => (tie.kind === "angle" && tie.at === corner ? [tie.value] : []));
    return values.length === 0 ? undefined : values.reduce((a, b) => a + b, 0) / values.length;
  });
}

function wallLengths({ size, ties }: Network): (number | undefined)[] {
  return Array.from({ length: size }, (_, wall) => {
    const next = (wall + 1) % size;
    const values = ties.flatMap((tie) =>
      tie.kind === "distance" && tie.a === Math.min(wall, next) && tie.b === Math.max(wall, next)
        ? [tie.value]
        : [],
    );
    return values.length === 0 ? undefined : values.reduce((a, b) => a + b, 0) / values.length;
  });
}

/** Every subset of `count` of the items, in order, at most `limit` of them. */
function* choices(items: readonly number[], count: number, limit: number): Generator<ReadonlySet<number>> {
  const at = Array.from({ length: count }, (_, k) => k);
  for (let given = 0; given < limit; given++) {
    yield new Set(at.map((k) => items[k]!));
    let k = count - 1;
    while (k >= 0 && at[k] === items.length - count + k) k--;
    if (k < 0) return;
    at[k]!++;
    for (let rest = k + 1; rest < count; rest++) at[rest] = at[rest - 1]! + 1;
  }
}

function layOut(
  network: Network,
  angles: readonly number[],
  walls: readonly (number | undefined)[],
  usual: number,
): StartingShape {
  const directions = directionsOf(angles, network.turn);
  const lengths = closedLengths(directions, walls, usual);
  const end = walk(directions, lengths).at(-1)!;
  const round = lengths.reduce((sum, length) => sum + Math.abs(length), 0);
  let gone = 0;
  const shape = walk(directions, lengths)
    .slice(0, -1)
    .map(({ x, y }, corner) => {
      const share = gone / round;
      gone += Math.abs(lengths[corner]!);
      return { x: x - end.x * share, y: y - end.y * share };
    });
  return { shape, misfit: misfitOf(network, shape, { lengths, gap: Math.hypot(end.x, end.y), round }) };
}

function directionsOf(angles: readonly number[], turn: 1 | -1): readonly Point[] {
  let heading = 0;
  return angles.map((angle, corner) => {
    if (corner > 0) heading += (turn * (180 - angle) * Math.PI) / 180;
    return { x: Math.cos(heading), y: Math.sin(heading) };
  });
}

/** Unmeasured walls stretched from the usual side, as little as may be, so that the walk closes as well as it can. */
function closedLengths(
  directions: readonly Point[],
  walls: readonly (number | undefined)[],
  usual: number,
): number[] {
  const lengths = walls.map((wall) => wall ?? usual);
  const end = walk(directions, lengths).at(-1)!;
  let [xx, xy, yy] = [1e-9, 0, 1e-9];
  directions.forEach(({ x, y }, wall) => {
    if (walls[wall] !== undefined) return;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  });
  const determinant = xx * yy - xy * xy;
  const px = (yy * end.x - xy * end.y) / determinant;
  const py = (xx * end.y - xy * end.x) / determinant;
  return lengths.map((length, wall) => {
    if (walls[wall] !== undefined) return length;
    const { x, y } = directions[wall]!;
    // A tiny determinant leaves rounding in the direction no unmeasured wall has; nothing there to stretch.
    return length - x * px - y * py;
  });
}

function walk(directions: readonly Point[], lengths: readonly number[]): Point[] {
  const points: Point[] = [{ x: 0, y: 0 }];
  directions.forEach(({ x, y }, wall) => {
    const last = points.at(-1)!;
    points.push({ x: last.x + x * lengths[wall]!, y: last.y + y * lengths[wall]! });
  });
  return points;
}

interface Laid {
  readonly lengths: readonly number[];
  readonly gap: number;
  readonly round: number;
}

function misfitOf({ ties, turn }: Network, shape: readonly Point[], { lengths, gap, round }: Laid): number {
  // Square corners a degree off leave a gap of about 1 % of the way round.
  let sum = (gap / (20 + round * 0.002)) ** 2;
  for (const tie of ties) {
    if (tie.kind !== "distance") continue;
    const [a, b] = [shape[tie.a]!, shape[tie.b]!];
    const off = Math.hypot(a.x - b.x, a.y - b.y) - tie.value;
    sum += Math.min((off / (20 + tie.value * 0.01)) ** 2, 400);
  }
  if (lengths.some((length) => length < 50)) sum += 1000;
  if (turn * signedArea(shape) <= 0 || !isSimple(shape)) sum += 2000;
  return sum;
}
