/** Reading a PDF back with a library that did not write it: page sizes, text, and every point of every path in mm, y down. */
import { getDocument, OPS, Util } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Point } from "../plane/point.ts";

export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly text: string;
  /** End points of path segments (not the handles of curves). */
  readonly points: readonly Point[];
}

const MM = 25.4 / 72;

/** All pages. The bytes are copied, because the reader keeps what it is given. */
export async function readPdf(bytes: Uint8Array): Promise<readonly ReadPage[]> {
  const task = getDocument({ data: bytes.slice(), verbosity: 0 });
  const file = await task.promise;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= file.numPages; number += 1) {
    const page = await file.getPage(number);
    const [left = 0, bottom = 0, right = 0, top = 0] = page.view;
    const content = await page.getTextContent();
    const text = content.items.map((item) => ("str" in item ? item.str : "")).join("\n");
    pages.push({
      width: (right - left) * MM,
      height: (top - bottom) * MM,
      text,
      points: pathPoints(await page.getOperatorList(), top),
    });
  }
  await task.destroy();
  return pages;
}

/** What is painted, and the packed path. */
type PathArguments = readonly [number, readonly (Float32Array | null)[]];

interface Operators {
  readonly fnArray: readonly number[];
  readonly argsArray: readonly unknown[];
}

function pathPoints({ fnArray, argsArray }: Operators, top: number): readonly Point[] {
  const points: Point[] = [];
  const kept: number[][] = [];
  let matrix = [1, 0, 0, 1, 0, 0];
  fnArray.forEach((operator, index) => {
    const args = argsArray[index] as readonly unknown[] | null;
    if (operator === OPS.save) kept.push(matrix);
    else if (operator === OPS.restore) matrix = kept.pop() ?? [1, 0, 0, 1, 0, 0];
    else if (operator === OPS.transform) matrix = Util.transform(matrix, args) as number[];
    else if (operator === OPS.constructPath) {
      const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = matrix;
      for (const [x, y] of endPoints((args as PathArguments)[1][0]))
        points.push({ x: (a * x + c * y + e) * MM, y: (top - (b * x + d * y + f)) * MM });
    }
  });
  return points;
}

/** The reader packs a path as 0 move, 1 line, 2 cubic, 3 quadratic, 4 close, each followed by its numbers. */
function endPoints(packed: Float32Array | null | undefined): readonly (readonly [number, number])[] {
  const out: [number, number][] = [];
  if (!packed) return out;
  const sizes = [2, 2, 6, 4, 0];
  for (let at = 0; at < packed.length;) {
    const size = sizes[packed[at] ?? -1];
    if (size === undefined) throw new Error(`a path has the unknown step ${packed[at]}`);
    if (size > 0) out.push([packed[at + size - 1] ?? 0, packed[at + size] ?? 0]);
    at += size + 1;
  }
  return out;
}
