/** Reading an SVG back with a library that did not write it: size, and every point of lines and outlines in mm. */
import { parseSync, type INode } from "svgson";
import type { Point } from "../plane/point.ts";

export interface ReadSvg {
  readonly width: string;
  readonly height: string;
  readonly viewBox: string;
  readonly text: string;
  readonly points: readonly Point[];
  readonly records: ReadonlySet<string>;
  readonly elements: number;
}

/** The document's size as written, its text, and the points of its polylines and polygons. */
export function readSvg(source: string): ReadSvg {
  const root = parseSync(source);
  const points: Point[] = [];
  const records = new Set<string>();
  const text: string[] = [];
  let elements = 0;
  const visit = (node: INode): void => {
    elements += node.type === "element" ? 1 : 0;
    if (node.type === "text") text.push(node.value);
    const record = node.attributes["data-record"];
    if (record !== undefined) records.add(record);
    if (node.name === "polyline" || node.name === "polygon")
      for (const pair of (node.attributes["points"] ?? "").split(" ")) {
        const [x = Number.NaN, y = Number.NaN] = pair.split(",").map(Number);
        points.push({ x, y });
      }
    for (const child of node.children) visit(child);
  };
  visit(root);
  const { width = "", height = "", viewBox = "" } = root.attributes;
  return { width, height, viewBox, text: text.join("\n"), points, records, elements };
}
