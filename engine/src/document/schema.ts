/**
 * The show document: flat tables of small records keyed by id. It holds only what someone said, chose or
 * measured; nothing derived ever stands here. Lengths are millimetres, angles degrees, mass kilograms.
 *
 * This file is the one schema. Types, the reader, the JSON Schema and the table list all come from it.
 */
import { z } from "zod";
import { FIXTURE_KINDS } from "./kinds.ts";
import { INSTALL_WORKS, WORKS } from "./works.ts";

/** The newest file version this build writes. Older ones are carried forward by `versions.ts`. */
export const DOCUMENT_VERSION = 2;

/** The longest text that passes for a name, in UTF-16 code units. */
export const NAME_LIMIT = 200;

/** The longest length that can be said, in mm (10 km): beyond it a slip of the pen is certain. */
export const LENGTH_LIMIT = 10_000_000;

const id = z
  .string()
  .min(1)
  .max(96)
  .regex(/^[\p{L}\p{N}_.~-]+$/u, "an id is letters, digits, dot, dash, tilde and underscore")
  // Every object knows these words already, so a look-up by them would find something that is no record.
  .refine((said) => !(said in {}), "an id is no word of the language itself");
/** Control characters and direction overrides would let a name lie about what it says. */
const plain = /^[^\p{Cc}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]*$/u;
const name = z
  .string()
  .min(1)
  .max(NAME_LIMIT)
  .regex(plain, "a name holds no control characters and no direction overrides");
const text = z.string().max(2000).regex(plain, "text holds no control characters and no direction overrides");
const position = z.number().min(-LENGTH_LIMIT).max(LENGTH_LIMIT);
const length = z.number().min(0).max(LENGTH_LIMIT);
const size = z.number().gt(0).max(LENGTH_LIMIT);
const degrees = z.number().min(-360).max(360);
const order = z.number().int().min(0);
/** Money in minor units (cents) of the show's currency. */
const money = z.number().int().min(0).max(1_000_000_000);
const minutes = z.number().gt(0).max(1_000_000);
/** A time on the venue's own clock, to the minute: "2027-03-04T09:00". The show's zone says which clock. */
const localTime = z.iso.datetime({ local: true, precision: -1, offset: false });

const show = z.strictObject({
  id,
  name,
  /** What bare numbers mean and how lengths are printed. */
  units: z.enum(["ft-in", "in", "mm", "cm", "m"]),
  /** Whose house rules judge: ISO 3166-1 alpha-2, or "" while nobody has said. */
  place: z.enum(["", "US", "GB", "DE"]),
  /** The state of the plan in the person's words, printed on every sheet: "draft", "as agreed 3 March". */
  state: text,
  /** Side of one square of the person's grid paper, in mm on paper. */
  gridPitch: z.number().gt(0).max(100),
  /** What one square stands for, in mm in the room. */
  gridSquare: size,
  /** The venue's IANA time zone, "America/Chicago"; "" while nobody has said. */
  zone: z
    .string()
    .max(64)
    .regex(/^[A-Za-z0-9_+\-/]*$/, "a time zone is written like America/Chicago"),
  /** ISO 4217 code of every price; "" while nobody has said. */
  currency: z.string().regex(/^(?:[A-Z]{3})?$/, "a currency is three capitals, like USD"),
  /** What an hour of work costs, in minor units; 0 while nobody has said. */
  wage: money,
  /** Thickness of the board the card model is cut from, mm of board. */
  cardThickness: z.number().min(0).max(50),
  /** The day the doors open, ISO 8601. */
  opens: z.iso.date().exactOptional(),
});

const room = z.strictObject({
  id,
  name,
  order,
  /** Which way corners are named as one stands inside. */
  turn: z.enum(["clockwise", "counterclockwise"]),
  /** Whether visitors go in; else they look in from outside, through glass or over an open side. */
  entered: z.boolean(),
});

const corner = z.strictObject({
  id,
  room: id,
  name,
  order,
  /** Where a rough sketch put it (mm, room axes): a hint for the first shape, never a measurement. */
  sketchX: position.exactOptional(),
  sketchY: position.exactOptional(),
});

/** What was said of a side of the room; a side nobody spoke of is a plain wall. */
const wall = z.strictObject({
  id,
  room: id,
  from: id,
  to: id,
  /** An open side: no wall stands there (a curtain, the rest of a hall). */
  open: z.boolean(),
  /** A side of glass: nobody walks through it, nothing hangs on it, and it is looked through. */
  glass: z.boolean(),
  /** The venue lets nothing be put on this wall. */
  refused: z.boolean(),
});

const reading = z.strictObject({
  id,
  room: id,
  order,
  kind: z.enum(["distance", "angle", "height"]),
  /** Corner measured from; for an angle or a height, the corner itself. */
  from: id,
  /** Corner measured to; only for a distance. */
  to: id.exactOptional(),
  /** mm for distance and height; degrees inside the room for an angle. */
  value: z.number().gt(0).max(LENGTH_LIMIT),
  /** What was typed, kept as typed. */
  typed: text,
  instrument: z.enum(["tape", "laser", "drawing", "guess"]),
});

