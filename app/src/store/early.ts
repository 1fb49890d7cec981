/**
 * The engine's thread, started before anything else of the screen is evaluated: it loads on the other core
 * while this one makes the screen ready. This file imports nothing, so that it comes first.
 */

/** A new engine thread. */
export function newEngineThread(): Worker {
  return new Worker(new URL("../worker/engine.worker.ts", import.meta.url), { type: "module" });
}

let early: Worker | undefined = typeof Worker === "undefined" ? undefined : newEngineThread();

/** The thread that was started early, the first time; a new one after that. */
export function takeEngineThread(): Worker {
  const thread = early ?? newEngineThread();
  early = undefined;
  return thread;
}
