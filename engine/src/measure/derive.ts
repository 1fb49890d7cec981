/**
 * From what was said to the true room. All readings of a room are adjusted together by least squares (see
 * `settle.ts`), each is tested against the others (data snooping), and everything the corners give (walls,
 * angles, area, openings) carries the doubt of the readings. Sources: Ghilani, Adjustment Computations; Baarda,
 * A testing procedure for use in geodetic networks (1968).
 */
import { listed, type Room, type ShowDocument, type Wall } from "../document/tables.ts";
import { figureOf } from "../snags/catalogue.ts";
import { chiSquareCritical } from "../solve/chi-square.ts";
import { covarianceOf, deviationOf, freeEllipses, predictArea, type Covariance } from "./doubt.ts";
import type { Assumption, GlobalTest, TrueCorner, TrueRoom, TrueWall } from "./model.ts";
import { predictAngle, predictDistance, type Network, type Shape, type Tie } from "./network.ts";
import { crossings } from "./outline.ts";
import { placeFixtures, placeOpenings } from "./placed.ts";
import { gather, type Said } from "./said.ts";
import { settle, type Settled } from "./settle.ts";
import { testedReadings } from "./tested.ts";

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
    readings: testedReadings(said, settled),
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
  const said = new Map<string, Wall>(
    Object.values(document.walls).flatMap((wall) =>
      wall.room === room.id
        ? [[`${wall.from}~${wall.to}`, wall] as const, [`${wall.to}~${wall.from}`, wall] as const]
        : [],
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
      open: said.get(id)?.open ?? false,
      glass: said.get(id)?.glass ?? false,
      refused: said.get(id)?.refused ?? false,
      length: length.value,
      sdLength: deviationOf(covariance, length),
    };
  });
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
