/** Words of tasks: the arithmetic of their minutes, and which copies they are about. */
import type { Piece } from "../document/tables.ts";
import { WORK_UNITS, type InstallWork } from "../document/works.ts";

/** More runs of numbers than this are counted instead: nobody reads them all. */
const MOST_RUNS = 4;

const PLURALS: { readonly [unit: string]: string } = {
  "length of trim": "lengths of trim",
  "panel or border length": "panels and border lengths",
  accessory: "accessories",
};

/** "9 strips at 25 min", "1 room at 60 min". */
export function countedWords(work: InstallWork, count: number, each: number): string {
  const unit = WORK_UNITS[work];
  const units = count === 1 ? unit : (PLURALS[unit] ?? `${unit}s`);
  return `${count} ${units} at ${Number(each.toFixed(1))} min`;
}

/** Copies of a piece by their numbers: "Gangplank" where there is one, "Bench 1 to 4", "Hook 1 to 3 and 7". */
export function numbersWords(piece: Piece, numbers: readonly number[]): string {
  if (piece.count === 1 && numbers.length === 1) return piece.name;
  const runs = runsOf(numbers);
  if (runs.length > MOST_RUNS) return `${numbers.length} of ${piece.name}`;
  const words = runs.map(([from, to]) =>
    from === to ? `${from}` : to === from + 1 ? `${from} and ${to}` : `${from} to ${to}`,
  );
  return `${piece.name} ${words.join(", ")}`;
}

/** Whole numbers as runs of neighbours, ascending. */
function runsOf(numbers: readonly number[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (const number of numbers.toSorted((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && number <= last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs;
}