const opening = z.strictObject({
  id,
  room: id,
  name,
  order,
  kind: z.enum(["door", "window"]),
  /** The wall, by its corners in room order. */
  from: id,
  to: id,
  /** The corner the offset is measured from: `from` or `to`. */
  datum: id,
  /** From the datum corner to the near edge of the opening (leaf, not casing). */
  offset: length,
  /** Opening width; for a door the leaf. */
  width: size,
  height: size,
  /** Bottom above the floor. */
  sill: length,
  /** Free width of a door open at 90 degrees. */
  clear: size.exactOptional(),
  casing: length.exactOptional(),
  /** The corner on whose side the hinges are. */
  hinge: id.exactOptional(),
  opens: z.enum(["in", "out"]).exactOptional(),
  typed: text,
});

/** A thing of the venue's to keep clear. */
const fixture = z.strictObject({
  id,
  room: id,
  name,
  order,
  kind: z.enum(FIXTURE_KINDS),
  from: id,
  to: id,
  datum: id,
  /** From the datum corner to the near edge; to the centre where no width is said. */
  offset: length,
  /** From the wall face to its near side, square to the wall. */
  out: length,
  /** Bottom above the floor; for a sprinkler its deflector. */
  up: length,
  /** Along the wall; 0 where it was not said. */
  width: length,
  /** Square to the wall. */
  depth: length,
  /** 0 where it was not said; a projection or column of height 0 runs to the ceiling. */
  height: length,
  typed: text,
});

const LAYERS = ["furniture", "accessory", "fitting", "hung"] as const;

const piece = z.strictObject({
  id,
  name,
  order,
  layer: z.enum(LAYERS),
  /** How many there are. */
  count: z.number().int().min(1).max(100_000),
  /** Mass of one, kg. */
  weight: z.number().gt(0).max(100_000).exactOptional(),
  /** It invites sitting, meant or not. */
  sits: z.boolean(),
  /** Minutes it takes to make one, where somebody said. */
  minutes: minutes.exactOptional(),
});

/**
 * One solid of a piece, in the piece's own frame: origin on the floor in the middle of the piece, x to the
 * right and y to the back as one faces its front, so the front looks along -y.
 */
const solid = z.strictObject({
  id,
  piece: id,
  order,
  shape: z.enum(["box", "cylinder", "outline"]),
  /** Middle of the solid (for an outline: its origin). */
  x: position,
  y: position,
  /** Underside above the floor. */
  z: length,
  /** Counterclockwise seen from above. */
  turn: degrees,
  /** Box: x extent. Cylinder: diameter. Outline: its x extent, for the record. */
  width: size,
  /** Box: y extent. Cylinder: the same as the width. */
  depth: size,
  height: size,
  /** Outline only: at least three corners, [x, y] each, in order either way round. */
  outline: z
    .array(z.tuple([position, position]))
    .min(3)
    .max(200)
    .exactOptional(),
});

/** Lengths cut from a stock for one copy of a piece: its armature, or all there is of it. */
const part = z.strictObject({
  id,
  piece: id,
  order,
  stock: id,
  length: size,
  /** How many of this length one copy of the piece has. */
  count: z.number().int().min(1).max(10_000),
});

/**
 * One copy of a piece standing or hanging in a room, or on another copy. A copy with neither a placement nor a
 * mount waits in the tray.
 */
const placement = z.strictObject({
  id,
  piece: id,
  room: id,
  /** Which copy: 1 to the piece's count. */
  number: z.number().int().min(1).max(100_000),
  /** The piece's origin in room axes; on another copy, in the frame of that copy's piece. */
  x: position,
  y: position,
  /** Counterclockwise seen from above; at 0 the front looks along -y. On another copy, from that copy's turn. */
  turn: degrees,
  /** Underside above the floor, for what hangs; 0 for what stands, and for what stands on another copy. */
  up: length,
  /** The placement it stands on. */
  on: id.exactOptional(),
});

/** One copy of a piece fixed to a wall: its back to the wall, its front into the room. */
const mount = z.strictObject({
  id,
  piece: id,
  room: id,
  /** Which copy: 1 to the piece's count. */
  number: z.number().int().min(1).max(100_000),
  /** The wall, by its corners in room order. */
  from: id,
  to: id,
  /** The corner the offset is measured from: `from` or `to`. */
  datum: id,
  /** From the datum corner to its middle. */
  offset: length,
  /** Underside above the floor. */
  up: length,
});

const covering = z.strictObject({
  id,
  room: id,
  name,
  order,
  /** Its middle in room axes, and its turn. */
  x: position,
  y: position,
  turn: degrees,
  width: size,
  depth: size,
  thickness: length,
  border: length,
  /** Whether visitors may walk on it. */
  walkable: z.boolean(),
  /** The sheets its panels are cut from. */
  stock: id.exactOptional(),
  /** The largest panel anyone can carry, along its width and along its depth. */
  panelWidth: size.exactOptional(),
  panelDepth: size.exactOptional(),
});

