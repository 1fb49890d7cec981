/** On which layer of a file each pen's lines stand, so that a machine can be told what to do with each. */
import type { Pen } from "./vocabulary.ts";

/** Cut and scored is what the machine does; all else is drawn. Grid paper is for the eye and has no layer. */
export const sheetLayers: { readonly [P in Pen]: "CUT" | "SCORE" | "DRAW" | undefined } = {
  cut: "CUT",
  fold: "SCORE",
  wall: "DRAW",
  outline: "DRAW",
  dimension: "DRAW",
  bar: "DRAW",
  grid: undefined,
  "grid-heavy": undefined,
};
