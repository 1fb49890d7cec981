/** Runs the real command as a person does, in a process of its own, and measures it. */
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

/** The project's folder. */
export const ROOT = fileURLToPath(new URL("../../../", import.meta.url));

const BIN = fileURLToPath(new URL("../../bin/cornerwise.mjs", import.meta.url));
/** Loaded first, it writes the peak of the process's memory to a channel of its own when it ends. */
const WATCH = `data:text/javascript,${encodeURIComponent(`
  import { writeSync } from "node:fs";
  process.on("exit", () => writeSync(3, String(process.resourceUsage().maxRSS)));
`)}`;

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Peak resident memory, MB. */
  readonly peak: number;
}

export interface RunOptions {
  /** Handed to it on standard input; none where it is absent. */
  readonly input?: string | Uint8Array;
  /** A module loaded before the command: how a test plants a fault. */
  readonly before?: string;
}

/** Runs `cornerwise` with these words, from the project's folder. */
export function cornerwise(words: readonly string[], options: RunOptions = {}): Promise<Ran> {
  const before = options.before === undefined ? [] : ["--import", options.before];
  const child = spawn(process.execPath, ["--import", WATCH, ...before, BIN, ...words], {
    cwd: ROOT,
    stdio: ["pipe", "pipe", "pipe", "pipe"],
  });
  const parts: [string, string, string] = ["", "", ""];
  [child.stdout, child.stderr, child.stdio[3]].forEach((stream, index) => {
    stream?.on("data", (piece: Buffer) => {
      parts[index] += piece.toString("utf8");
    });
  });
  // A command that refuses before reading closes its end first; that is not this test's fault.
  child.stdin.on("error", () => {});
  child.stdin.end(options.input ?? "");
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => {
      const [out, err, peak] = parts;
      resolve({ code: code ?? -1, out, err, peak: Number(peak) / 1024 });
    });
  });
}
