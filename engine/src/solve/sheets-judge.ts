/** Judges a cutting plan for sheets, whoever made it. Shares nothing with the solver. */
import type { CutOut, SheetJob, SheetPlan } from "./sheets.ts";

/** Figures apart by less than this are the same: two thousandths of the unit, and a hair. */
const SAME = 0.0025;

/**
 * Every fault of the plan in words; empty for a plan that can be cut. A part is missing, cut more often than asked, or
 * unknown; it has another size than asked or is turned though that is not allowed; it reaches over the sheet's edge;
 * two parts overlap or leave no room for the kerf between them; a sheet cannot be cut apart by cuts from edge to
 * edge, or is empty; a part is called too large though it fits, or cut though it cannot be; the sheets are fewer
 * than the plan's own bound.
 */
export function judgeSheets(job: SheetJob, plan: SheetPlan): readonly string[] {
  return [
    ...plan.sheets.flatMap(({ parts }, place) => sheetFaults(job, parts, `sheet ${place + 1}`)),
    ...countFaults(job, plan),
    ...(plan.sheets.length < plan.bound
      ? [`the plan's bound is ${plan.bound}, yet it does with ${plan.sheets.length} sheets`]
      : []),
  ];
}

function sheetFaults(job: SheetJob, parts: readonly CutOut[], name: string): string[] {
  if (parts.length === 0) return [`${name} has no part`];
  const off = parts
    .filter(
      ({ x, y, width, depth }) =>
        !(x >= -SAME && y >= -SAME && x + width <= job.width + SAME && y + depth <= job.depth + SAME),
    )
    .map(({ id }) => `${name}: ${id} reaches over the edge`);
  const overlaps = overlapping(parts, job.kerf).map(
    ([a, b]) => `${name}: ${a} and ${b} overlap, kerf counted`,
  );
  const cuts = overlaps.length === 0 && !canBeCut(parts, job.kerf);
  return [...off, ...overlaps, ...(cuts ? [`${name} cannot be cut apart from edge to edge`] : [])];
}

/** Pairs that are nearer than a kerf both along and up: swept along x. */
function overlapping(parts: readonly CutOut[], kerf: number): [string, string][] {
  const sorted = parts.toSorted((a, b) => a.x - b.x);
  const pairs: [string, string][] = [];
  sorted.forEach((a, place) => {
    for (let k = place + 1; k < sorted.length; k++) {
      const b = sorted[k]!;
      if (b.x >= a.x + a.width + kerf - SAME) break;
      if (b.y < a.y + a.depth + kerf - SAME && a.y < b.y + b.depth + kerf - SAME) pairs.push([a.id, b.id]);
    }
  });
  return pairs;
}

/** Whether cuts from edge to edge free every part. Any cut that parts them will do as the first: a set that can be cut stays so when it is divided. */
function canBeCut(parts: readonly CutOut[], kerf: number): boolean {
  const pending = [parts];
  for (let group = pending.pop(); group; group = pending.pop()) {
    if (group.length < 2) continue;
    const along = slices(group, kerf, ({ x, width }) => [x, x + width]);
    const groups = along.length > 1 ? along : slices(group, kerf, ({ y, depth }) => [y, y + depth]);
    if (groups.length < 2) return false;
    pending.push(...groups);
  }
  return true;
}

/** The parts in groups between which a cut can run along one direction. */
function slices(
  parts: readonly CutOut[],
  kerf: number,
  span: (part: CutOut) => readonly [number, number],
): CutOut[][] {
  const groups: CutOut[][] = [];
  let reach = -Infinity;
  for (const part of parts.toSorted((a, b) => span(a)[0] - span(b)[0])) {
    const [from, to] = span(part);
    if (groups.length === 0 || from >= reach + kerf - SAME) groups.push([]);
    groups.at(-1)!.push(part);
    reach = Math.max(reach, to);
  }
  return groups;
}

function countFaults(job: SheetJob, { sheets, unplaced }: SheetPlan): string[] {
  const asked = new Map<string, SheetJob["parts"][number][]>();
  for (const part of job.parts) asked.set(part.id, [...(asked.get(part.id) ?? []), part]);
  const cut = new Map<string, CutOut[]>();
  for (const { parts } of sheets)
    for (const part of parts) cut.set(part.id, [...(cut.get(part.id) ?? []), part]);
  const left = new Map<string, number>();
  for (const id of unplaced) left.set(id, (left.get(id) ?? 0) + 1);
  const faults = [...asked].flatMap(([id, parts]) =>
    partFaults(job, parts, cut.get(id) ?? [], left.get(id) ?? 0),
  );
  for (const id of new Set([...cut.keys(), ...left.keys()]))
    if (!asked.has(id)) faults.push(`${id} is not in the job`);
  return faults;
}

function partFaults(
  job: SheetJob,
  asked: readonly SheetJob["parts"][number][],
  cut: readonly CutOut[],
  left: number,
): string[] {
  const { id, width, depth } = asked[0]!;
  const fits =
    width > 0 && depth > 0 && (within(job, width, depth) || (job.turning && within(job, depth, width)));
  const faults: string[] = [];
  if (cut.length + left < asked.length) faults.push(`${id} is missing`);
  if (cut.length > asked.length) faults.push(`${id} is cut ${cut.length} times, asked ${asked.length}`);
  else if (cut.length + left > asked.length) faults.push(`${id} is both cut and called too large`);
  if (left > 0 && fits) faults.push(`${id} is called too large, but it fits`);
  if (cut.length > 0 && !fits) faults.push(`${id} is cut, but no sheet can give it`);
  for (const one of cut) faults.push(...sizeFaults(job.turning, asked, one));
  return faults;
}

function within(job: SheetJob, width: number, depth: number): boolean {
  return width <= job.width + SAME && depth <= job.depth + SAME;
}

function sizeFaults(turning: boolean, asked: readonly SheetJob["parts"][number][], cut: CutOut): string[] {
  const same = (width: number, depth: number): boolean =>
    asked.some((part) => Math.abs(part.width - width) <= SAME && Math.abs(part.depth - depth) <= SAME);
  if (same(cut.width, cut.depth)) return [];
  if (!same(cut.depth, cut.width)) return [`${cut.id} is cut ${cut.width} × ${cut.depth}, not as asked`];
  return turning ? [] : [`${cut.id} is turned`];
}
