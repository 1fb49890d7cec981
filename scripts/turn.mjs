// @ts-check
/** Takes turns: two set-ups at once would each remove what the other has just installed. */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { CACHE, say } from "./words.mjs";

const HOLDER = join(CACHE, "setup.turn");

/**
 * Whether the process that holds the turn still runs; one that died lets go of it.
 * @returns {boolean}
 */
function isHeld() {
  try {
    process.kill(Number(readFileSync(HOLDER, "utf8")), 0);
    return true;
  } catch (error) {
    // Somebody else's process may not be asked, and so it is there.
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}

/** @returns {boolean} whether the turn is ours now */
function taken() {
  try {
    writeFileSync(HOLDER, String(process.pid), { flag: "wx" });
    return true;
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "EEXIST") return false;
    throw error;
  }
}

const letGo = () => rmSync(HOLDER, { force: true });

/**
 * Does the work when no other run of this project does any, and lets go of the turn however it ends.
 * @param {() => Promise<void>} work
 */
export async function inTurn(work) {
  mkdirSync(CACHE, { recursive: true });
  let told = false;
  while (!taken()) {
    if (!isHeld()) letGo();
    else if (!told) {
      say("Setting up: another run is at it; waiting for its end.");
      told = true;
    }
    await pause(told ? 500 : 50);
  }
  process.once("exit", letGo);
  await work();
  process.off("exit", letGo);
  letGo();
}
