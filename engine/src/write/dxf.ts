/**
 * A sheet as a DXF file for a cutting machine or a drawing program: millimetres, y up, black only. What is cut, scored,
 * shown and lettered stands on a layer of its own, so that a machine can be told what to do with each. Fills, hatches
 * and the bare paper under lettering are for the eye alone and are left out.
 *
 * Source of units and layers: the DXF reference's $INSUNITS (4: millimetres) and group 8, from memory.
 */
import {
  DxfWriter,
  LWPolylineFlags,
  point2d,
  point3d,
  TextHorizontalAlignment,
  Units,
  type CommonEntityOptions,
} from "@tarikjabiri/dxf";
import type { Point } from "../plane/point.ts";
import { sheetLayers } from "../sheet/layers.ts";
import type { Arc, Circle, Item, Lettering, Sheet, Stroke } from "../sheet/vocabulary.ts";

const TEXT = "TEXT";
/** Colour 7 of the format is black on white and white on black. */
const BLACK = 7;
const DASHED = "DASHED";
/** A TrueType font that most machines have; one that has not takes its own. */
const FONT = "arial.ttf";
/** Height of capitals over the type size: the format speaks of the former. */
const CAPITALS = 0.7;

export interface DxfOptions {
  /** Every length times this: a plan's scale makes it as large as the room. 1 where it is not said: as large as the sheet. */
  readonly factor?: number;
}

/** The whole file as text, to be written as UTF-8. Throws for a factor that is not above 0. */
export function writeDxf(sheet: Sheet, options: DxfOptions = {}): string {
  const factor = options.factor ?? 1;
  if (!(factor > 0 && Number.isFinite(factor)))
    throw new Error(`a drawing cannot be ${factor} times its size`);
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  writer.setVariable("$MEASUREMENT", { 70: 1 });
  // The format's own stroke font has no primes and no accents.
  for (const style of writer.tables.styleTable.records) style.fontFileName = FONT;
  writer.addLType(DASHED, "__ __ __", [2 * factor, -1.2 * factor]);
  for (const layer of ["CUT", "DRAW", TEXT]) writer.addLayer(layer, BLACK, "CONTINUOUS");
  writer.addLayer("SCORE", BLACK, DASHED);
  const at = ({ x, y }: Point): Point => ({ x: x * factor, y: (sheet.height - y) * factor });
  for (const item of sheet.items) draw(writer, item, { at, factor });
  return writer.stringify();
}

interface Board {
  readonly at: (point: Point) => Point;
  readonly factor: number;
}

interface OnLayer extends Board {
  readonly layerName: string;
}

function draw(writer: DxfWriter, item: Item, board: Board): void {
  if (item.ink === "sheet") return;
  if (item.kind === "lettering") return lettering(writer, item, board);
  const layerName = sheetLayers[item.pen];
  if (layerName === undefined) return;
  if (item.kind === "stroke") stroke(writer, item, { ...board, layerName });
  else round(writer, item, { ...board, layerName });
}

function stroke(writer: DxfWriter, { points, closed }: Stroke, { at, layerName }: OnLayer): void {
  const places = points.map(at);
  const [a, b] = places;
  const layer = { layerName };
  if (!a || !b) return;
  if (places.length === 2 && !closed) {
    writer.addLine(point3d(a.x, a.y), point3d(b.x, b.y), layer);
    return;
  }
  const vertices = places.map(({ x, y }) => ({ point: point2d(x, y) }));
  writer.addLWPolyline(vertices, { ...layer, ...(closed ? { flags: LWPolylineFlags.Closed } : {}) });
}

function round(writer: DxfWriter, item: Circle | Arc, { at, factor, layerName }: OnLayer): void {
  const { x, y } = at(item.centre);
  const layer = { layerName };
  if (item.kind === "circle" || Math.abs(item.to - item.from) >= 360) {
    writer.addCircle(point3d(x, y), item.radius * factor, layer);
    return;
  }
  // The format's arcs run counterclockwise; ours may be told either way.
  const [from, to] = item.from <= item.to ? [item.from, item.to] : [item.to, item.from];
  writer.addArc(point3d(x, y), item.radius * factor, turned(from), turned(to), layer);
}

/** Degrees from 0 to less than 360. */
function turned(degrees: number): number {
  return ((degrees % 360) + 360) % 360;
}

const ALIGNMENTS = {
  start: TextHorizontalAlignment.Left,
  middle: TextHorizontalAlignment.Center,
  end: TextHorizontalAlignment.Right,
} as const;

function lettering(writer: DxfWriter, item: Lettering, { at, factor }: Board): void {
  const { x, y } = at(item.at);
  const text = item.text.replaceAll(CONTROLS, " ").replaceAll("%%", "%%%%%%").replaceAll("^", "^ ");
  if (text.trim() === "") return;
  const options: CommonEntityOptions & Parameters<DxfWriter["addText"]>[3] = {
    layerName: TEXT,
    rotation: item.turn ?? 0,
    ...(item.align === undefined || item.align === "start"
      ? {}
      : { horizontalAlignment: ALIGNMENTS[item.align], secondAlignmentPoint: point3d(x, y) }),
  };
  writer.addText(point3d(x, y), item.size * CAPITALS * factor, text, options);
}

/** A line end inside a text would break the file, which is read line by line. */
const CONTROLS = /\p{Cc}/gu;
