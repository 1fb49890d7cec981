/**
 * From readings to one shape: start shapes are adjusted, the one that fits best with the right turn and a simple
 * outline is kept, and where the readings leave corners free, as few corners as will do are taken as square, at
 * the corners whose shape is nearest to it. What even that leaves free is held loosely and named.
 */
import type { Solution } from "../solve/least-squares.ts";
import { rankAt } from "../solve/least-squares.ts";
import {
  FITS_ALIKE,
  FLOAT_SIGMA,
  NEARLY_STRAIGHT,
  SAME_SHAPE,
  SQUARE_ALIKE,
  SQUARE_PULL,
  SQUARE_SIGMA,
} from "../tolerances.ts";
import { distancesToFix, floatingCorners, grip, held, orthonormal, type Movements } from "./loose.ts";
import {
  adjust,
  inParameters,
  predictAngle,
  problemOf,
  toDatum,
  type Network,
  type Shape,
  type Tie,
} from "./network.ts";
import { cross, isSimple, signedArea } from "./outline.ts";
import { squareShapes } from "./rectilinear.ts";
import { apart, distinct, startingShapes, type StartingShape } from "./start.ts";

/** A corner taken as 90, 180 or 270 degrees inside because nothing measured says otherwise. */
export interface Square {
  readonly corner: number;
  readonly angle: number;
}

export interface Settled {
  readonly shape: Shape;
  readonly solution: Solution;
  /** The network's ties first, in its order; then the squares and whatever holds floating corners. */
  readonly ties: readonly Tie[];
  /** Readings and squares less what they determine. */
  readonly freedom: number;
  readonly squares: readonly Square[];
  readonly floating: readonly number[];
  readonly toFix: readonly (readonly [number, number])[];
  readonly alternative: Shape | undefined;
}

/** Start shapes adjusted at most. */
const TRIED = 6;
/** A shape that crosses itself or turns the wrong way loses to any that does not. */
const IMPOSSIBLE = 1e9;
/** Readings that miss a shape by more than this a reading, in squared deviations, speak of another: a hundred deviations. */
const FAR_OFF = 1e4;
/** A measured triangle turns against the room when its height the wrong way exceeds this: mm. */
const REVERSED = 20;
/** A square corner must turn at least this much for a movement of one millimetre: degrees. */
const LEAST_PULL = 1e-4;
/** How much further from square a corner between measured walls may be and still be taken first: degrees. */
const UNSAID_WALL = 5;

interface Tried {
  readonly shape: Shape;
  readonly solution: Solution;
  readonly score: number;
}

/** The shape of a network of three corners or more, with all that had to be assumed. Never fails; see `floating`. */
export function settle(network: Network): Settled {
  const short = leavesFree(network);
  const tried = startsOf(network, short)
    .map((start) => tryStart(network, start, short))
    .toSorted((a, b) => a.score - b.score);
  const best = crossingFit(network, tried) ?? tried[0]!;
  const squares = short || best.solution.loose.length > 0 ? squaresFor(network, best.shape) : [];
  const down = short || squares.length > 0 ? heldDown(network, squares, best.shape) : asRead(network, best);
  // While corners float there are endless shapes; naming a second would say too little.
  const alternative = down.floating.length > 0 ? undefined : alternativeTo(network, tried, short);
  return { ...down, squares, alternative };
}

/**
 * The shape that crosses itself, where the readings fit it and none that does not: corners named in the wrong
 * order, said plainly, not a room pressed out of readings that all must be wrong.
 */
function crossingFit({ ties }: Network, tried: readonly Tried[]): Tried | undefined {
  if (tried[0]!.solution.sum < FAR_OFF * ties.length) return undefined;
  return tried.find(({ shape, solution }) => !isSimple(shape) && solution.sum <= FITS_ALIKE * ties.length);
}

/** Whether the readings leave something free whatever the shape: their rank for corners in no special place. */
function leavesFree(network: Network): boolean {
  // A fixed spiral with steps that do not repeat: no three corners in line, no sides alike.
  const spread = Array.from({ length: network.size }, (_, k) => {
    const radius = 3000 + 1700 * Math.sin(k * k * 1.7 + k);
    return { x: radius * Math.cos(k * 2.399963), y: radius * Math.sin(k * 2.399963) };
  });
  const parameters = parametersOf(spread);
  const { looseBeyond: _, ...problem } = problemOf(network, network.ties, parameters);
  return rankAt({ ...problem, rankTolerance: 1e-9 }, parameters).rank < parameters.length;
}

