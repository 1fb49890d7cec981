/**
 * From what was said to the true room. All readings of a room are adjusted together by least squares (see
 * `settle.ts`), each is tested against the others (data snooping), and everything the corners give (walls,
 * angles, area, openings) carries the doubt of the readings. Sources: Ghilani, Adjustment Computations; Baarda,
 * A testing procedure for use in geodetic networks (1968).
 */
import {
  listed,
  showOf,
  type Corner,
  type Reading,
  type Room,
  type ShowDocument,
} from "../document/tables.ts";
import { figureOf } from "../snags/catalogue.ts";
import { chiSquareCritical } from "../solve/chi-square.ts";
import { covarianceOf, deviationOf, freeEllipses, predictArea, type Covariance } from "./doubt.ts";
import { cornerHeights, type CornerHeight } from "./heights.ts";
import type { Assumption, GlobalTest, ReadingResult, TrueCorner, TrueRoom, TrueWall } from "./model.ts";
import {
  networkOf,
  predictAngle,
  predictDistance,
  sigmaOf,
  tieOf,
  type Network,
  type Shape,
  type Tie,
} from "./network.ts";
import { crossings } from "./outline.ts";
import { placeFixtures, placeOpenings } from "./placed.ts";
import { readingText } from "./reading-text.ts";
import { settle, type Settled } from "./settle.ts";

/** Every room of the show as its readings have it, in said order. Pure; never throws for what a person said. */
export function measureRooms(document: ShowDocument): readonly TrueRoom[] {
  return listed(document.rooms).map((room) => measureRoom(document, room));
}

/** One room of the document. With fewer than three corners it has no shape and its lists are empty. */
export function measureRoom(document: ShowDocument, room: Room): TrueRoom {
  const said = gather(document, room);
  if (said.corners.length < 3) return shapeless(said);
  const settled = settle(said.network);
  const covariance = covarianceOf(said.network.size, settled.solution.cofactor);
  const corners = trueCorners(said, settled.shape, covariance);
  const walls = trueWalls(said, settled.shape, covariance);
  const walled = { corners, walls, turn: said.network.turn };
  const area = predictArea(settled.shape);
  const crossed = crossings(settled.shape);
  const name = (corner: number): string => said.corners[corner]!.name;
  return {
    room,
    corners,
    walls,
    readings: suspected([...planResults(said, settled), ...heightResults(said)], said.readings),
    assumptions: settled.squares.map((square) => assumption(said, square)),
    openings: placeOpenings(
      walled,
      listed(document.openings).filter((one) => one.room === room.id),
    ),
    fixtures: placeFixtures(
      walled,
      listed(document.fixtures).filter((one) => one.room === room.id),
    ),
    covariance,
    settled: settled.floating.length === 0 && crossed.length === 0,
    floating: settled.floating.map(name),
    toFix: settled.toFix.map(([a, b]) => [said.corners[a]!.id, said.corners[b]!.id] as const),
    crossings: crossed,
    ...(settled.alternative ? { alternative: settled.alternative } : {}),
    area: area.value,
    sdArea: deviationOf(covariance, area),
    test: globalTest(said, settled),
    baseDepth: said.baseDepth,
  };
}

/** What the document says of one room. */
interface Said {
  readonly document: ShowDocument;
  readonly room: Room;
  readonly corners: readonly Corner[];
  readonly names: ReadonlyMap<string, string>;
  readonly readings: readonly Reading[];
  /** Readings that tie the plan, beside the network's ties and in their order. */
  readonly planned: readonly Reading[];
  readonly network: Network;
  readonly heights: readonly CornerHeight[];
  readonly baseDepth: number;
}

