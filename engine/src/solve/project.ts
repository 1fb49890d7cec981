/** Types of the scheduling of a project; the solver follows. */

/**
 * Tasks by a crew whose size changes from shift to shift. Time is in minutes from any moment. A task runs only
 * inside shifts; one that is not `whole` may rest between two shifts and go on in the next.
 */
export interface ProjectJob {
  readonly tasks: readonly ProjectTask[];
  /** `after` begins no sooner than `lag` minutes of the clock (shifts or not) after `before` has ended. */
  readonly links: readonly { readonly before: string; readonly after: string; readonly lag: number }[];
  /** In order of time, not overlapping. */
  readonly shifts: readonly { readonly from: number; readonly to: number; readonly people: number }[];
}

export interface ProjectTask {
  readonly id: string;
  readonly minutes: number;
  readonly people: number;
  readonly whole: boolean;
}

export interface ProjectPlan {
  /** In order of start. `spans` are the stretches worked; one for a task done in one go. */
  readonly times: readonly {
    readonly id: string;
    readonly start: number;
    readonly end: number;
    readonly spans: readonly { readonly from: number; readonly to: number }[];
  }[];
  /** When the last task ends; 0 without tasks. */
  readonly end: number;
  /** No plan of the tasks in `times` can end sooner. */
  readonly bound: number;
  /** Tasks that find no place in the shifts, or that wait for one that finds none; in listed order. */
  readonly unplaced: readonly string[];
}
