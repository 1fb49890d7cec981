/**
 * The screen's end of the engine worker. It keeps the worker's replica in step, asks it questions and hears
 * what it derived. A worker that dies is started again with the document as it stands; only the questions
 * that were open are lost, and say so.
 */
import type { Change, ShowDocument } from "@cornerwise/engine";
import { takeEngineThread } from "./early.ts";
import type {
  Answer,
  Ask,
  DraggedPlacement,
  Preview,
  QuestionKind,
  Questions,
  Rippled,
  Shown,
} from "../worker/messages.ts";

export interface EngineListener {
  derived(revision: number, derived: Shown): void;
  preview(preview: Preview): void;
  /** How far a plan that takes long is, 0 to 1; what is derived follows. */
  progress(share: number): void;
  rippled(rippled: Rippled): void;
  /** Something went wrong in the engine; the document is untouched. */
  fault(message: string): void;
}

interface Waiting {
  resolve(answer: Questions[QuestionKind]["answer"]): void;
  reject(reason: Error): void;
}

/** How often in one visit a dead worker is started again. */
const RESTARTS = 3;

export class Engine {
  readonly #listener: EngineListener;
  readonly #current: () => { readonly revision: number; readonly document: ShowDocument } | undefined;
  readonly #waiting = new Map<number, Waiting>();
  #worker: Worker;
  #number = 0;
  #restarts = 0;

  /** `current` gives the open document, for a worker that has to begin again. */
  constructor(
    listener: EngineListener,
    current: () => { readonly revision: number; readonly document: ShowDocument } | undefined,
  ) {
    this.#listener = listener;
    this.#current = current;
    this.#worker = this.#start();
  }

  open(revision: number, document: ShowDocument): void {
    this.#say({ kind: "open", revision, document });
  }

  /** A change of the open document; with `more`, a slice of a long one. */
  change(change: Change, about: { readonly revision: number; readonly more: boolean }): void {
    this.#say({ kind: "change", change, ...about });
  }

  /** Only the latest of several in a row is answered. */
  preview(placement: DraggedPlacement): void {
    this.#say({ kind: "preview", placement });
  }

  /** Asks one question. Rejects when a bug in the engine cost the answer. */
  ask<K extends QuestionKind>(kind: K, ask: Questions[K]["ask"]): Promise<Questions[K]["answer"]> {
    const number = ++this.#number;
    return new Promise((resolve, reject) => {
      this.#waiting.set(number, { resolve, reject });
      this.#say({ kind, number, ask } as Ask);
    });
  }

  close(): void {
    this.#worker.terminate();
  }

  #start(): Worker {
    const worker = takeEngineThread();
    worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => this.#hear(data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.#died(event.message || "the engine could not be loaded");
    });
    return worker;
  }

  #say(ask: Ask): void {
    this.#worker.postMessage(ask);
  }

  #hear(answer: Answer): void {
    if (answer.kind === "derived") this.#listener.derived(answer.revision, answer.derived);
    else if (answer.kind === "preview") this.#listener.preview(answer.preview);
    else if (answer.kind === "progress") this.#listener.progress(answer.share);
    else if (answer.kind === "rippled") this.#listener.rippled(answer.rippled);
    else if (answer.kind === "answer") this.#settle(answer.number)?.resolve(answer.answer);
    else if (answer.kind === "fault") {
      if (answer.number === undefined) this.#listener.fault(answer.message);
      else this.#settle(answer.number)?.reject(new Error(answer.message));
    }
  }

  #settle(number: number): Waiting | undefined {
    const waiting = this.#waiting.get(number);
    this.#waiting.delete(number);
    return waiting;
  }

  #died(message: string): void {
    this.#worker.terminate();
    for (const number of this.#waiting.keys()) this.#settle(number)?.reject(new Error(message));
    this.#listener.fault(message);
    if (this.#restarts >= RESTARTS) return;
    this.#restarts++;
    this.#worker = this.#start();
    const current = this.#current();
    if (current !== undefined) this.open(current.revision, current.document);
  }
}