function gather(document: ShowDocument, room: Room): Said {
  const corners = listed(document.corners).filter((corner) => corner.room === room.id);
  const readings = listed(document.readings).filter((reading) => reading.room === room.id);
  const indexOf = new Map(corners.map(({ id }, index) => [id, index]));
  const tied = readings.flatMap((reading) => {
    const tie = tieOf(reading, indexOf);
    return tie ? [{ reading, tie }] : [];
  });
  // Sums depend on order in their last digits; the order of corners is the room's own, the order of notes is not.
  tied.sort((a, b) => compareTies(a.tie, b.tie));
  const trims = Object.values(document.trims).filter((trim) => trim.room === room.id && trim.kind === "base");
  return {
    document,
    room,
    corners,
    readings,
    names: new Map(corners.map(({ id, name }) => [id, name])),
    planned: tied.map(({ reading }) => reading),
    network: networkOf(
      room,
      corners,
      tied.map(({ tie }) => tie),
    ),
    heights: cornerHeights(corners, readings),
    baseDepth: Math.max(0, ...trims.map(({ depth }) => depth)),
  };
}

function compareTies(a: Tie, b: Tie): number {
  const [p, q] = [rankOf(a), rankOf(b)];
  return p[0] - q[0] || p[1] - q[1] || p[2] - q[2] || a.value - b.value || a.sigma - b.sigma;
}

function rankOf(tie: Tie): readonly [number, number, number] {
  if (tie.kind === "distance") return [0, tie.a, tie.b];
  return [1, tie.kind === "angle" ? tie.at : tie.coordinate, 0];
}

function shapeless({ room, corners, baseDepth }: Said): TrueRoom {
  return {
    room,
    corners: [],
    walls: [],
    readings: [],
    assumptions: [],
    openings: [],
    fixtures: [],
    covariance: [],
    settled: false,
    floating: corners.map(({ name }) => name),
    toFix: [],
    crossings: [],
    area: 0,
    sdArea: 0,
    test: { freedom: 0, sum: 0, critical: 0, passes: true },
    baseDepth,
  };
}

function trueCorners(said: Said, shape: Shape, covariance: Covariance): readonly TrueCorner[] {
  const ellipses = freeEllipses(shape, covariance);
  return said.corners.map(({ id, name }, corner) => {
    const angle = predictAngle(corner, shape, said.network.turn);
    const { height, sd, said: heightSaid } = said.heights[corner]!;
    return {
      id,
      name,
      ...shape[corner]!,
      sdX: Math.sqrt(covariance[2 * corner]![2 * corner]!),
      sdY: Math.sqrt(covariance[2 * corner + 1]![2 * corner + 1]!),
      ellipse: ellipses[corner]!,
      angle: angle.value,
      sdAngle: deviationOf(covariance, angle),
      height,
      sdHeight: sd,
      heightSaid,
    };
  });
}

function trueWalls(
  { document, room, corners }: Said,
  shape: Shape,
  covariance: Covariance,
): readonly TrueWall[] {
  const open = new Set(
    Object.values(document.walls).flatMap((wall) =>
      wall.open && wall.room === room.id ? [`${wall.from}~${wall.to}`, `${wall.to}~${wall.from}`] : [],
    ),
  );
  return corners.map((from, index) => {
    const next = (index + 1) % corners.length;
    const to = corners[next]!;
    const length = predictDistance(index, next, shape);
    const id = `${from.id}~${to.id}`;
    return {
      id,
      name: `${from.name}-${to.name}`,
      from: from.id,
      to: to.id,
      open: open.has(id),
      length: length.value,
      sdLength: deviationOf(covariance, length),
    };
  });
}

type Untested = Omit<ReadingResult, "suspect">;

function planResults({ planned, names, document }: Said, settled: Settled): Untested[] {
  const { units } = showOf(document);
  return planned.map((reading, row) => {
    const residual = settled.solution.residuals[row]!;
    const { sigma } = settled.ties[row]!;
    const text = readingText(reading, names, units);
    return tested({ reading, text, residual, sigma, redundancy: settled.solution.redundancy[row]! });
  });
}

/** Heights stand apart from the plan: each is controlled only by other readings in the same corner. */
function heightResults({ readings, corners, heights, names, document }: Said): Untested[] {
  const { units } = showOf(document);
  const indexOf = new Map(corners.map(({ id }, index) => [id, index]));
  return readings.flatMap((reading) => {
    const corner = indexOf.get(reading.from);
    if (reading.kind !== "height" || corner === undefined) return [];
    const { height, sd } = heights[corner]!;
    const sigma = sigmaOf(reading);
    const redundancy = Math.max(0, 1 - sd ** 2 / sigma ** 2);
    return [
      tested({
        reading,
        text: readingText(reading, names, units),
        residual: height - reading.value,
        sigma,
        redundancy,
      }),
    ];
  });
}

