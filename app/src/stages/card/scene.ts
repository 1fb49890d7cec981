/**
 * The card model in three dimensions: paper-white faces with kraft edges on a table, soft light, nothing that
 * pretends to be a photograph. The engine gives the faces; here they are only shown. This file and the 3-D library
 * behind it load when the card model is first looked at.
 */
import type { SpaceFace, ViewFrom } from "@cornerwise/engine";
import {
  AmbientLight,
  Box3,
  type BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  FrontSide,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Raycaster,
  Scene,
  Spherical,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";
import {
  awayFrom,
  edgeGeometry,
  flatGeometry,
  footOf,
  middleOf,
  outwardSign,
  softEdges,
  toSpace,
} from "./shapes.ts";

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
  /** Lays one wall out, or stands it up: 0 upright, 1 flat on the table; over the table all of it stays in view. */
  lay(wall: string, flat: number): void;
  /** Turns the model by so many degrees, leftward and upward, as a finger would. */
  turn(left: number, up: number): void;
  /** Comes nearer or goes back: twice as near is 2. */
  near(times: number): void;
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

/** From where the model is seen over the table: a little to the right, well above. */
const OVER_THE_TABLE = new Vector3(0.25, 0.95, 0.85).normalize();
/** How much of the table is seen round the model: a tenth. */
const ROUND_IT = 1.1;

/** Things that move with the wall they are on when it is laid out. */
const WITH_WALLS: ReadonlySet<Kind> = new Set<Kind>(["wall", "glass", "strip", "trim", "fitting"]);

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
  #soft: ReadonlySet<string> = new Set();
  #waiting = false;
  /** Where it is looked at from: over the table, or from somebody's eye; nothing before the first faces. */
  #from: "table" | "eye" | undefined;
  /** Whether the person has turned it since: then it is left as it lies. */
  #turned = false;

  constructor(canvas: HTMLCanvasElement, look: CardLook) {
    this.#canvas = canvas;
    this.#look = look;
    this.#renderer = new WebGLRenderer({ canvas, antialias: true });
    this.#renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
    this.#controls = new OrbitControls(this.#camera, canvas);
    this.#controls.addEventListener("change", () => this.#drawSoon());
    this.#controls.addEventListener("start", () => {
      this.#turned = true;
    });
    canvas.addEventListener("webglcontextrestored", this.#drawAgain);
    const sun = new DirectionalLight(0xffffff, 1.2);
    sun.position.set(0.5, 1, 0.35);
    this.#scene.add(new AmbientLight(0xffffff, 2.1), sun, this.#world);
    this.dress(look);
    this.resize();
  }

  show(faces: readonly SpaceFace[]): void {
    this.#faces = faces;
    this.#build();
    if (this.#from === undefined || (this.#from === "table" && !this.#turned)) this.lookFrom(undefined);
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
    if (this.#from === "table") this.#standBack(this.#turned ? "no nearer" : "to fit");
    this.#drawSoon();
  }

  turn(left: number, up: number): void {
    this.#turned = true;
    const { position } = this.#camera;
    const { target, maxPolarAngle } = this.#controls;
    const arm = new Spherical().setFromVector3(position.clone().sub(target));
    const by = { across: (left * Math.PI) / 180, down: (up * Math.PI) / 180 };
    if (this.#from === "eye") {
      // From within it is the head that turns, and the eye stays where it is.
      arm.theta -= by.across;
      arm.phi = Math.max(0.3, Math.min(maxPolarAngle, arm.phi + by.down));
      target.copy(position).sub(new Vector3().setFromSpherical(arm));
    } else {
      arm.theta += by.across;
      arm.phi = Math.max(0.05, Math.min(maxPolarAngle, arm.phi - by.down));
      position.copy(target).add(new Vector3().setFromSpherical(arm));
    }
    this.#controls.update();
    this.#drawSoon();
  }

  near(times: number): void {
    this.#turned = true;
    if (this.#from === "eye") {
      this.#camera.fov = Math.max(20, Math.min(80, this.#camera.fov / times));
      this.#camera.updateProjectionMatrix();
    } else {
      const { position } = this.#camera;
      position.sub(this.#controls.target).divideScalar(times).add(this.#controls.target);
      this.#controls.update();
    }
    this.#drawSoon();
  }

  lookFrom(view: ViewFrom | undefined): void {
    this.#turned = false;
    this.#from = view === undefined ? "table" : "eye";
    const inside = view !== undefined;
    this.#camera.fov = inside ? 62 : 38;
    this.#camera.updateProjectionMatrix();
    // From above nobody looks through the table; from within one looks up as well as down.
    this.#controls.maxPolarAngle = inside ? Math.PI * 0.92 : Math.PI / 2;
    this.#controls.enableZoom = !inside;
    this.#controls.enablePan = !inside;
    if (view === undefined) {
      this.#camera.position.copy(this.#controls.target).addScaledVector(OVER_THE_TABLE, 1000);
      this.#standBack("to fit");
    } else {
      const eye = toSpace(view.eye);
      const ahead = toSpace(view.toward).sub(eye).normalize();
      // The eye turns about a point a hand's breadth before it, and so hardly leaves its place.
      this.#camera.position.copy(eye);
      this.#controls.target.copy(eye.clone().addScaledVector(ahead, 100));
    }
    this.#controls.update();
    this.#drawSoon();
  }

  /** Moves along the line of sight until every corner is on the canvas; "no nearer" only ever goes back. */
  #standBack(how: "to fit" | "no nearer"): void {
    const { target } = this.#controls;
    const corners = this.#corners();
    if (how === "to fit") {
      const middle = new Box3().setFromPoints(corners).getCenter(new Vector3());
      this.#camera.position.add(middle).sub(target);
      target.copy(middle);
    }
    const toEye = this.#camera.position.clone().sub(target).normalize();
    const right = new Vector3(0, 1, 0).cross(toEye).normalize();
    const up = toEye.clone().cross(right);
    const tall = Math.tan((this.#camera.fov * Math.PI) / 360);
    const wide = tall * this.#camera.aspect;
    let away = 500;
    for (const corner of corners) {
      const at = corner.sub(target);
      const across = Math.max(Math.abs(at.dot(right)) / wide, Math.abs(at.dot(up)) / tall);
      away = Math.max(away, at.dot(toEye) + across * ROUND_IT);
    }
    if (how === "no nearer" && this.#camera.position.distanceTo(target) >= away) return;
    this.#camera.position.copy(target).addScaledVector(toEye, away);
    this.#controls.update();
  }

  /** Every corner of every face where it is just now, walls as far laid out as they are. */
  #corners(): Vector3[] {
    this.#world.updateMatrixWorld(true);
    const found: Vector3[] = [];
    this.#world.traverse((object) => {
      if (!(object instanceof Mesh)) return;
      const place = (object.geometry as BufferGeometry).getAttribute("position");
      for (let index = 0; index < place.count; index++)
        found.push(new Vector3().fromBufferAttribute(place, index).applyMatrix4(object.matrixWorld));
    });
    return found.length > 0 ? found : [new Vector3()];
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
    if (this.#from === "table" && !this.#turned) this.#standBack("to fit");
    this.#drawSoon();
  }

  close(): void {
    this.#canvas.removeEventListener("webglcontextrestored", this.#drawAgain);
    this.#controls.dispose();
    discard(this.#world);
    this.#renderer.dispose();
    // A browser gives out only so many of these: it is handed back at once and not when memory is next tidied.
    this.#renderer.forceContextLoss();
  }

  readonly #drawAgain = (): void => this.#drawSoon();

  #build(): void {
    discard(this.#world);
    this.#scene.remove(this.#world);
    this.#world = new Group();
    this.#walls = new Map();
    this.#soft = softEdges(this.#faces);
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
    const foot = footOf(wall);
    if (!foot || this.#walls.has(wall.record)) return;
    const [from, to] = foot;
    const along = toSpace(to).sub(toSpace(from)).normalize();
    const group = new Group();
    group.matrixAutoUpdate = true;
    const across = new Vector3(0, 1, 0).cross(along).normalize();
    group.matrix.makeBasis(along, new Vector3(0, 1, 0), across);
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
      edgeGeometry(face, off, this.#soft),
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

function tip(group: Group, flat: number): void {
  const rest = group.userData["rest"] as Group["quaternion"];
  const sign = Number(group.userData["outward"]);
  group.quaternion.copy(rest);
  group.rotateX((sign * flat * Math.PI) / 2);
}

function discard(group: Group): void {
  group.traverse((object) => {
    if (!(object instanceof Mesh || object instanceof LineSegments)) return;
    (object.geometry as BufferGeometry).dispose();
    (object.material as MeshLambertMaterial | LineBasicMaterial).dispose();
  });
}
