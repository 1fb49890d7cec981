/**
 * The card model in three dimensions: paper-white faces with kraft edges on a table, soft light, nothing that
 * pretends to be a photograph. The engine gives the faces; here they are only shown. This file and the 3-D library
 * behind it load when the card model is first looked at.
 */
import type { SpaceFace, SpacePoint, ViewFrom } from "@cornerwise/engine";
import {
  AmbientLight,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  EdgesGeometry,
  FrontSide,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Raycaster,
  Scene,
  Shape,
  ShapeGeometry,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";

/** Colours by name of the look, as the style sheet has them now. */
export interface CardLook {
  readonly table: string;
  readonly sheet: string;
  readonly card: string;
  readonly cardEdge: string;
  readonly graphite: string;
  readonly tape: string;
}

export interface CardScene {
  /** Shows other faces; walls keep how far they were laid. */
  show(faces: readonly SpaceFace[]): void;
  /** From above the table, or from where somebody stands. */
  lookFrom(view: ViewFrom | undefined): void;
  /** Lays one wall out, or stands it up: 0 upright, 1 flat on the table. */
  lay(wall: string, flat: number): void;
  /** The look of day or night. */
  dress(look: CardLook): void;
  /** The record of what lies under a point of the canvas, in its own pixels. */
  under(x: number, y: number): string | undefined;
  choose(record: string | undefined): void;
  resize(): void;
  close(): void;
}

type Kind = SpaceFace["of"];

/** How each kind of thing is shown: its colour, whether seen from behind, and how far before the wall, mm. */
const SHOWN: {
  readonly [K in Kind]: { readonly ink: keyof CardLook; readonly both: boolean; readonly off: number };
} = {
  floor: { ink: "sheet", both: true, off: 0 },
  wall: { ink: "sheet", both: false, off: 0 },
  glass: { ink: "tape", both: true, off: 0 },
  strip: { ink: "card", both: false, off: 3 },
  trim: { ink: "sheet", both: true, off: 0 },
  covering: { ink: "card", both: true, off: 0 },
  piece: { ink: "sheet", both: true, off: 0 },
  fitting: { ink: "sheet", both: true, off: 0 },
  venue: { ink: "card", both: true, off: 0 },
  neighbour: { ink: "cardEdge", both: true, off: 0 },
};

/** Things that move with the wall they are on when it is laid out. */
const WITH_WALLS: ReadonlySet<Kind> = new Set<Kind>(["wall", "glass", "strip", "trim"]);

export function createCardScene(canvas: HTMLCanvasElement, first: CardLook): CardScene {
  return new Card(canvas, first);
}

class Card implements CardScene {
  readonly #renderer: WebGLRenderer;
  readonly #scene = new Scene();
  readonly #camera = new PerspectiveCamera(38, 1, 20, 200_000);
  readonly #controls: OrbitControls;
  readonly #canvas: HTMLCanvasElement;
  readonly #flat = new Map<string, number>();
  #look: CardLook;
  #world = new Group();
  #faces: readonly SpaceFace[] = [];
  #walls = new Map<string, Group>();
  #chosen: string | undefined;
  #waiting = false;
  #looked = false;

  constructor(canvas: HTMLCanvasElement, look: CardLook) {
    this.#canvas = canvas;
    this.#look = look;
    this.#renderer = new WebGLRenderer({ canvas, antialias: true });
    this.#renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
    this.#controls = new OrbitControls(this.#camera, canvas);
    this.#controls.addEventListener("change", () => this.#drawSoon());
    this.#controls.maxPolarAngle = Math.PI / 2;
    const sun = new DirectionalLight(0xffffff, 1.7);
    sun.position.set(0.5, 1, 0.35);
    this.#scene.add(new AmbientLight(0xffffff, 1.7), sun, this.#world);
    this.dress(look);
    this.resize();
  }

  show(faces: readonly SpaceFace[]): void {
    this.#faces = faces;
    this.#build();
    if (!this.#looked) this.lookFrom(undefined);
  }

  dress(look: CardLook): void {
    this.#look = look;
    this.#scene.background = new Color(look.table);
    this.#build();
  }

  choose(record: string | undefined): void {
    if (record === this.#chosen) return;
    this.#chosen = record;
    this.#build();
  }

  lay(wall: string, flat: number): void {
    this.#flat.set(wall, flat);
    const group = this.#walls.get(wall);
    if (group) tip(group, flat);
    this.#drawSoon();
  }

  lookFrom(view: ViewFrom | undefined): void {
    this.#looked = true;
    const box = boundsOf(this.#faces);
    if (view === undefined) {
      const size = Math.max(box.size.x, box.size.z, 1000);
      this.#camera.fov = 38;
      this.#controls.target.set(box.middle.x, 0, box.middle.z);
      const away = size * Math.max(1.25, 1.6 / this.#camera.aspect);
      this.#camera.position.set(box.middle.x + away * 0.25, away * 0.95, box.middle.z + away * 0.85);
    } else {
      const eye = toSpace(view.eye);
      const ahead = toSpace(view.toward).sub(eye).normalize();
      // The eye turns about itself: the point turned about stands an arm's length before it.
      this.#camera.fov = 62;
      this.#camera.position.copy(eye);
      this.#controls.target.copy(eye.clone().addScaledVector(ahead, 400));
    }
    this.#camera.updateProjectionMatrix();
    this.#controls.update();
    this.#drawSoon();
  }

  under(x: number, y: number): string | undefined {
    const { clientWidth, clientHeight } = this.#canvas;
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((x / clientWidth) * 2 - 1, 1 - (y / clientHeight) * 2), this.#camera);
    const hit = ray.intersectObject(this.#world, true).find(({ object }) => object instanceof Mesh);
    const record: unknown = hit?.object.userData["record"];
    return typeof record === "string" ? record : undefined;
  }

  resize(): void {
    const { clientWidth, clientHeight } = this.#canvas;
    if (clientWidth === 0 || clientHeight === 0) return;
    this.#renderer.setSize(clientWidth, clientHeight, false);
    this.#camera.aspect = clientWidth / clientHeight;
    this.#camera.updateProjectionMatrix();
    this.#drawSoon();
  }

  close(): void {
    this.#controls.dispose();
    discard(this.#world);
    this.#renderer.dispose();
  }

  #build(): void {
    discard(this.#world);
    this.#scene.remove(this.#world);
    this.#world = new Group();
    this.#walls = new Map();
    const walls = this.#faces.filter((face) => face.of === "wall" || face.of === "glass");
    for (const wall of walls) this.#hinge(wall);
    for (const face of this.#faces) {
      const home = WITH_WALLS.has(face.of) ? this.#homeOf(face, walls) : undefined;
      const group = home === undefined ? undefined : this.#walls.get(home);
      const made = this.#made(face);
      if (!group) {
        this.#world.add(made);
        continue;
      }
      made.applyMatrix4(group.userData["undo"] as Group["matrix"]);
      group.add(made);
    }
    for (const [wall, group] of this.#walls) {
      this.#world.add(group);
      tip(group, this.#flat.get(wall) ?? 0);
    }
    this.#scene.add(this.#world);
    this.#drawSoon();
  }

  /** A group whose x axis lies along the wall's foot, about which it is laid out. */
  #hinge(wall: SpaceFace): void {
    const [from, to] = footOf(wall);
    if (!from || !to || this.#walls.has(wall.record)) return;
    const along = toSpace(to).sub(toSpace(from)).normalize();
    const group = new Group();
    group.matrixAutoUpdate = true;
    const across = new Vector3(0, 1, 0).cross(along).normalize();
    group.matrix.makeBasis(along, new Vector3(0, 1, 0), across.negate().negate());
    group.matrix.setPosition(toSpace(from));
    group.matrix.decompose(group.position, group.quaternion, group.scale);
    group.userData["undo"] = group.matrix.clone().invert();
    group.userData["rest"] = group.quaternion.clone();
    group.userData["outward"] = outwardSign(wall, across);
    this.#walls.set(wall.record, group);
  }

  /** The wall a strip or a trim goes with: the one whose plane it lies nearest to. */
  #homeOf(face: SpaceFace, walls: readonly SpaceFace[]): string | undefined {
    if (face.of === "wall" || face.of === "glass") return face.record;
    const middle = middleOf(face.ring);
    let best: string | undefined;
    let least = Infinity;
    for (const wall of walls) {
      const away = awayFrom(wall, middle);
      if (away < least) [least, best] = [away, wall.record];
    }
    return best;
  }

  #made(face: SpaceFace): Group {
    const { ink, both, off } = SHOWN[face.of];
    const group = new Group();
    const geometry = flatGeometry(face, off);
    const chosen = face.record === this.#chosen;
    const glass = face.of === "glass";
    const mesh = new Mesh(
      geometry,
      new MeshLambertMaterial({
        color: new Color(chosen ? this.#look.tape : this.#look[ink]),
        side: both ? DoubleSide : FrontSide,
        transparent: glass,
        opacity: glass ? 0.12 : 1,
        polygonOffset: true,
        polygonOffsetFactor: 1,
        polygonOffsetUnits: 1,
      }),
    );
    mesh.userData["record"] = face.record;
    const edges = new LineSegments(
      new EdgesGeometry(geometry, 1),
      new LineBasicMaterial({ color: new Color(chosen ? this.#look.tape : this.#look.cardEdge) }),
    );
    group.add(mesh, edges);
    return group;
  }

  #drawSoon(): void {
    if (this.#waiting) return;
    this.#waiting = true;
    requestAnimationFrame(() => {
      this.#waiting = false;
      this.#renderer.render(this.#scene, this.#camera);
    });
  }
}

/** Room axes (x right, y up the plan, z up) to the scene's: y up, and towards the eye what lies lower on the plan. */
function toSpace({ x, y, z }: SpacePoint): Vector3 {
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
function flatGeometry(face: SpaceFace, off: number): BufferGeometry {
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

/** A direction in the face's plane: along its first side that has a length. */
function firstAcross(ring: readonly SpacePoint[], normal: Vector3): Vector3 {
  const from = toSpace(ring[0]!);
  for (const point of ring.slice(1)) {
    const along = toSpace(point).sub(from);
    if (along.length() > 1e-6) return along.addScaledVector(normal, -along.dot(normal)).normalize();
  }
  return new Vector3(1, 0, 0);
}

/** The two lowest neighbouring points of a wall: its foot. */
function footOf(wall: SpaceFace): readonly (SpacePoint | undefined)[] {
  const low = wall.ring.toSorted((a, b) => a.z - b.z).slice(0, 2);
  const order = wall.ring.filter((point) => low.includes(point));
  return order;
}

/** Which way round its foot a wall falls outwards. */
function outwardSign(wall: SpaceFace, across: Vector3): number {
  return normalOf(wall.ring).dot(across) > 0 ? -1 : 1;
}

function tip(group: Group, flat: number): void {
  const rest = group.userData["rest"] as Group["quaternion"];
  const sign = Number(group.userData["outward"]);
  group.quaternion.copy(rest);
  group.rotateX((sign * flat * Math.PI) / 2);
}

function middleOf(points: readonly SpacePoint[]): Vector3 {
  const sum = new Vector3();
  for (const point of points) sum.add(toSpace(point));
  return sum.divideScalar(Math.max(1, points.length));
}

/** How far a point lies from a wall: off its plane, and past its ends. */
function awayFrom(wall: SpaceFace, point: Vector3): number {
  const [from, to] = footOf(wall);
  if (!from || !to) return Infinity;
  const start = toSpace(from);
  const along = toSpace(to).sub(start);
  const length = along.length();
  along.normalize();
  const at = point.clone().sub(start);
  const past = Math.max(0, -at.dot(along), at.dot(along) - length);
  return Math.abs(at.dot(normalOf(wall.ring))) + past;
}

function boundsOf(faces: readonly SpaceFace[]) {
  const points = faces.filter((face) => face.of === "floor").flatMap((face) => face.ring.map(toSpace));
  const xs = points.map((point) => point.x);
  const zs = points.map((point) => point.z);
  const [left, right] = [Math.min(0, ...xs), Math.max(0, ...xs)];
  const [near, far] = [Math.min(0, ...zs), Math.max(0, ...zs)];
  return {
    middle: new Vector3((left + right) / 2, 0, (near + far) / 2),
    size: new Vector3(right - left, 0, far - near),
  };
}

function discard(group: Group): void {
  group.traverse((object) => {
    if (!(object instanceof Mesh || object instanceof LineSegments)) return;
    (object.geometry as BufferGeometry).dispose();
    (object.material as MeshLambertMaterial | LineBasicMaterial).dispose();
  });
}