/** A reading is uncontrolled when the others leave it less than this: rounding, not evidence. */
const UNCONTROLLED = 1e-6;

function tested(one: Omit<Untested, "adjusted" | "standardised">): Untested {
  const controlled = one.redundancy > UNCONTROLLED;
  return {
    ...one,
    redundancy: controlled ? one.redundancy : 0,
    adjusted: one.reading.value + one.residual,
    standardised: controlled ? one.residual / (one.sigma * Math.sqrt(one.redundancy)) : 0,
  };
}

/**
 * Data snooping: of the readings whose standardised residual is beyond the critical value, the largest is
 * suspect, and with it all that share its size: among those the readings cannot tell. Back in said order.
 */
function suspected(results: readonly Untested[], order: readonly Reading[]): readonly ReadingResult[] {
  const critical = figureOf("reading-suspect", "critical", "");
  const largest = (plan: boolean): number =>
    Math.max(0, ...results.filter((one) => isPlan(one) === plan).map((one) => Math.abs(one.standardised)));
  const [plan, height] = [largest(true), largest(false)];
  const place = new Map(order.map(({ id }, index) => [id, index]));
  return results
    .map((one) => {
      const most = isPlan(one) ? plan : height;
      const size = Math.abs(one.standardised);
      return { ...one, suspect: size > critical && size >= most * (1 - 1e-6) };
    })
    .toSorted((a, b) => place.get(a.reading.id)! - place.get(b.reading.id)!);
}

function isPlan({ reading }: Untested): boolean {
  return reading.kind !== "height";
}

function assumption({ corners }: Said, { corner, angle }: Settled["squares"][number]): Assumption {
  const { id, name } = corners[corner]!;
  const how = angle === 180 ? "straight" : angle === 90 ? "square" : "square, turning out into the room";
  return { about: id, sentence: `Corner ${name} is taken as ${how}: nothing measured says otherwise.` };
}

function globalTest(said: Said, settled: Settled): GlobalTest {
  const { freedom, ties, solution } = settled;
  let sum = 0;
  ties.forEach(({ kind, sigma }, row) => {
    if (kind !== "hold") sum += (solution.residuals[row]! / sigma) ** 2;
  });
  const alpha = figureOf("readings-disagree", "alpha", "");
  // With nothing to spare any lengths close exactly, unless no room can have them (a side longer than the
  // others together): then the corners lie folded flat, which is one condition more than was counted.
  const critical = chiSquareCritical(alpha, Math.max(1, freedom));
  const closure = closureOf(said.network, settled);
  return {
    freedom,
    sum,
    critical,
    passes: sum <= critical,
    ...(closure === undefined ? {} : { closure }),
  };
}

/** See `GlobalTest.closure`. */
function closureOf({ size, turn, ties }: Network, { shape, squares }: Settled): number | undefined {
  const [x, y] = [0, 0];
  let [endX, endY, heading] = [x, y, 0];
  for (let corner = 0; corner < size; corner++) {
    const next = (corner + 1) % size;
    const length = mean(
      ties.filter(
        (tie) =>
          tie.kind === "distance" && tie.a === Math.min(corner, next) && tie.b === Math.max(corner, next),
      ),
    );
    if (length === undefined) return undefined;
    if (corner > 0) {
      const measured = mean(ties.filter((tie) => tie.kind === "angle" && tie.at === corner));
      const assumed = squares.find((square) => square.corner === corner)?.angle;
      const angle = measured ?? assumed ?? predictAngle(corner, shape, turn).value;
      heading += (turn * (180 - angle) * Math.PI) / 180;
    }
    endX += length * Math.cos(heading);
    endY += length * Math.sin(heading);
  }
  return Math.hypot(endX, endY);
}

function mean(ties: readonly Tie[]): number | undefined {
  return ties.length === 0 ? undefined : ties.reduce((sum, tie) => sum + tie.value, 0) / ties.length;
}