const trim = z.strictObject({
  id,
  room: id,
  order,
  kind: z.enum(["base", "rail", "crown"]),
  height: size,
  /** How far it stands out from the wall. */
  depth: length,
  /** Underside above the floor; a crown's is taken from the ceiling and this is 0. */
  up: length,
  /** The sticks it is cut from. */
  stock: id.exactOptional(),
  /** A crown's spring angle: between its back and the wall. */
  spring: z.number().gt(0).lt(90).exactOptional(),
});

/** A material as it is bought: rolls, sticks or sheets of one size. */
const stock = z.strictObject({
  id,
  name,
  order,
  form: z.enum(["roll", "stick", "sheet"]),
  /** Of a roll its width, of a sheet its short side, of a stick its face. */
  width: size,
  /** Of one roll or stick; of a sheet its long side, along which its grain runs. */
  length: size,
  /** 0 where it was not said. */
  thickness: length,
  /** How often its pattern comes again along a roll; 0 for none. */
  repeat: length,
  /** How neighbouring strips match: freely, at the same height, or half a repeat lower each time. */
  match: z.enum(["free", "straight", "drop"]),
  /** What a cut eats: a saw's width, 0 for a knife. */
  kerf: length,
  /** Whether its grain forbids turning a part across it. */
  grained: z.boolean(),
  /** Whether its maker's papers say that it passes a flame test. */
  flame: z.boolean(),
  /** Price of one. */
  price: money.exactOptional(),
});

/** A covering of one wall by strips of a roll, side by side. */
const wallCovering = z.strictObject({
  id,
  room: id,
  order,
  name,
  /** The wall, by its corners in room order. */
  from: id,
  to: id,
  stock: id,
  /** How it is held; only paste makes it one with the wall. */
  fixing: z.enum(["pasted", "battens", "magnets", "pins", "panels"]),
  /** How far neighbouring strips lap; 0 for butted seams. */
  lap: length,
  /** Carried round each inside corner onto the next wall. */
  turn: length,
  /** Cut over the height, to be trimmed at top and bottom. */
  extra: length,
  /** Bottom above the floor. */
  low: length,
  /** Top above the floor; to the ceiling where it was not said. */
  high: size.exactOptional(),
  /** The sticks of the battens that hold it at top and bottom. */
  batten: id.exactOptional(),
  /** Minutes before anything may be fixed over it, where somebody said. */
  drying: minutes.exactOptional(),
});

/** Another artist's work in the same room, owed its view. */
const neighbour = z.strictObject({
  id,
  room: id,
  name,
  order,
  x: position,
  y: position,
  turn: degrees,
  width: size,
  depth: size,
  round: z.boolean(),
  height: size,
  /** What must be seen begins here above the floor (the top of its plinth). */
  low: length,
  /** The opening it must be seen from. */
  seenFrom: id.exactOptional(),
});

/** A stretch of hours in which the venue lets the crew in, on the venue's own clock. */
const shift = z.strictObject({
  id,
  order,
  start: localTime,
  end: localTime,
  /** How many people come. */
  people: z.number().int().min(0).max(1000),
});

/** The person's own figure for a kind of work, from her log: it stands before any figure of ours. */
const rate = z.strictObject({
  id,
  work: z.enum(WORKS),
  /** Minutes for one, with the people said. */
  minutes,
  people: z.number().int().min(1).max(100),
});

/** Work at install that no record calls for by itself: the lights, the labels. */
const chore = z.strictObject({
  id,
  room: id,
  order,
  name,
  /** It comes after all work of this kind. */
  after: z.enum(INSTALL_WORKS),
  minutes,
  people: z.number().int().min(1).max(100),
});

/** Something asked of the venue. */
const question = z.strictObject({
  id,
  order,
  text,
  /** "" while it is open. */
  answer: text,
});

const note = z.strictObject({ id, order, text });

/** Whose a table is. Each audience is a document of its own when it is kept live. */
export type Audience = "show" | "site" | "private";

/** Every table: its record schema and its audience, in the order files are written. */
export const TABLES = {
  shows: { record: show, audience: "show" },
  rooms: { record: room, audience: "show" },
  corners: { record: corner, audience: "show" },
  walls: { record: wall, audience: "show" },
  readings: { record: reading, audience: "show" },
  openings: { record: opening, audience: "show" },
  fixtures: { record: fixture, audience: "show" },
  pieces: { record: piece, audience: "show" },
  solids: { record: solid, audience: "show" },
  parts: { record: part, audience: "show" },
  placements: { record: placement, audience: "show" },
  mounts: { record: mount, audience: "show" },
  stocks: { record: stock, audience: "show" },
  coverings: { record: covering, audience: "show" },
  wallCoverings: { record: wallCovering, audience: "show" },
  trims: { record: trim, audience: "show" },
  neighbours: { record: neighbour, audience: "show" },
  shifts: { record: shift, audience: "show" },
  rates: { record: rate, audience: "show" },
  chores: { record: chore, audience: "show" },
  questions: { record: question, audience: "show" },
  notes: { record: note, audience: "show" },
  jottings: { record: note, audience: "private" },
} as const satisfies Record<string, { record: z.ZodType; audience: Audience }>;
