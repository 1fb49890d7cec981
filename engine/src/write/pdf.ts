/**
 * Sheets as a PDF: exact page sizes, the full typefaces subset into it, the same bytes for the same sheets.
 * It stands apart from the other writers because it brings a large library along, which the app loads late.
 * Nothing here asks for a file, a clock or a screen, so it runs in a worker as it does on the command line.
 */
import PdfFile from "pdfkit";
import { printable } from "../sheet/type.ts";
import {
  INKS,
  PENS,
  type Arc,
  type Face,
  type Fill,
  type Item,
  type Lettering,
  type Sheet,
} from "../sheet/vocabulary.ts";

export interface PdfOptions {
  /** The bytes of whole TrueType files; web fonts and latin-only files drop primes, eighths and arrows. */
  readonly fonts: { readonly sans: Uint8Array; readonly sansBold: Uint8Array; readonly mono: Uint8Array };
  readonly title: string;
  /** ISO 8601 date or instant; it is the file's creation date, and the only date in it. */
  readonly created: string;
  /** BCP 47 tag of the sheets' words; English where it is not said. */
  readonly language?: string;
}

/** On paper the paper is bare: a printer would dot its screen colour. */
const PAPER_INKS: typeof INKS = { ...INKS, sheet: "#FFFFFF" };
/** Millimetres to PDF points. */
const POINT = 72 / 25.4;
/** Weight of the lines of a hatch, mm. */
const HATCH_WEIGHT = PENS.dimension.weight;

type Pdf = InstanceType<typeof PdfFile>;

/** The bytes of the document, one page a sheet. Rejects for no sheets, a date that cannot be read, or fonts that are none. */
export async function writePdf(sheets: readonly Sheet[], options: PdfOptions): Promise<Uint8Array> {
  const first = sheets[0];
  if (!first) throw new Error("a PDF has at least one page, and there were no sheets");
  const created = new Date(options.created);
  if (Number.isNaN(created.getTime())) throw new Error(`"${options.created}" is no ISO date`);
  const pdf = new PdfFile({
    autoFirstPage: false,
    pdfVersion: "1.7",
    lang: options.language ?? "en",
    displayTitle: true,
    // The standard typefaces are left out: they would be looked for in files.
    font: null as unknown as string,
    info: {
      Title: options.title,
      CreationDate: created,
      ModDate: created,
      Producer: "Cornerwise",
      Creator: "Cornerwise",
    },
  });
  const bytes = collected(pdf);
  pdf.registerFont("sans", padded(options.fonts.sans));
  pdf.registerFont("sans-bold", padded(options.fonts.sansBold));
  pdf.registerFont("mono", padded(options.fonts.mono));
  for (const sheet of sheets) {
    pdf.addPage({ size: [sheet.width * POINT, sheet.height * POINT], margin: 0 });
    for (const item of sheet.items) drawItem(pdf, item);
  }
  pdf.end();
  return bytes;
}

/**
 * Some font files end with the outline of a sign that has none (the space of the mono face); the font
 * reader looks a few bytes past the end for it and fails. A tail of zeros gives it something to read.
 */
function padded(font: Uint8Array): ArrayBuffer {
  const longer = new Uint8Array(font.length + 64);
  longer.set(font);
  return longer.buffer;
}

function collected(pdf: Pdf): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const parts: Uint8Array[] = [];
    pdf.on("data", (part: Uint8Array) => parts.push(part));
    pdf.on("error", reject);
    pdf.on("end", () => {
      const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
      let at = 0;
      for (const part of parts) {
        whole.set(part, at);
        at += part.length;
      }
      resolve(whole);
    });
  });
}

/** Points, rounded once: a thousandth of a point is a third of a micrometre. */
function points(mm: number): number {
  return Math.round(mm * POINT * 1000) / 1000;
}

function drawItem(pdf: Pdf, item: Item): void {
  if (item.kind === "lettering") return drawLetters(pdf, item);
  const fill = item.kind === "arc" ? undefined : item.fill;
  if (fill && !fill.hatch) {
    outlineOf(pdf, item);
    pdf.fillColor(PAPER_INKS[fill.ink], fill.tint ?? 1).fill();
  }
  if (fill?.hatch) drawHatch(pdf, item, fill);
  const { weight, dash } = PENS[item.pen];
  outlineOf(pdf, item);
  pdf.lineWidth(points(weight)).strokeColor(PAPER_INKS[item.ink ?? "graphite"]);
  if (item.pen === "wall") pdf.lineCap("round").lineJoin("round");
  else pdf.lineCap("butt").lineJoin("miter");
  if (dash) pdf.dash(points(dash[0]), { space: points(dash[1]) });
  else pdf.undash();
  pdf.stroke();
}

