/** What every benchmark takes and gives. */

export interface BenchInput {
  /** A file or a folder of instances; the benchmark's own instances where it is absent. */
  readonly input?: string;
  /** Whether the plans themselves are asked for. */
  readonly plans: boolean;
}

/** One instance, solved once. Fields a benchmark adds (peak memory, quantiles) carry their unit in the name. */
export interface BenchResult {
  readonly instance: string;
  /** What was reached, in the benchmark's own measure. */
  readonly value: number;
  /** What cannot be bettered, or must not be exceeded, in the same measure; null where nothing bounds it. */
  readonly bound: number | null;
  readonly seconds: number;
  /** Time against a named library in the same run: ours over theirs. */
  readonly ratio?: number;
  /** The plan itself, so that a stranger's judge can check it. */
  readonly plan?: unknown;
}

export interface Benchmark {
  readonly run: (input: BenchInput) => readonly BenchResult[] | Promise<readonly BenchResult[]>;
}
