/** Why some input could not be read: the one type every door answers with. */
export interface Problem {
  /** Line of the text, counted from 1. */
  readonly line?: number;
  /** Path in a show file: `readings["net-loft.distance.A~C"].value`. */
  readonly path?: string;
  /** Character of the line (of the file where there is no line), counted from 0. */
  readonly at?: number;
  /** One short kind sentence: what is wrong and, where it is plain, what would read. */
  readonly reason: string;
  /** The line itself, shortened where it is long. */
  readonly text?: string;
}

/** A problem as one line of text for a terminal or a list: "line 3, character 9: ...". */
export function printProblem(problem: Problem): string {
  const place = [
    ...(problem.line === undefined ? [] : [`line ${problem.line}`]),
    ...(problem.at === undefined ? [] : [`character ${problem.at + 1}`]),
    ...(problem.path === undefined || problem.path === "" ? [] : [problem.path]),
  ].join(", ");
  return place === "" ? problem.reason : `${place}: ${problem.reason}`;
}
