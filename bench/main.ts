/**
 * The benchmarks' one door: `npm run --silent bench -- NAME [FILE or FOLDER] [--plans]`. Prints one JSON
 * object and nothing else, so that a stranger's judge can read it. Each benchmark is a file beside this one.
 */
import { readdirSync } from "node:fs";
import { cpus } from "node:os";
import { parseArgs } from "node:util";
import type { Benchmark } from "./result.ts";

const HERE = new URL(".", import.meta.url);
const BESIDE = new Set(["main", "result"]);

/** Names of the benchmarks: the files that stand here. */
function names(): string[] {
  return readdirSync(HERE)
    .filter((file) => file.endsWith(".ts") && !/\.(?:test|prove)\.ts$/.test(file))
    .map((file) => file.slice(0, -".ts".length))
    .filter((name) => !BESIDE.has(name))
    .toSorted();
}

interface Asked {
  readonly name: string;
  readonly input: string | undefined;
  readonly plans: boolean;
}

/** What the command line asks for; words it cannot read end the run with 2. */
function readWords(): Asked {
  try {
    return asked();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    return process.exit(2);
  }
}

function asked(): Asked {
  const { values, positionals } = parseArgs({
    options: { plans: { type: "boolean", default: false } },
    allowPositionals: true,
  });
  const [name, input, ...rest] = positionals;
  if (name === undefined || !names().includes(name) || rest.length > 0)
    throw new RangeError(`bench takes one of: ${names().join(", ")}; then a file or a folder, and --plans`);
  return { name, input, plans: values.plans };
}

const { name, input, plans } = readWords();
const { run } = (await import(new URL(`${name}.ts`, HERE).href)) as Benchmark;
const results = await run({ ...(input === undefined ? {} : { input }), plans });
const processors = cpus();
const machine = { node: process.version, cpu: processors[0]?.model ?? "unknown", cores: processors.length };
process.stdout.write(`${JSON.stringify({ name, machine, results })}\n`);
