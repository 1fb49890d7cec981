/**
 * Two tabs of one browser kept one. On opening, a tab says what it has seen; every other answers with what
 * that tab lacks and says what it has seen itself; from then on each update goes to all. Only what stands in
 * every browser is used: a BroadcastChannel, and web locks to give each tab a number of its own.
 */
import { LIVE_AUDIENCES, type LiveAudience, type Replica } from "./replica.ts";

type Word =
  | {
      readonly kind: "seen";
      readonly audience: LiveAudience;
      readonly seen: Uint8Array<ArrayBuffer>;
      readonly reply: boolean;
    }
  | { readonly kind: "update"; readonly audience: LiveAudience; readonly update: Uint8Array<ArrayBuffer> };

/** Joins the replica with those of other tabs under the same name. Returns how to leave. */
export function joinTabs(replica: Replica, name: string): () => void {
  const channel = new BroadcastChannel(name);
  const say = (word: Word): void => channel.postMessage(word);
  let taking = false;
  channel.addEventListener("message", ({ data }: MessageEvent<Word>) => {
    if (data.kind === "seen") {
      say({ kind: "update", audience: data.audience, update: replica.missing(data.audience, data.seen) });
      if (data.reply)
        say({ kind: "seen", audience: data.audience, seen: replica.seen(data.audience), reply: false });
      return;
    }
    taking = true;
    replica.receive(data.audience, data.update);
    taking = false;
  });
  const stop = replica.onUpdate((audience, update) => {
    // What came over the channel reached the other tabs the same way.
    if (!taking) say({ kind: "update", audience, update });
  });
  for (const audience of LIVE_AUDIENCES)
    say({ kind: "seen", audience, seen: replica.seen(audience), reply: true });
  return () => {
    stop();
    channel.close();
  };
}

const SLOT = "cornerwise-tab";
/** How long a reloaded tab waits for its own number to come free again, ms. */
const PATIENCE = 300;

/**
 * A number for this tab that no other open tab has, the same after a reload, and low numbers first, so that
 * a new visit finds the undo list of the last. Held until the tab closes.
 */
export async function tabNumber(): Promise<string> {
  const mine = sessionStorage.getItem(SLOT);
  const number = navigator.locks === undefined ? (mine ?? crypto.randomUUID()) : await heldNumber(mine);
  sessionStorage.setItem(SLOT, number);
  return number;
}

async function heldNumber(mine: string | null): Promise<string> {
  if (mine !== null && (await hold(mine, { signal: AbortSignal.timeout(PATIENCE) }))) return mine;
  for (let number = 1; ; number++) {
    if (await hold(String(number), { ifAvailable: true })) return String(number);
  }
}

/** Whether the number could be had. It is then held for as long as the tab lives. */
function hold(number: string, options: LockOptions): Promise<boolean> {
  return new Promise((resolve) => {
    navigator.locks
      .request(`${SLOT}-${number}`, options, (lock) => {
        resolve(lock !== null);
        return lock === null ? undefined : new Promise(() => undefined);
      })
      .catch(() => resolve(false));
  });
}
