/** Writes answers: to standard output, or to the file asked for. */
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { Refusal } from "./ending.ts";
import { whyNot } from "./input.ts";

/** Writes text to `file`, or to standard output where none is asked for. Throws a Refusal where it cannot. */
export function writeAnswer(text: string, file: string | undefined): void {
  if (file === undefined || file === "-") process.stdout.write(text);
  else writeBytes(file, text);
}

/** Writes one file, making its folder. Throws a Refusal where it cannot. */
export function writeBytes(file: string, bytes: string | Uint8Array): void {
  try {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, bytes);
  } catch (error) {
    throw new Refusal(`${file} could not be written: ${whyNot(error)}`);
  }
}

/** JSON as commands print it: two spaces, a newline at the end. */
export function jsonText(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

/** A length, angle or figure for machines: digits beyond a tenth of a micrometre say nothing. */
export function digits(value: number): number {
  return Number(value.toFixed(4));
}

const SIGNS = new Intl.Segmenter("en", { granularity: "grapheme" });

/** How many signs a person sees in a text. */
function signs(text: string): number {
  return Array.from(SIGNS.segment(text)).length;
}

/**
 * Rows as a table of plain text: columns as wide as their widest cell, two spaces between, numbers to the
 * right. The first row is the heading. Nothing for a table without rows.
 */
export function table(heading: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return "";
  const all = [heading, ...rows];
  const widths = heading.map((_, column) => Math.max(...all.map((row) => signs(row[column] ?? ""))));
  const figures = heading.map((_, column) => rows.every((row) => /^$|^[-–+]?[\d.]/.test(row[column] ?? "")));
  const lines = all.map((row) =>
    widths
      .map((width, column) => {
        const cell = row[column] ?? "";
        const gap = " ".repeat(width - signs(cell));
        return figures[column] ? gap + cell : cell + gap;
      })
      .join("  ")
      .trimEnd(),
  );
  return lines.map((line) => `  ${line}\n`).join("");
}
