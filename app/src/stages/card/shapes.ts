/**
 * The faces the engine gives as triangles and lines in the scene's axes: flat faces with their holes, the lines round
 * them, and where a wall has its foot. A side at which a surface goes on nearly straight gets no line, so that a post
 * is seen round and not as the staves it is reckoned with.
 */
import type { SpaceFace, SpacePoint } from "@cornerwise/engine";
import { BufferGeometry, Shape, ShapeGeometry, Vector2, Vector3 } from "three";

/** Room axes (x right, y up the plan, z up) to the scene's: y up, and towards the eye what lies lower on the plan. */
export function toSpace({ x, y, z }: SpacePoint): Vector3 {
  return new Vector3(x, z, -y);
}

function normalOf(ring: readonly SpacePoint[]): Vector3 {
  const normal = new Vector3();
  const points = ring.map(toSpace);
  for (const [index, point] of points.entries()) {
    const next = points[(index + 1) % points.length]!;
    normal.x += (point.y - next.y) * (point.z + next.z);
    normal.y += (point.z - next.z) * (point.x + next.x);
    normal.z += (point.x - next.x) * (point.y + next.y);
  }
  return normal.normalize();
}

/** A face with its holes as triangles, moved off its plane by so much towards the side it is seen from. */
export function flatGeometry(face: SpaceFace, off: number): BufferGeometry {
  const normal = normalOf(face.ring);
  const origin = toSpace(face.ring[0]!);
  const right = firstAcross(face.ring, normal);
  const up = normal.clone().cross(right);
  const flat = (points: readonly SpacePoint[]) =>
    points.map((point) => {
      const from = toSpace(point).sub(origin);
      return new Vector2(from.dot(right), from.dot(up));
    });
  const shape = new Shape(flat(face.ring));
  shape.holes = face.holes.map((hole) => new Shape(flat(hole)));
  const geometry = new ShapeGeometry(shape);
  const place = geometry.getAttribute("position");
  for (let index = 0; index < place.count; index++) {
    const at = origin
      .clone()
      .addScaledVector(right, place.getX(index))
      .addScaledVector(up, place.getY(index))
      .addScaledVector(normal, off);
    place.setXYZ(index, at.x, at.y, at.z);
  }
  geometry.computeVertexNormals();
  return geometry;
}

/** Sides that meet at less than this are one round face, and no line is drawn between them, degrees. */
const ROUND = 30;

function sidesOf({ ring, holes }: SpaceFace): readonly (readonly [SpacePoint, SpacePoint])[] {
  return [ring, ...holes].flatMap((points) =>
    points.map((point, index) => [point, points[(index + 1) % points.length]!] as const),
  );
}

/** One name for a side of a record's face, whichever way round it is walked. */
function sideKey(face: SpaceFace, [a, b]: readonly [SpacePoint, SpacePoint]): string {
  return `${face.record} ${[pointKey(a), pointKey(b)].toSorted().join(" ")}`;
}

function pointKey({ x, y, z }: SpacePoint): string {
  return `${x.toFixed(1)} ${y.toFixed(1)} ${z.toFixed(1)}`;
}

/** The sides at which a record's surface goes on without a bend: a post is drawn round. */
export function softEdges(faces: readonly SpaceFace[]): ReadonlySet<string> {
  const first = new Map<string, Vector3>();
  const soft = new Set<string>();
  const bend = Math.cos((ROUND * Math.PI) / 180);
  for (const face of faces) {
    if (face.of !== "piece" && face.of !== "fitting" && face.of !== "venue") continue;
    const normal = normalOf(face.ring);
    for (const side of sidesOf(face)) {
      const key = sideKey(face, side);
      const other = first.get(key);
      if (other === undefined) first.set(key, normal);
      else if (other.dot(normal) > bend) soft.add(key);
    }
  }
  return soft;
}

/** The lines round a face and its holes, off its plane as the face is. */
export function edgeGeometry(face: SpaceFace, off: number, soft: ReadonlySet<string>): BufferGeometry {
  const normal = normalOf(face.ring);
  const ends = sidesOf(face)
    .filter((side) => !soft.has(sideKey(face, side)))
    .flatMap((side) => side.map((point) => toSpace(point).addScaledVector(normal, off)));
  return new BufferGeometry().setFromPoints(ends);
}

/** A direction in the face's plane: along its first side that has a length. */
function firstAcross(ring: readonly SpacePoint[], normal: Vector3): Vector3 {
  const from = toSpace(ring[0]!);
  for (const point of ring.slice(1)) {
    const along = toSpace(point).sub(from);
    if (along.length() > 1e-6) return along.addScaledVector(normal, -along.dot(normal)).normalize();
  }
  return new Vector3(1, 0, 0);
}

/** The two ends of a wall's foot: of the points on the floor the two furthest apart, for a door cuts the foot in two. */
export function footOf({ ring }: SpaceFace): readonly [SpacePoint, SpacePoint] | undefined {
  const floor = Math.min(...ring.map((point) => point.z));
  const low = ring.filter((point) => point.z < floor + 1);
  const [any] = low;
  if (!any) return undefined;
  const from = furthest(low, any);
  const to = furthest(low, from);
  return from === to ? undefined : [from, to];
}

function furthest(points: readonly SpacePoint[], from: SpacePoint): SpacePoint {
  const away = ({ x, y }: SpacePoint) => Math.hypot(x - from.x, y - from.y);
  return points.reduce((best, point) => (away(point) > away(best) ? point : best), from);
}

/** Which way round its foot a wall falls outwards. */
export function outwardSign(wall: SpaceFace, across: Vector3): number {
  return normalOf(wall.ring).dot(across) > 0 ? -1 : 1;
}

/** The mean of some points, in the scene's axes; the origin where there are none. */
export function middleOf(points: readonly SpacePoint[]): Vector3 {
  const sum = new Vector3();
  for (const point of points) sum.add(toSpace(point));
  return sum.divideScalar(Math.max(1, points.length));
}

/** How far a point lies from a wall: off its plane, and past its ends. */
export function awayFrom(wall: SpaceFace, point: Vector3): number {
  const foot = footOf(wall);
  if (!foot) return Infinity;
  const [from, to] = foot;
  const start = toSpace(from);
  const along = toSpace(to).sub(start);
  const length = along.length();
  along.normalize();
  const at = point.clone().sub(start);
  const past = Math.max(0, -at.dot(along), at.dot(along) - length);
  return Math.abs(at.dot(normalOf(wall.ring))) + past;
}