function movementsAt(network: Network, ties: readonly Tie[], shape: Shape): Movements {
  const parameters = parametersOf(shape);
  return orthonormal(rankAt(problemOf(network, ties, parameters), parameters).loose);
}

function startsOf(network: Network, short: boolean): readonly Shape[] {
  const grown = startingShapes(network);
  const starts = short ? [...squareShapes(network), ...grown.slice(0, TRIED / 2)] : promising(network, grown);
  const shapes = (short ? distinct(starts) : starts).map(({ shape }) => shape);
  return network.sketch ? [network.sketch, ...shapes] : shapes;
}

/** Starts that may win: all possible ones nearly as good as the best, or the best few where none is possible. */
function promising(network: Network, grown: readonly StartingShape[]): readonly StartingShape[] {
  const possible = grown.filter(({ shape }) => isPossible(network, shape));
  const pool = possible.length > 0 ? possible : grown;
  const enough = pool[0]!.misfit + 100;
  const near = pool
    .filter(({ misfit }) => misfit <= enough)
    .slice(0, possible.length > 0 ? TRIED / 2 : TRIED);
  const first = grown[0]!;
  // One that cannot be but misfits less is tried beside them: the readings may fit nothing else.
  return near.includes(first) ? near : [...near, first];
}

function isPossible({ turn }: Network, shape: Shape): boolean {
  return turn * signedArea(shape) > 0 && isSimple(shape);
}

function tryStart(network: Network, start: Shape, short: boolean): Tried {
  const ties = short ? [...network.ties, ...pulls(network, start)] : network.ties;
  const { shape, solution } = adjust(network, ties, start);
  const score = solution.sum + (isPossible(network, shape) ? 0 : IMPOSSIBLE) + outsideCost(network, shape);
  return { shape, solution, score };
}

/** Drawn to inner or outer squares only: a straight corner hardly ever stands where nobody measured it. */
function pulls(network: Network, shape: Shape): Tie[] {
  return shape.flatMap((_, corner) => {
    if (isSaid(network, corner)) return [];
    const inside = predictAngle(corner, shape, network.turn).value;
    return [squareTie(corner, inside < 180 ? 90 : 270, SQUARE_PULL)];
  });
}

function squareTie(corner: number, angle: number, sigma: number): Tie {
  return { kind: "angle", at: corner, value: angle, sigma };
}

function isSaid({ ties }: Network, corner: number): boolean {
  return ties.some((tie) => tie.kind === "angle" && tie.at === corner);
}

function nearestSquare({ turn }: Network, shape: Shape, corner: number): { angle: number; off: number } {
  const { value } = predictAngle(corner, shape, turn);
  if (Math.abs(value - 180) < NEARLY_STRAIGHT) return { angle: 180, off: Math.abs(value - 180) };
  const angle = value < 180 ? 90 : 270;
  return { angle, off: Math.abs(value - angle) };
}

/**
 * A tape lies inside the room, so a measured triangle turns as the room does; one that clearly does not costs.
 * The cost is less than what clear readings say, because some lines are measured through a doorway or glass.
 */
function outsideCost(network: Network, shape: Shape): number {
  return Math.min(reversedTriangles(network, shape), 5) * 100;
}

function reversedTriangles({ ties, turn, size }: Network, shape: Shape): number {
  const near = Array.from({ length: size }, () => new Set<number>());
  for (const tie of ties) if (tie.kind === "distance") near[tie.a]!.add(tie.b);
  let count = 0;
  near.forEach((ends, a) => {
    for (const b of ends) {
      for (const c of near[b]!) {
        if (!ends.has(c)) continue;
        const [p, q, r] = [shape[a]!, shape[b]!, shape[c]!];
        const longest = Math.max(
          Math.hypot(p.x - q.x, p.y - q.y),
          Math.hypot(q.x - r.x, q.y - r.y),
          Math.hypot(p.x - r.x, p.y - r.y),
        );
        if (turn * cross(p, q, r) < -REVERSED * longest) count++;
      }
    }
  });
  return count;
}

