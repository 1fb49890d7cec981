/**
 * Paper. Sizes in mm, upright. A series: ISO 216:2007. Letter, Tabloid and the C to E sheets: ASME Y14.1
 * sheets A to E; architectural sheets: the US series in inches. Legal is 8 1/2 by 14 in, common practice.
 */

export interface Paper {
  /** As a person calls it: "US Letter". */
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

const inches = (name: string, width: number, height: number): Paper => ({
  name,
  width: width * 25.4,
  height: height * 25.4,
});

export const PAPERS = {
  letter: inches("US Letter", 8.5, 11),
  legal: inches("US Legal", 8.5, 14),
  tabloid: inches("Tabloid 11 × 17 in", 11, 17),
  "ansi-c": inches("17 × 22 in", 17, 22),
  "ansi-d": inches("22 × 34 in", 22, 34),
  "ansi-e": inches("34 × 44 in", 34, 44),
  "arch-c": inches("18 × 24 in", 18, 24),
  "arch-d": inches("24 × 36 in", 24, 36),
  "arch-e": inches("36 × 48 in", 36, 48),
  a4: { name: "A4", width: 210, height: 297 },
  a3: { name: "A3", width: 297, height: 420 },
  a2: { name: "A2", width: 420, height: 594 },
  a1: { name: "A1", width: 594, height: 841 },
  a0: { name: "A0", width: 841, height: 1189 },
} as const satisfies { readonly [name: string]: Paper };

export type PaperName = keyof typeof PAPERS;

/** The edge no drawing enters: home printers keep up to 1/4 in of it white; 10 mm leaves a little to spare. Common practice. mm. */
export const PAPER_MARGIN = 10;

/** The sheet lying on its long side. */
export function sideways(paper: Paper): Paper {
  return { name: paper.name, width: paper.height, height: paper.width };
}
