/** The engine's thread: hears the screen, and lets the messages that wait come in before it sets to work. */
import { createAnswering } from "./answering.ts";
import type { Answer, Ask } from "./messages.ts";

/** Fetched while the rest of this thread is still being evaluated: most visits begin with it. */
const example = import("../../../cases/night-ferry.json?raw");

const { port1: waker, port2: sleeper } = new MessageChannel();
let work: (() => void) | undefined;
sleeper.addEventListener("message", () => {
  const now = work;
  work = undefined;
  now?.();
});
sleeper.start();

const post = (answer: Answer): void => postMessage(answer);
const answering = createAnswering({
  post,
  soon: (next) => {
    work = next;
    waker.postMessage(undefined);
  },
  exampleText: async () => (await example).default,
  printing: () => import("./printing.ts"),
  paging: () => import("./paging.ts"),
});
addEventListener("message", ({ data }: MessageEvent<Ask>) => answering.hear(data));
post({ kind: "ready" });
