/**
 * A project as its solver sees it: whole numbers in flat arrays. Times are steps from the first shift's opening;
 * the step is the largest that divides every time given (1/1024 of a minute at the finest), so that all sums are
 * exact and "earlier" means "earlier by a step". Hands come in any number of kinds here (published instances have
 * four); a crew's people are one kind. Tasks stand in the order of their ids, so that the order they were listed
 * in decides nothing.
 */

export interface CoreLink {
  readonly task: number;
  readonly lag: number;
}

export interface CoreShift {
  readonly from: number;
  readonly to: number;
  /** Hands of each kind. */
  readonly has: readonly number[];
}

export interface Core {
  readonly count: number;
  readonly kinds: number;
  readonly minutes: Float64Array;
  /** `needs[task * kinds + kind]` hands. */
  readonly needs: Float64Array;
  /** 1 for a task that may not rest. */
  readonly whole: Uint8Array;
  /** What each task waits for. */
  readonly before: readonly (readonly CoreLink[])[];
  /** What waits for each task. */
  readonly after: readonly (readonly CoreLink[])[];
  /** Every task after all it waits for; among those, by place. */
  readonly order: Int32Array;
  /** Place of each task in `order`. */
  readonly rank: Int32Array;
  /** In order of time, not overlapping. */
  readonly shifts: readonly CoreShift[];
}

/** What a core is made of: tasks whose links lead to places in the list, without a cycle. */
export interface CoreWish {
  readonly tasks: readonly {
    readonly minutes: number;
    readonly needs: readonly number[];
    readonly whole: boolean;
  }[];
  readonly links: readonly { readonly before: number; readonly after: number; readonly lag: number }[];
  readonly shifts: readonly CoreShift[];
}

/** The core of a wish; times must be whole. Throws where the links run in a circle. */
export function coreOf({ tasks, links, shifts }: CoreWish): Core {
  const count = tasks.length;
  const kinds = shifts[0]?.has.length ?? 1;
  const { before, after } = neighbours(count, links);
  const order = orderOf(count, before, after);
  if (order.length < count)
    throw new RangeError(`links run in a circle through ${count - order.length} tasks`);
  const rank = new Int32Array(count);
  order.forEach((task, place) => (rank[task] = place));
  return {
    count,
    kinds,
    minutes: Float64Array.from(tasks, (task) => task.minutes),
    needs: Float64Array.from(
      tasks.flatMap(({ needs }) => Array.from({ length: kinds }, (_, k) => needs[k] ?? 0)),
    ),
    whole: Uint8Array.from(tasks, ({ whole }) => Number(whole)),
    before,
    after,
    order: Int32Array.from(order),
    rank,
    shifts,
  };
}

/** The same project run backwards: time turned round, each link turned round. Its plans are the plans of the first, mirrored. */
export function mirrored(core: Core): Core {
  const order = core.order.toReversed();
  return {
    ...core,
    before: core.after,
    after: core.before,
    order,
    rank: core.rank.map((place) => core.count - 1 - place),
    shifts: core.shifts.map(({ from, to, has }) => ({ from: -to, to: -from, has })).toReversed(),
  };
}

/** The same project with these tasks alone (places, rising) and the links among them. */
export function narrowed(core: Core, kept: readonly number[]): Core {
  const place = new Map(kept.map((task, index) => [task, index]));
  return coreOf({
    tasks: kept.map((task) => ({
      minutes: core.minutes[task]!,
      needs: [...core.needs.subarray(task * core.kinds, (task + 1) * core.kinds)],
      whole: core.whole[task] === 1,
    })),
    links: kept.flatMap((task) =>
      core.before[task]!.flatMap(({ task: first, lag }) => {
        const before = place.get(first);
        return before === undefined ? [] : [{ before, after: place.get(task)!, lag }];
      }),
    ),
    shifts: core.shifts,
  });
}

/** For each task, who it waits for and who waits for it, by place. */
export function neighbours(
  count: number,
  links: CoreWish["links"],
): { readonly before: readonly CoreLink[][]; readonly after: readonly CoreLink[][] } {
  const before = Array.from({ length: count }, (): CoreLink[] => []);
  const after = Array.from({ length: count }, (): CoreLink[] => []);
  for (const link of links) {
    before[link.after]!.push({ task: link.before, lag: link.lag });
    after[link.before]!.push({ task: link.after, lag: link.lag });
  }
  return { before, after };
}

/** Tasks, each after all it waits for; those on a cycle of links or behind one are left out. */
export function orderOf(
  count: number,
  before: readonly (readonly CoreLink[])[],
  after: readonly (readonly CoreLink[])[],
): number[] {
  const waits = before.map((links) => links.length);
  const order: number[] = [];
  for (let task = 0; task < count; task++) if (waits[task] === 0) order.push(task);
  // The list grows while it is read: each task read may free others.
  for (let read = 0; read < order.length; read++)
    for (const { task } of after[order[read]!]!) if (--waits[task]! === 0) order.push(task);
  return order;
}