/** Another possible shape that fits about as well; a sketch settles which was meant. */
function alternativeTo(network: Network, tried: readonly Tried[], short: boolean): Shape | undefined {
  const best = tried[0]!;
  if (network.sketch || best.score >= IMPOSSIBLE) return undefined;
  const enough = best.score + FITS_ALIKE * (short ? (SQUARE_ALIKE / SQUARE_PULL) ** 2 : 1);
  return tried.find(({ score, shape }) => score <= enough && apart(shape, best.shape) > SAME_SHAPE)?.shape;
}

/** Squares enough to hold what the readings leave loose; asked again, because holding some may loosen others. */
function squaresFor(network: Network, shape: Shape): readonly Square[] {
  let squares: readonly Square[] = [];
  for (;;) {
    const movements = movementsAt(network, withSquares(network, squares), shape);
    const more = chooseSquares(network, shape, { movements, squares });
    if (more.length === 0) return squares;
    squares = [...squares, ...more].toSorted((a, b) => a.corner - b.corner);
  }
}

/**
 * As few corners as hold the movements. A corner is in question only where it grips them nearly as well as any;
 * of those the one nearest to square in the shape so far is taken, because it changes that shape least, and
 * one between two measured walls before others.
 */
function chooseSquares(
  network: Network,
  shape: Shape,
  { movements, squares }: { readonly movements: Movements; readonly squares: readonly Square[] },
): readonly Square[] {
  const chosen: Square[] = [];
  let left = movements;
  while (left.length > 0) {
    const open = shape.flatMap((_, corner) => {
      if (isSaid(network, corner) || [...squares, ...chosen].some((one) => one.corner === corner)) return [];
      const row = inParameters(predictAngle(corner, shape, network.turn));
      const { angle, off } = nearestSquare(network, shape, corner);
      const cost = Math.round(off * 100) / 100 + (betweenMeasured(network, corner) ? 0 : UNSAID_WALL);
      return [{ corner, angle, row, cost, pull: grip(left, row) }];
    });
    const most = Math.max(LEAST_PULL, ...open.map(({ pull }) => pull));
    const best = open
      .filter(({ pull }) => pull >= 0.2 * most)
      .toSorted((a, b) => a.cost - b.cost || a.corner - b.corner)[0];
    if (!best) break;
    chosen.push({ corner: best.corner, angle: best.angle });
    left = held(left, best.row);
  }
  return chosen;
}

function betweenMeasured({ ties, size }: Network, corner: number): boolean {
  return [(corner + 1) % size, (corner + size - 1) % size].every((side) =>
    ties.some(
      (tie) =>
        tie.kind === "distance" && tie.a === Math.min(corner, side) && tie.b === Math.max(corner, side),
    ),
  );
}

function withSquares(network: Network, squares: readonly Square[]): readonly Tie[] {
  return [...network.ties, ...squares.map(({ corner, angle }) => squareTie(corner, angle, SQUARE_SIGMA))];
}

type Down = Omit<Settled, "squares" | "alternative">;

function asRead({ ties }: Network, { shape, solution }: Tried): Down {
  return { shape, solution, ties, freedom: ties.length - solution.rank, floating: [], toFix: [] };
}

/** The shape with its squares; what they leave loose is held where it is drawn, so that every figure is finite. */
function heldDown(network: Network, squares: readonly Square[], start: Shape): Down {
  const ties = withSquares(network, squares);
  const first = adjust(network, ties, start);
  const freedom = ties.length - first.solution.rank;
  const movements = orthonormal(first.solution.loose);
  if (movements.length === 0) return { ...first, ties, freedom, floating: [], toFix: [] };
  const holds = first.shape.flatMap(({ x, y }, corner): Tie[] => [
    { kind: "hold", coordinate: 2 * corner, value: x, sigma: FLOAT_SIGMA },
    { kind: "hold", coordinate: 2 * corner + 1, value: y, sigma: FLOAT_SIGMA },
  ]);
  const all = [...ties, ...holds];
  return {
    ...adjust(network, all, first.shape),
    ties: all,
    freedom,
    floating: floatingCorners(movements, first.shape),
    toFix: distancesToFix(movements, first.shape),
  };
}

function parametersOf(shape: Shape): readonly number[] {
  return toDatum(shape).flatMap(({ x, y }, corner) => (corner === 0 ? [] : corner === 1 ? [x] : [x, y]));
}
