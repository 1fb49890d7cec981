/** Bytes to text, for files people hand over. */
import type { Problem } from "./problem.ts";

export type Decoded =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problem: Problem };

/** The platform's decoder (WHATWG Encoding Standard), which the engine's own types do not know. */
declare class TextDecoder {
  constructor(label: "utf-8", options?: { fatal?: boolean });
  decode(bytes: Uint8Array, options?: { stream?: boolean }): string;
}

/**
 * Reads bytes as UTF-8, with or without a byte order mark. Bytes that are not UTF-8 answer with a problem that
 * names the first bad byte (counted from 0).
 */
export function decodeUtf8(bytes: Uint8Array): Decoded {
  try {
    return { ok: true, text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    const at = firstBad(bytes);
    const reason = `This is not a text in UTF-8: byte ${at} is not part of any letter. Save it again as UTF-8 text.`;
    return { ok: false, problem: { at, reason } };
  }
}

/**
 * Where the first broken letter begins: halving finds how many bytes stream without a fault, because every
 * prefix of good text does; a letter begun there and never ended (at most three bytes) is broken too.
 */
function firstBad(bytes: Uint8Array): number {
  let good = 0;
  let bad = bytes.length;
  while (good < bad) {
    const middle = (good + bad + 1) >> 1;
    if (reads(bytes.subarray(0, middle), true)) good = middle;
    else bad = middle - 1;
  }
  let begun = good;
  while (begun > good - 3 && begun > 0 && !reads(bytes.subarray(0, begun), false)) begun--;
  return begun;
}

function reads(bytes: Uint8Array, stream: boolean): boolean {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes, { stream });
    return true;
  } catch {
    return false;
  }
}
