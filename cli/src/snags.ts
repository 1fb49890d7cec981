/** Snags and problems for machines and for people, the same in every command. */
import { ruleOf, type Problem, type ShowDocument, type Snag } from "@cornerwise/engine";
import { digits } from "./output.ts";

/** Snags for machines: figures carry their unit in their name, and those of a rule that judges a plain number have none. */
export function snagsJson(snags: readonly Snag[], document: ShowDocument | undefined): readonly object[] {
  return snags.map((snag) => snagJson(snag, speaksOfAngle(snag, document)));
}

function speaksOfAngle(snag: Snag, document: ShowDocument | undefined): boolean {
  return document?.readings[snag.things[0] ?? ""]?.kind === "angle";
}

/** What a figure's name ends in, by the unit its rule judges. */
const ENDINGS = { none: "", minutes: "_min", degrees: "_deg" } as const;

function snagJson(snag: Snag, angle: boolean): object {
  const { unit, source } = ruleOf(snag.rule);
  const suffix = unit === undefined ? (angle ? "_deg" : "_mm") : ENDINGS[unit];
  const figure = (name: string, value: number | undefined) =>
    value === undefined ? {} : { [name + suffix]: digits(value) };
  return {
    rule: snag.rule,
    level: snag.level,
    sentence: snag.sentence,
    things: snag.things,
    ...(snag.room === undefined ? {} : { room: snag.room }),
    ...(snag.at === undefined ? {} : { at: { x_mm: digits(snag.at.x), y_mm: digits(snag.at.y) } }),
    ...figure("measured", snag.measured),
    ...figure("doubt", snag.doubt),
    ...figure("wanted", snag.wanted),
    source,
    ...(snag.mend === undefined ? {} : { mend: snag.mend }),
  };
}

/** A problem for machines: the reason, and the line (from 1), character (from 0) or path it speaks of. */
export function problemJson(problem: Problem): object {
  const { line, path, at, reason, text } = problem;
  return {
    ...(line === undefined ? {} : { line }),
    ...(path === undefined ? {} : { path }),
    ...(at === undefined ? {} : { character: at }),
    reason,
    ...(text === undefined ? {} : { text }),
  };
}

/** Snags for people, in the order given: the sentence, what to do, and whose rule it is. */
export function snagWords(snags: readonly Snag[]): string {
  if (snags.length === 0) return "No snags.\n";
  return snags.map(oneSnag).join("");
}

function oneSnag(snag: Snag): string {
  const mend = snag.mend === undefined ? "" : `        ${snag.mend}\n`;
  return `  ${snag.level.padEnd(4)}  ${snag.sentence}\n${mend}        (${ruleOf(snag.rule).source})\n`;
}

/** "2 stops, 1 to mind, 3 to know"; "no snags". */
export function snagCount(snags: readonly Snag[]): string {
  const of = (level: Snag["level"]) => snags.filter((snag) => snag.level === level).length;
  const [stops, minds, knows] = [of("stop"), of("mind"), of("know")];
  const parts = [
    ...(stops > 0 ? [`${stops} ${stops === 1 ? "stop" : "stops"}`] : []),
    ...(minds > 0 ? [`${minds} to mind`] : []),
    ...(knows > 0 ? [`${knows} to know`] : []),
  ];
  return parts.length === 0 ? "no snags" : parts.join(", ");
}
