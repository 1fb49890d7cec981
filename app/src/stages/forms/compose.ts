/**
 * The commonest things, from the fields of a form to lines of the tape sheet. Every form says only what a person
 * could have typed; the lines themselves are what is kept. An empty field says nothing.
 */

/** A name as every line takes it, whatever stands in it. */
export function quoted(name: string): string {
  return `"${name.trim().replaceAll('"', '""')}"`;
}

/** What a material is taken from: one that is there, by name, or a new one with its size. */
export interface Source {
  readonly name: string;
  /** For a new one: how wide and how long it comes. */
  readonly bought?: { readonly width: string; readonly length: string };
}

export type Form = "roll" | "stick" | "sheet";

/** The line that names a new material; none for one that is there. */
export function stockLines(form: Form, { name, bought }: Source): readonly string[] {
  return bought ? [`stock ${quoted(name)}, ${form} ${bought.width.trim()} x ${bought.length.trim()}`] : [];
}

export const HELD = {
  pasted: "pasted",
  "on battens": "on battens, dry",
  "on magnets": "on magnets",
  "on pins": "on pins",
  "on panels": "on panels of your own",
} as const;

export interface Cover {
  /** "A-B". */
  readonly wall: string;
  readonly roll: Source;
  readonly held: keyof typeof HELD;
  readonly lap?: string;
  /** How high; to the ceiling where nothing is said. */
  readonly to?: string;
  readonly dries?: string;
}

/** `strips on A-B, from "Kraft 36", pasted, lap 1/2"`, after the roll where it is new. */
export function coverLines({ wall, roll, held, lap, to, dries }: Cover): string {
  const strips = [
    `strips on ${wall}`,
    `from ${quoted(roll.name)}`,
    held,
    ...clause("lap", lap),
    ...clause("to", to),
    ...clause("dries", dries),
  ].join(", ");
  return [...stockLines("roll", roll), strips].join("\n");
}

export const TRIMS = ["base", "rail", "crown"] as const;

export interface TrimSaid {
  readonly kind: (typeof TRIMS)[number];
  readonly height: string;
  readonly out: string;
  /** Underside of a rail above the floor. */
  readonly up?: string;
  /** Of a crown, degrees. */
  readonly spring?: string;
  readonly stick?: Source;
}

/** `trim rail 2 1/2" x 3/4", up 3' 6", from "Pine rail"`. */
export function trimLines({ kind, height, out, up, spring, stick }: TrimSaid): string {
  const trim = [
    `trim ${kind} ${height.trim()} x ${out.trim()}`,
    ...(kind === "rail" ? clause("up", up) : []),
    ...(kind === "crown" ? clause("spring", spring) : []),
    ...(stick ? [`from ${quoted(stick.name)}`] : []),
  ].join(", ");
  return [...(stick ? stockLines("stick", stick) : []), trim].join("\n");
}

export interface FloorSaid {
  readonly name: string;
  readonly width: string;
  readonly depth: string;
  readonly thick: string;
  /** Its middle: so far along the first wall, and so far into the room. */
  readonly along: string;
  readonly into: string;
  readonly border?: string;
  /** The largest panel anyone can carry, across and deep. */
  readonly panel?: { readonly width: string; readonly depth: string };
  readonly sheet?: Source;
  readonly walkable: boolean;
}

/** `covering "Floor", 12' x 6' x 3/16" thick, border 6", at 14' along, 9' in, panels to 51" x 34", from "Board"`. */
export function floorLines(said: FloorSaid): string {
  const { name, width, depth, thick, along, into, border, panel, sheet, walkable } = said;
  const covering = [
    `covering ${quoted(name)}`,
    `${width.trim()} x ${depth.trim()} x ${thick.trim()} thick`,
    ...clause("border", border),
    `at ${along.trim()} along`,
    `${into.trim()} in`,
    ...(panel && panel.width.trim() && panel.depth.trim()
      ? [`panels to ${panel.width.trim()} x ${panel.depth.trim()}`]
      : []),
    ...(sheet ? [`from ${quoted(sheet.name)}`] : []),
    ...(walkable ? ["walkable"] : []),
  ].join(", ");
  return [...(sheet ? stockLines("sheet", sheet) : []), covering].join("\n");
}

export interface HoursSaid {
  /** "2027-03-04", "09:00", "21:00". */
  readonly day: string;
  readonly from: string;
  readonly to: string;
  readonly people: string;
  /** IANA name, where the show has none yet. */
  readonly zone?: string;
}

/** `shift 2027-03-04 9:00 to 21:00, 3 people`; an end before its beginning is on the next day. */
export function hoursLines({ day, from, to, people, zone }: HoursSaid): string {
  const many = people.trim() === "1" ? "1 person" : `${people.trim()} people`;
  const shift = `shift ${day} ${from} to ${to}, ${many}`;
  return [...(zone?.trim() ? [`zone ${zone.trim()}`] : []), shift].join("\n");
}

function clause(word: string, value: string | undefined): readonly string[] {
  return value?.trim() ? [`${word} ${value.trim()}`] : [];
}

/** Lines that show how it is said, in the show's own measures: pressed, they stand in the field. */
export function samples(stage: "make" | "model" | "install", inches: boolean): readonly string[] {
  const lines = {
    make: inches
      ? ["stock Kraft, roll 36\" x 100'", "stock Lath, stick 1 1/2\" x 8'", "currency USD"]
      : ["stock Kraft, roll 900 mm x 30 m", "stock Lath, stick 40 mm x 2.4 m", "currency EUR"],
    model: [inches ? 'board 1/16" thick' : "board 2 mm thick"],
    install: [
      "chore Focus the lights after fitting, 60 min, 2 people",
      "rate strip 25 min, 2 people",
      "ask Who has the key?",
    ],
  };
  return lines[stage];
}