function outlineOf(pdf: Pdf, item: Exclude<Item, Lettering>): void {
  if (item.kind === "circle") pdf.circle(points(item.centre.x), points(item.centre.y), points(item.radius));
  else if (item.kind === "arc") arcOf(pdf, item);
  else {
    item.points.forEach(({ x, y }, index) =>
      index === 0 ? pdf.moveTo(points(x), points(y)) : pdf.lineTo(points(x), points(y)),
    );
    if (item.closed) pdf.closePath();
  }
}

/** Cubic curves of at most a right angle each; the usual 4/3 tan(a/4) handles. */
function arcOf(pdf: Pdf, { centre, radius, from, to }: Arc): void {
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / 90));
  const step = (((to - from) / count) * Math.PI) / 180;
  const handle = (4 / 3) * Math.tan(step / 4) * radius;
  const at = (angle: number, along: number): [number, number] => [
    points(centre.x + radius * Math.cos(angle) - along * Math.sin(angle)),
    points(centre.y - radius * Math.sin(angle) - along * Math.cos(angle)),
  ];
  let angle = (from * Math.PI) / 180;
  pdf.moveTo(...at(angle, 0));
  for (let index = 0; index < count; index += 1) {
    pdf.bezierCurveTo(...at(angle, handle), ...at(angle + step, -handle), ...at(angle + step, 0));
    angle += step;
  }
}

/** Parallel lines over the box round the outline, clipped to it. */
function drawHatch(pdf: Pdf, item: Exclude<Item, Lettering>, fill: Fill): void {
  const { turn, apart } = fill.hatch ?? { turn: 0, apart: 1 };
  const box = item.kind === "stroke" ? boxRound(item.points) : boxRound([item.centre], item.radius);
  const radians = (turn * Math.PI) / 180;
  const [along, across] = [
    { x: Math.cos(radians), y: -Math.sin(radians) },
    { x: Math.sin(radians), y: Math.cos(radians) },
  ];
  const corners = [
    { x: box.left, y: box.top },
    { x: box.right, y: box.top },
    { x: box.left, y: box.bottom },
    { x: box.right, y: box.bottom },
  ];
  const depths = corners.map(({ x, y }) => x * across.x + y * across.y);
  const reaches = corners.map(({ x, y }) => x * along.x + y * along.y);
  const [start, end] = [Math.min(...reaches), Math.max(...reaches)];
  pdf.save();
  outlineOf(pdf, item);
  pdf.clip();
  for (
    let depth = Math.ceil(Math.min(...depths) / apart) * apart;
    depth <= Math.max(...depths);
    depth += apart
  ) {
    const at = (reach: number): [number, number] => [
      points(along.x * reach + across.x * depth),
      points(along.y * reach + across.y * depth),
    ];
    pdf.moveTo(...at(start)).lineTo(...at(end));
  }
  pdf.undash().lineCap("butt").lineWidth(points(HATCH_WEIGHT)).strokeColor(PAPER_INKS[fill.ink]).stroke();
  pdf.restore();
}

function boxRound(outline: readonly { readonly x: number; readonly y: number }[], radius = 0) {
  const xs = outline.map(({ x }) => x);
  const ys = outline.map(({ y }) => y);
  return {
    left: Math.min(...xs) - radius,
    right: Math.max(...xs) + radius,
    top: Math.min(...ys) - radius,
    bottom: Math.max(...ys) + radius,
  };
}

function drawLetters(pdf: Pdf, item: Lettering): void {
  const face: Face = item.face;
  const text = printable(item.text, face);
  if (text.trim() === "") return;
  pdf
    .font(face)
    .fontSize(points(item.size))
    .fillColor(PAPER_INKS[item.ink ?? "graphite"], 1);
  const width = pdf.widthOfString(text);
  const start = item.align === "end" ? -width : item.align === "middle" ? -width / 2 : 0;
  const [x, y] = [points(item.at.x), points(item.at.y)];
  const draw = (atX: number, atY: number): void => {
    pdf.text(text, atX, atY, { lineBreak: false, baseline: "alphabetic" });
  };
  if (!item.turn) return draw(x + start, y);
  pdf.save();
  pdf.rotate(-item.turn, { origin: [x, y] });
  draw(x + start, y);
  pdf.restore();
}
