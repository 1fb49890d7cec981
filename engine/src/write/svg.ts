/** A sheet as an SVG document: millimetres all through, one element an item (a hatched fill is a second one). */
import {
  INKS,
  PENS,
  type Arc,
  type Face,
  type Fill,
  type Ink,
  type Item,
  type Lettering,
  type Pen,
  type Sheet,
} from "../sheet/vocabulary.ts";

const FAMILIES: { readonly [F in Face]: string } = {
  sans: `font-family="IBM Plex Sans, Helvetica, Arial, sans-serif"`,
  "sans-bold": `font-family="IBM Plex Sans, Helvetica, Arial, sans-serif" font-weight="600"`,
  mono: `font-family="IBM Plex Mono, Menlo, Consolas, monospace"`,
};

/** Weight of the lines of a hatch, mm. */
const HATCH_WEIGHT = PENS.dimension.weight;

/** The whole document. Digits are rounded here and nowhere before: to a micrometre of paper. */
export function writeSvg(sheet: Sheet): string {
  const { width, height } = sheet;
  const hatches = hatchesOf(sheet.items);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${digits(width)}mm" height="${digits(height)}mm" viewBox="0 0 ${digits(width)} ${digits(height)}">`,
    `<title>${escaped(sheet.title)}</title>`,
    ...(hatches.size > 0 ? [`<defs>`, ...[...hatches.values()].map(patternOf), `</defs>`] : []),
    `<rect width="${digits(width)}" height="${digits(height)}" fill="${INKS.sheet}"/>`,
    ...sheet.items.map(elementOf),
    `</svg>`,
    ``,
  ].join("\n");
}

/** A number to three decimals without trailing zeros. */
function digits(value: number): string {
  const text = String(Math.round(value * 1000) / 1000);
  return text === "-0" ? "0" : text;
}

/** Text safe between and inside tags; control characters that XML does not allow are dropped. */
function escaped(text: string): string {
  return text
    .replace(FORBIDDEN, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

/** What XML 1.0 does not allow as a character: controls but tab and line ends, lone surrogates, two non-characters. */
const FORBIDDEN = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

function shown(item: Item): string {
  const record = item.record === undefined ? "" : ` data-record="${escaped(item.record)}"`;
  return item.part === undefined ? record : `${record} data-part="${escaped(item.part)}"`;
}

function elementOf(item: Item): string {
  if (item.kind === "lettering") return textOf(item);
  const style = penOf(item.pen, item.ink) + shown(item);
  if (item.kind === "arc") return `<path d="${arcPath(item)}" fill="none"${style}/>`;
  const form =
    item.kind === "circle"
      ? `circle cx="${digits(item.centre.x)}" cy="${digits(item.centre.y)}" r="${digits(item.radius)}"`
      : `${item.closed ? "polygon" : "polyline"} points="${item.points.map(({ x, y }) => `${digits(x)},${digits(y)}`).join(" ")}"`;
  const hatched = item.fill?.hatch ? `<${form} fill="url(#${hatchId(item.fill)})"/>` : "";
  return `${hatched}<${form}${fillOf(item.fill)}${style}/>`;
}

function penOf(pen: Pen, ink: Ink = "graphite"): string {
  const { weight, dash } = PENS[pen];
  const broken = dash ? ` stroke-dasharray="${dash.map(digits).join(" ")}"` : "";
  const ends = pen === "wall" ? ` stroke-linecap="round" stroke-linejoin="round"` : "";
  return ` stroke="${INKS[ink]}" stroke-width="${digits(weight)}"${broken}${ends}`;
}

function fillOf(fill: Fill | undefined): string {
  if (!fill || fill.hatch) return ` fill="none"`;
  return ` fill="${INKS[fill.ink]}"${fill.tint === undefined ? "" : ` fill-opacity="${digits(fill.tint)}"`}`;
}

function textOf(item: Lettering): string {
  const { x, y } = item.at;
  const turned = item.turn ? ` transform="rotate(${digits(-item.turn)} ${digits(x)} ${digits(y)})"` : "";
  const anchor = item.align === undefined || item.align === "start" ? "" : ` text-anchor="${item.align}"`;
  return `<text x="${digits(x)}" y="${digits(y)}" font-size="${digits(item.size)}" ${FAMILIES[item.face]}${anchor} fill="${INKS[item.ink ?? "graphite"]}"${turned}${shown(item)}>${escaped(item.text)}</text>`;
}

/** A whole turn is drawn as two halves, because an SVG arc with equal ends draws nothing. */
function arcPath({ centre, radius, from, to }: Arc): string {
  const at = (degrees: number): string => {
    const radians = (degrees * Math.PI) / 180;
    return `${digits(centre.x + radius * Math.cos(radians))} ${digits(centre.y - radius * Math.sin(radians))}`;
  };
  const middle = (from + to) / 2;
  const turn = to > from ? 0 : 1;
  const half = `A${digits(radius)} ${digits(radius)} 0 0 ${turn}`;
  return `M${at(from)}${half} ${at(middle)}${half} ${at(to)}`;
}

function hatchesOf(items: readonly Item[]): ReadonlyMap<string, Fill> {
  const found = new Map<string, Fill>();
  for (const item of items)
    if ((item.kind === "stroke" || item.kind === "circle") && item.fill?.hatch)
      found.set(hatchId(item.fill), item.fill);
  return found;
}

function hatchId({ ink, hatch }: Fill): string {
  return `hatch-${ink}-${`${hatch?.turn ?? 0}-${hatch?.apart ?? 0}`.replaceAll(/[^\d-]/g, "_")}`;
}

function patternOf(fill: Fill): string {
  const { turn, apart } = fill.hatch ?? { turn: 0, apart: 1 };
  const [side, middle] = [digits(apart), digits(apart / 2)];
  return `<pattern id="${hatchId(fill)}" width="${side}" height="${side}" patternUnits="userSpaceOnUse" patternTransform="rotate(${digits(-turn)})"><path d="M0 ${middle}H${side}" stroke="${INKS[fill.ink]}" stroke-width="${digits(HATCH_WEIGHT)}"/></pattern>`;
}
